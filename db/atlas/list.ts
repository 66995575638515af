import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { z } from 'zod';
import type { FeatureId, ModelId, PartId } from '../../reasoner/index.ts';
import type { Said } from './cell.ts';

export interface Named {
  readonly id: string;
}

/** A row as drizzle names its columns. */
export type Values = Readonly<Record<string, unknown>>;

/** The lists whose entries are referred to by a whole number, `n`: tables that grow with the atlas do so. */
export type Numbered = 'features' | 'models' | 'parts';

/** Numbers of ids, on the way into the tables. An id without one is a bug. */
export interface Numbers {
  of(list: Numbered, id: string): number;
}

/** Ids of numbers, on the way out. A feature's rank is its place among those read, or after them. */
export interface Ids {
  readonly models: ReadonlyMap<number, ModelId>;
  readonly parts: ReadonlyMap<number, PartId>;
  readonly features: ReadonlyMap<number, { readonly id: FeatureId; readonly rank: number }>;
}

/** Rows as columns: what SQLite has of each column, row after row, under the table's own names. */
export interface Packed {
  readonly rows: number;
  readonly of: (name: string) => readonly unknown[];
}

/** Takes rows in by primary key, page after page, and then says what `Child.read` says of each entry's. */
export interface Gathered {
  readonly take: (page: Packed) => void;
  readonly said: () => ReadonlyMap<unknown, Values>;
}

/** A table beside the list's own: many rows to an entry. They go when the entry goes. */
export interface Child<E> {
  readonly table: SQLiteTable;
  /** Its column that says whose row it is: the entry's `n` where the list is numbered, else its id. */
  readonly of: string;
  /** The rows of one entry, without that column. */
  readonly rows: (entry: E, numbers: Numbers) => readonly Values[];
  /** What the rows of one entry, by position where they have one, say of it; none say something too. */
  readonly read: (rows: readonly never[], ids: Ids) => Values;
  /** The same of all entries, without an object for each row: for a table that outgrows all others. Its primary key begins with `of`. */
  readonly gather?: (ids: Ids) => Gathered;
  /** Where each row is a line of a keyed list that keeps its place in `position`: that list's field, and the line's key. */
  readonly line?: { readonly field: string; readonly keyOf: (row: never, ids: Ids) => string | undefined };
}

interface SaidChild<E, T extends SQLiteTable> {
  readonly table: T;
  readonly of: keyof T['$inferSelect'] & string;
  readonly rows: (entry: E, numbers: Numbers) => readonly Values[];
  readonly read: (rows: readonly T['$inferSelect'][], ids: Ids) => Partial<E>;
  readonly gather?: (ids: Ids) => Gathered;
  readonly line?: { readonly field: keyof E & string; readonly keyOf: (row: T['$inferSelect'], ids: Ids) => string | undefined };
}

export const child =
  <E>() =>
  <T extends SQLiteTable>(said: SaidChild<E, T>): Child<E> =>
    said;

/** What an entry's other ids are said to be, where they do not agree: found, expected. */
export type Disagreement = readonly [found: string, expected: string];

/** Ids in an entry that lead to another entry, of this list or another, in the same pack or beside it. */
export interface Reference<E> {
  /** The way to it from the entry; `*` stands for every place of a list there. Where nothing stands, or null, nothing is asked. */
  readonly at: readonly string[];
  /** What it leads to, as the list calls one: `source`. */
  readonly to: string;
  /** What else must hold of the two. `found` is undefined where the id leads nowhere. */
  readonly agrees?: (found: Values | undefined, entry: E, path: readonly PropertyKey[]) => readonly Disagreement[];
}

/** A relation of a list with itself that may run in no circle. */
export interface Line<E> {
  /** The field a circle is said of. */
  readonly field: string;
  readonly next: (entry: E) => readonly string[];
}

/** What in an entry is a list with keys: every line of it is said by itself (H1). */
export interface Keyed<E> {
  /** The fields the lines make up; the first names them. */
  readonly fields: readonly [string, ...string[]];
  /** Whether their order says anything. */
  readonly ordered: boolean;
  readonly linesOf: (entry: E) => readonly (readonly [key: string, is: Said])[];
  /** The fields again, from one line or more, in order. */
  readonly from: (lines: readonly (readonly [key: string, is: Said])[]) => Values;
}

/** A field that is a list of objects, each told from the others by one of its fields, which comes first in it. */
export const keyedBy = <E>(field: keyof E & string, key: string): Keyed<E> => ({
  fields: [field],
  ordered: true,
  linesOf: (entry) =>
    ((entry[field] ?? []) as readonly Values[]).map((line) => {
      const { [key]: of, ...is } = line;
      return [of as string, is] as const;
    }),
  from: (lines) => ({ [field]: lines.map(([of, is]) => ({ [key]: of, ...(is as Values) })) }),
});

/** One list of the atlas: how it is named, kept, checked, and said cell by cell. */
export interface List<E extends Named = Named, One extends string = string> {
  /** What one entry is called, in faults and where packs hold shared ones: `instrument`. */
  readonly one: One;
  /** Whether packs that say the same of an entry share it; otherwise every entry belongs to one pack. */
  readonly shared: boolean;
  /** Whether a pack may leave the file out; it is then not written where it would hold nothing. */
  readonly optional: boolean;
  readonly table: SQLiteTable;
  readonly numbered: Numbered | null;
  /** Of one entry. The order of its fields is the canonical one. */
  readonly schema: z.ZodType<E>;
  readonly fields: readonly { readonly name: string; readonly optional: boolean }[];
  /** Columns that are not fields of the same name, from the entry. */
  readonly toRow: (entry: E, numbers: Numbers) => Values;
  /** Fields that are neither columns of the same name nor a child's, from the row. */
  readonly toEntry: (row: Values, ids: Ids) => Values;
  readonly children: readonly Child<E>[];
  readonly references: readonly Reference<E>[];
  readonly lines: readonly Line<E>[];
  readonly keyed: readonly Keyed<E>[];
}

interface Row<E extends Named, One extends string, T extends SQLiteTable> {
  readonly one: One;
  readonly shared?: true;
  readonly optional?: true;
  readonly table: T;
  readonly numbered?: Numbered;
  readonly schema: z.ZodType<E> & { readonly shape: Readonly<Record<string, z.ZodType>> };
  readonly toRow?: (entry: E, numbers: Numbers) => Partial<T['$inferInsert']>;
  readonly toEntry?: (row: T['$inferSelect'], ids: Ids) => Partial<E>;
  readonly children?: readonly Child<E>[];
  readonly references?: readonly Reference<E>[];
  readonly lines?: readonly Line<E>[];
  readonly keyed?: readonly Keyed<E>[];
}

/** Fills in what a list leaves unsaid: fields and columns of the same names, nothing beside its table, no references. */
export const list =
  <E extends Named>() =>
  <const One extends string, T extends SQLiteTable>(said: Row<E, One, T>): List<E, One> => ({
    one: said.one,
    shared: said.shared ?? false,
    optional: said.optional ?? false,
    table: said.table,
    numbered: said.numbered ?? null,
    schema: said.schema,
    fields: Object.entries(said.schema.shape).map(([name, field]) => ({ name, optional: field._zod.optin === 'optional' })),
    toRow: (said.toRow ?? (() => ({}))) as List<E>['toRow'],
    toEntry: (said.toEntry ?? (() => ({}))) as List<E>['toEntry'],
    children: said.children ?? [],
    references: said.references ?? [],
    lines: said.lines ?? [],
    keyed: said.keyed ?? [],
  });
