import { z } from 'zod';
import type { Listings, ListingsProgress, Sheet } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { id, runCall } from './call.ts';

/** Where the judging of many stands. */
export type ListingsState =
  | { readonly state: 'running'; readonly progress: ListingsProgress }
  | { readonly state: 'done'; readonly listings: Listings };

/** Many sheets at once, in order of how plainly their claims fail. Nothing of it is saved. */
export const listingsCalls = {
  /**
   * Begins to judge sheet files and tables, by their texts (null: bytes that are no UTF-8), and of the shelf where that is asked for. The
   * token is asked about with `listings.progress`.
   */
  'listings.start': runCall(
    z.strictObject({
      files: z.array(z.strictObject({ name: z.string().min(1).max(300), text: z.string().max(limits.tableLetters).nullable() })).max(5000),
      shelf: z.boolean(),
    }),
  ).returns<{ readonly token: string }>(),
  'listings.progress': runCall(z.strictObject({ token: id() })).returns<ListingsState>(),
  /** Stops it; what was judged until then is its answer, and the rest is listed as not reached. */
  'listings.cancel': runCall(z.strictObject({ token: id() })).returns<null>(),
  /** The sheet of one row (by its source) of a judging under way or done, to be put on the bench. */
  'listings.sheet': runCall(z.strictObject({ token: id(), source: z.string().min(1).max(1000) })).returns<Sheet>(),
  /** What was judged and is done, as CSV. */
  'listings.csv': runCall(z.strictObject({ token: id() })).returns<string>(),
} as const;
