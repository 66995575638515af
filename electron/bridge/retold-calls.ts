import { z } from 'zod';
import type { CaseFile } from '../../db/answers.ts';
import type { RetoldCase, RetoldList, RetoldProgress, SheetId } from '../../reasoner/index.ts';
import { isWellFormed } from '../../reasoner/plain/well-formed.ts';
import { call, id, runCall, version } from './call.ts';

/** A line of the list, with the version of what would be said, which leaving it as told is about. */
export interface RetoldRow extends RetoldCase {
  readonly otherwise: string | null;
}

/** Where the judging of all cases stands. */
export type RetoldState =
  | { readonly state: 'running'; readonly progress: RetoldProgress }
  | { readonly state: 'done'; readonly list: Omit<RetoldList, 'cases'> & { readonly cases: readonly RetoldRow[] } };

const text = (max: number) => z.string().max(max).refine(isWellFormed, { error: 'text without half a surrogate pair' });

/** What saved cases would be told today: a list to work off. Nothing is saved by judging. */
export const retoldCalls = {
  /** Begins to judge every case once more; the token is asked about with `retold.progress`. */
  'retold.start': runCall(z.strictObject({})).returns<{ readonly token: string }>(),
  'retold.progress': runCall(z.strictObject({ token: id() })).returns<RetoldState>(),
  /** Stops it; what was judged until then is its answer. */
  'retold.cancel': runCall(z.strictObject({ token: id() })).returns<null>(),
  /** Leaves a case as it was told: its last entry, which may be no other by then, against what would be said in its place (H5). */
  'cases.leave': call(
    z.strictObject({
      sheet: id<SheetId>(),
      entry: z.int().min(1).max(1_000_000),
      otherwise: version,
      reason: text(1000).refine((words) => words.trim() !== '', { error: 'a reason' }),
      who: text(200).default(''),
    }),
  ).returns<CaseFile>(),
} as const;
