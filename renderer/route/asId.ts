import type { Id } from '../../reasoner/index.ts';

/** Marks a plain string from an address or a form as an id. (The window imports types only from the reasoner.) */
export const asId = <T extends Id<string>>(text: string): T => text as T;
