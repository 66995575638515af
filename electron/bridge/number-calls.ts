import { z } from 'zod';
import type { KeptStockLine, NumbersAnswer } from '../../db/answers.ts';
import { sheetSchema } from '../../db/sheets/schema.ts';
import type { FeatureId, NumberSoFar } from '../../reasoner/index.ts';
import { call, id, reasonedCall } from './call.ts';

/** A part number with all the shop knows of it. */
export interface NumberFound extends NumbersAnswer {
  /** What lies on the shelves of any part named in the answer, and lines in words that have the number. */
  readonly stock: readonly KeptStockLine[];
}

export const numberCalls = {
  /** A part number as it is typed: spaces, signs and case are passed over. */
  'number.find': call(z.strictObject({ text: z.string().max(200) })).returns<NumberFound>(),
  /** What a number means as far as it is typed (O5); `entry` where it is one of the plate on a sheet. */
  'number.soFar': reasonedCall(
    z.strictObject({
      text: z.string().max(200),
      says: z.enum(['part number', 'serial number']),
      entry: z.strictObject({ feature: id<FeatureId>(), sheet: sheetSchema }).nullable(),
    }),
  ).returns<NumberSoFar>(),
} as const;
