import { aheadOf } from './aheadOf.ts';
import { desk } from './desk.ts';

/** What is asked ahead in this window. */
export const ahead = aheadOf(desk.ask);
