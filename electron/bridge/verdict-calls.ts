import { z } from 'zod';
import { sheetSchema } from '../../db/sheets/schema.ts';
import type { Contradicted, NameAnswer, NameId, Status, Verdict } from '../../reasoner/index.ts';
import { id, longCall } from './call.ts';

/** A verdict as it is told after every entry. Of hundreds of names judged its `names` are those it speaks of: honest, claimed, or named by the words for the ticket; `verdict.names` has all. */
export interface VerdictAtOnce extends Verdict {
  /** How many names stand, are open and are ruled out in all. */
  readonly counts: Readonly<Record<Status, number>>;
}
export type AnswerAtOnce = Contradicted | VerdictAtOnce;

export const verdictCalls = {
  /** The verdict on a sheet as it stands in the window, saved or not. Conflicts and swaps are there for the claimed name; of any other name they are asked for by `verdict.explain`. */
  'verdict.of': longCall(z.strictObject({ sheet: sheetSchema })).returns<AnswerAtOnce>(),
  /** Every name judged for the sheet, best rung first, without conflicts. */
  'verdict.names': longCall(z.strictObject({ sheet: sheetSchema })).returns<readonly NameAnswer[]>(),
  /** Conflicts and swap sets of any one name, whatever its rung: its conflicts up to a thousand, or `all` of them, which may take seconds. */
  'verdict.explain': longCall(
    z.strictObject({ sheet: sheetSchema, name: id<NameId>(), all: z.boolean().exactOptional() }),
  ).returns<NameAnswer>(),
} as const;
