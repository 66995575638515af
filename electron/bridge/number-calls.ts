import { z } from 'zod';
import type { KeptStockLine, NumbersAnswer } from '../../db/answers.ts';
import { call } from './call.ts';

/** A part number with all the shop knows of it. */
export interface NumberFound extends NumbersAnswer {
  /** What lies on the shelves of any part named in the answer, and lines in words that have the number. */
  readonly stock: readonly KeptStockLine[];
}

export const numberCalls = {
  /** A part number as it is typed: spaces, signs and case are passed over. */
  'number.find': call(z.strictObject({ text: z.string().max(200) })).returns<NumberFound>(),
} as const;
