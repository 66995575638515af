import { z } from 'zod';
import { sheetSchema } from '../../db/sheets/schema.ts';
import type { FeatureId, Slip } from '../../reasoner/index.ts';
import { lengthUnits } from '../../reasoner/plain/units.ts';
import { id, reasonedCall } from './call.ts';

/** Figures as they were typed: what no figure can be is for the answer to say. */
const value = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('count'), from: z.number(), to: z.number() }),
  z.strictObject({ kind: z.literal('measure'), value: z.number() }),
  z.strictObject({ kind: z.literal('choice'), option: z.string().max(200) }),
  z.strictObject({ kind: z.literal('presence'), present: z.boolean() }),
  z.strictObject({ kind: z.literal('mark'), text: z.string().max(2000).nullable() }),
]);
const sure = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('seen') }),
  z.strictObject({ kind: z.literal('measured'), u: z.number() }),
  z.strictObject({ kind: z.literal('told') }),
]);

export const entryCalls = {
  /** Whether an entry may be a slip (O7), before it goes on the sheet: its figures, or a number on the plate beside what else the plate says. Said in `lengths`, else in mm. */
  'entry.slip': reasonedCall(
    z.strictObject({ sheet: sheetSchema, feature: id<FeatureId>(), value, sure, lengths: z.enum(lengthUnits).optional() }),
  ).returns<Slip>(),
} as const;
