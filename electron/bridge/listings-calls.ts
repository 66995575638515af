import { z } from 'zod';
import { type ListingMatch, type ListingMatching, listingMatchingSchema } from '../../db/tables/listing-columns.ts';
import type { Listings, ListingsProgress, ListingsRow, Sheet, Standing } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { id, runCall } from './call.ts';
import { filePart, fileToken } from './file-parts.ts';
import type { TableSeen } from './table-calls.ts';

export type { ListingMatch, ListingMatching, ListingUse } from '../../db/tables/listing-columns.ts';

/** Where the judging of many stands. Of what is done the rows are fetched by themselves: there may be thousands. */
export type ListingsState =
  | { readonly state: 'running'; readonly progress: ListingsProgress }
  | { readonly state: 'done'; readonly listings: ListingsDone };

export interface ListingsDone extends Omit<Listings, 'rows'> {
  readonly rows: number;
  /** How many there are of each standing there is, in the order of the list. */
  readonly counts: readonly { readonly standing: Standing; readonly rows: number }[];
}

/** What a table of listings is, and what each of its columns was taken for. */
export interface ListingsMatched extends TableSeen {
  readonly matching: ListingMatching;
  readonly matches: readonly ListingMatch[];
}

const token = id();

/** Many listings and sheets at once, in order of how plainly their claims fail. Nothing of it is saved. */
export const listingsCalls = {
  /** Hands in a table, or the text that was pasted, by parts: the first without a token, every other with the token it got. */
  'listings.handIn': runCall(z.strictObject({ token: fileToken.nullable(), name: z.string().min(1).max(300), data: filePart })).returns<{
    readonly token: string;
    readonly bytes: number;
  }>(),
  /** What the columns of a table of listings are; null of a table of sheets, which has its own. */
  'listings.columns': runCall(
    z.strictObject({ token: fileToken, sheet: z.string().max(300).nullable(), headings: z.int().min(0).max(20_000).nullable() }),
  ).returns<ListingsMatched | null>(),
  /**
   * Begins to judge: sheet files by their texts (null: bytes that are no UTF-8), tables that were handed in, each as it was matched (null: by its headings), and the shelf
   * where that is asked for. The token is asked about with `listings.progress`.
   */
  'listings.start': runCall(
    z.strictObject({
      files: z.array(z.strictObject({ name: z.string().min(1).max(300), text: z.string().max(limits.tableLetters).nullable() })).max(5000),
      tables: z.array(z.strictObject({ token: fileToken, matching: listingMatchingSchema.nullable() })).max(20),
      shelf: z.boolean(),
    }),
  ).returns<{ readonly token: string }>(),
  'listings.progress': runCall(z.strictObject({ token })).returns<ListingsState>(),
  /** Rows of what is done, in the order of the list, from one (0 the first) on. */
  'listings.rows': runCall(z.strictObject({ token, from: z.int().min(0), count: z.int().min(1).max(1000) })).returns<
    readonly ListingsRow[]
  >(),
  /** Stops it; what was judged until then is its answer, and the rest is listed as not reached. */
  'listings.cancel': runCall(z.strictObject({ token })).returns<null>(),
  /** The sheet of one row (by its source) of a judging under way or done, to be put on the bench. */
  'listings.sheet': runCall(z.strictObject({ token, source: z.string().min(1).max(1000) })).returns<Sheet>(),
  /** What was judged and is done, as CSV; fetched by its parts. */
  'listings.csv': runCall(z.strictObject({ token })).returns<{ readonly token: string; readonly parts: number }>(),
  'listings.part': runCall(z.strictObject({ token: fileToken, part: z.int().min(0).max(1000) })).returns<{ readonly data: string }>(),
} as const;
