import { z } from 'zod';
import type { Sheet, Triage, TriageProgress } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { id, runCall } from './call.ts';

/** Where a triage stands. */
export type TriageState =
  | { readonly state: 'running'; readonly progress: TriageProgress }
  | { readonly state: 'done'; readonly triage: Triage };

/** Many sheets at once, in order of how plainly their claims fail. Nothing of it is saved. */
export const triageCalls = {
  /**
   * Begins a triage of sheet files and tables, by their texts (null: bytes that are no UTF-8), and of the shelf where that is asked for. The
   * token is asked about with `triage.progress`.
   */
  'triage.start': runCall(
    z.strictObject({
      files: z.array(z.strictObject({ name: z.string().min(1).max(300), text: z.string().max(limits.tableLetters).nullable() })).max(5000),
      shelf: z.boolean(),
    }),
  ).returns<{ readonly token: string }>(),
  'triage.progress': runCall(z.strictObject({ token: id() })).returns<TriageState>(),
  /** Stops it; what was judged until then is its answer, and the rest is listed as not reached. */
  'triage.cancel': runCall(z.strictObject({ token: id() })).returns<null>(),
  /** The sheet of one row (by its source) of a triage under way or done, to be put on the bench. */
  'triage.sheet': runCall(z.strictObject({ token: id(), source: z.string().min(1).max(1000) })).returns<Sheet>(),
  /** A triage that is done, as CSV. */
  'triage.csv': runCall(z.strictObject({ token: id() })).returns<string>(),
} as const;
