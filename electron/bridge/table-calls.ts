import { z } from 'zod';
import type { Edit } from '../../db/answers.ts';
import type { CellFault } from '../../db/tables/cell-fault.ts';
import type { Cell } from '../../db/tables/cells.ts';
import { type ColumnUse, type Matching, matchingSchema, mendedSchema, tableKinds } from '../../db/tables/column-use.ts';
import type { ColumnMatch } from '../../db/tables/match-columns.ts';
import type { TableRead } from '../../db/tables/taking.ts';
import type { SlotId, Source } from '../../reasoner/index.ts';
import { call, id, runCall } from './call.ts';
import { filePart, fileToken } from './file-parts.ts';

export type { CellFault } from '../../db/tables/cell-fault.ts';
export type { Cell } from '../../db/tables/cells.ts';
export type { ColumnUse, FigurePart, Matching, Mended, TableKind, WrittenUnit } from '../../db/tables/column-use.ts';
export type { ColumnMatch } from '../../db/tables/match-columns.ts';

const kind = z.enum(tableKinds);
const slot = id<SlotId>().nullable();

/** What stands in a file of cells: its sheets, and of one of them the headings and what stands below. */
export interface TableSeen {
  readonly file: string;
  /** What was taken for granted in reading it, each a sentence. */
  readonly notes: readonly string[];
  readonly sheets: readonly { readonly name: string; readonly hidden: boolean; readonly rows: number }[];
  readonly headings: readonly string[];
  /** The first rows below the headings. */
  readonly first: readonly (readonly string[])[];
  /** Rows below the headings, empty ones too. */
  readonly rows: number;
}

/** What a table is, and what each of its columns was taken for. */
export interface TableMatched extends TableSeen {
  readonly matching: Matching;
  /** How surely, and why; of a column taken by a template, that. */
  readonly matches: readonly ColumnMatch[];
  /** Ways of reading a table that were kept, and whether their headings are these. */
  readonly templates: readonly { readonly name: string; readonly fits: boolean }[];
  /** The one it was matched by. */
  readonly by: string | null;
}

/** What a column may be taken for, and how that is said. */
export interface UseOffered {
  readonly use: ColumnUse;
  readonly label: string;
  /** What else it is found by. */
  readonly words: string;
}

/** A table as it was read; of very many faults the first, and of rows those that have one. */
export interface TableLooked {
  readonly counts: TableRead['counts'];
  readonly faults: readonly CellFault[];
  readonly faultsInAll: number;
  /** How many edits it comes to. */
  readonly edits: number;
}

const read = { token: fileToken, matching: matchingSchema, mended: mendedSchema } as const;
const from = z.enum(['invented', 'measured in the shop', 'published', 'common practice, no source']) satisfies z.ZodType<Source['kind']>;

/** A spreadsheet on its way in, held by its token, and tables on their way out. Nothing is saved by these but ways of reading a table. */
export const tableCalls = {
  /** Hands in a file, or the text that was pasted, by parts: the first without a token, every other with the token it got. */
  'table.handIn': runCall(z.strictObject({ token: fileToken.nullable(), name: z.string().min(1).max(300), data: filePart })).returns<{
    readonly token: string;
    readonly bytes: number;
  }>(),
  /** What its columns are: by the template named, else by one whose headings are these, else by the headings themselves. `template: ''`: by none. */
  'table.match': runCall(
    z.strictObject({
      token: fileToken,
      kind,
      sheet: z.string().max(300).nullable(),
      headings: z.int().min(0).max(20_000).nullable(),
      slot,
      template: z.string().max(200).nullable(),
    }),
  ).returns<TableMatched>(),
  /** All that a column of such a table may be taken for. */
  'table.uses': runCall(z.strictObject({ kind, slot })).returns<readonly UseOffered[]>(),
  'table.rows': runCall(
    z.strictObject({ token: fileToken, sheet: z.string().max(300).nullable(), from: z.int().min(1), count: z.int().min(1).max(500) }),
  ).returns<{ readonly rows: readonly (readonly Cell[])[]; readonly inAll: number }>(),
  'table.read': runCall(z.strictObject(read)).returns<TableLooked>(),
  /** The edits that bring it in, each with its row, to be looked at and made as any others. */
  'table.edits': runCall(z.strictObject({ ...read, from })).returns<{
    readonly edits: readonly Edit[];
    readonly rows: readonly (number | null)[];
    /** Where they come from, in words. */
    readonly source: string;
  }>(),
  /** Makes a table of what the atlas holds. It is fetched with `table.part`, part 0 first. */
  'table.write': runCall(z.strictObject({ kind, slot, found: z.string().max(300), format: z.enum(['xlsx', 'csv']) })).returns<{
    readonly token: string;
    readonly name: string;
    readonly parts: number;
    readonly rows: number;
  }>(),
  'table.part': runCall(z.strictObject({ token: fileToken, part: z.int().min(0).max(1000) })).returns<{ readonly data: string }>(),
  /** Keeps how a table was matched, under a name; one of that name is written over. */
  'table.keep': call(
    z.strictObject({ name: z.string().trim().min(1).max(200), headings: z.array(z.string().max(4000)).max(300), matching: matchingSchema }),
  ).returns<null>(),
  'table.forget': call(z.strictObject({ name: z.string().min(1).max(200) })).returns<null>(),
} as const;
