import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import * as t from '../schema.ts';
import { columnsOf } from './columns.ts';
import type { List, Named, Numbers, Values } from './list.ts';

/** A row of some table, as drizzle names its columns. */
export interface TableRow {
  readonly table: SQLiteTable;
  readonly row: Values;
}

export interface RowsContext {
  readonly pack: string;
  readonly numbers: Numbers;
  /** The place of the entry among those of its list. */
  readonly place: number;
  /** The place of a line of it, by the field and the line's key. */
  readonly lineAt: (field: string, key: string) => number;
  /** Whether another pack holds this entry of a shared list: its rows are then not this pack's to write or to take away. */
  readonly heldByOthers: boolean;
}

/** Every row an entry is kept in. */
export const rowsOf = (list: List, entry: Named, { pack, numbers, place, lineAt, heldByOthers }: RowsContext): TableRow[] => {
  const held: TableRow[] = list.shared ? [{ table: t.packTerms, row: { pack, kind: list.one, id: entry.id, position: place } }] : [];
  if (list.shared && heldByOthers) return held;
  const whose = list.numbered === null ? entry.id : numbers.of(list.numbered, entry.id);
  const main = {
    ...entry,
    ...list.toRow(entry, numbers),
    ...(list.numbered === null ? {} : { n: whose }),
    ...(list.shared ? {} : { pack, position: place }),
  };
  const children = list.children.flatMap(({ table, of, rows, line }): TableRow[] => {
    const keys =
      line === undefined
        ? null
        : list.keyed
            .find(({ fields }) => fields[0] === line.field)
            ?.linesOf(entry)
            .map(([key]) => key);
    return rows(entry, numbers).map((row, index) => ({
      table,
      row: { ...row, [of]: whose, ...(line === undefined ? {} : { position: lineAt(line.field, keys?.[index] ?? '') }) },
    }));
  });
  return [...held, { table: list.table, row: main }, ...children];
};

/** A row as its table takes it, with the values of its primary key. */
export interface Encoded {
  readonly table: SQLiteTable;
  readonly values: readonly unknown[];
  readonly key: readonly unknown[];
}

const bare = ({ table, row }: TableRow): Encoded => {
  const { names, key, encode } = columnsOf(table);
  const values = encode(row);
  return { table, values, key: key.map((column) => values[names.indexOf(column)]) };
};

const encoded = (of: TableRow): [id: string, Encoded] => {
  const row = bare(of);
  return [`${columnsOf(of.table).table} ${JSON.stringify(row.key)}`, row];
};

/** What leads from some rows to others: rows to write, new or otherwise than they were, and rows to take away. */
export interface RowChange {
  readonly write: readonly Encoded[];
  readonly remove: readonly Encoded[];
}

export const rowsBetween = (before: readonly TableRow[], after: readonly TableRow[]): RowChange => {
  if (before.length === 0) return { write: after.map(bare), remove: [] };
  const was = new Map(before.map(encoded));
  const is = new Map(after.map(encoded));
  return {
    write: [...is].flatMap(([id, row]) => {
      const old = was.get(id);
      return old !== undefined && JSON.stringify(old.values) === JSON.stringify(row.values) ? [] : [row];
    }),
    remove: [...was].flatMap(([id, row]) => (is.has(id) ? [] : [row])),
  };
};

/** `on conflict` for a table: the row that is there says what the new one says. */
export const overwriting = (table: SQLiteTable): string => {
  const { names, key } = columnsOf(table);
  const others = names.filter((name) => !key.includes(name));
  const sets = others.map((name) => `${name} = excluded.${name}`);
  return `on conflict (${key.join(', ')}) do ${sets.length === 0 ? 'nothing' : `update set ${sets.join(', ')}`}`;
};
