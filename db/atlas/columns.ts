import { getTableColumns, getTableName } from 'drizzle-orm';
import { getTableConfig, type SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Values } from './list.ts';

export interface Columns {
  readonly table: string;
  /** As drizzle names them, and as the table does. */
  readonly keys: readonly string[];
  readonly names: readonly string[];
  /** Whether drizzle has a column of this name. */
  readonly has: (key: string) => boolean;
  /** Whether the column the table calls so holds numbers that need not be whole. */
  readonly isReal: (name: string) => boolean;
  /** Which of them are the primary key, as the table names them. */
  readonly key: readonly string[];
  /** A row as SQLite has it, as drizzle would hand it over. Drizzle itself takes twice as long, and most rows of an atlas come this way. */
  readonly decode: (bare: Values) => Values;
  /** The other way: one binding for each column, null for what is not there. */
  readonly encode: (row: Values) => readonly unknown[];
}

const known = new Map<SQLiteTable, Columns>();

export const columnsOf = (table: SQLiteTable): Columns => {
  const found = known.get(table) ?? make(table);
  known.set(table, found);
  return found;
};

const make = (table: SQLiteTable): Columns => {
  const columns = Object.entries(getTableColumns(table));
  const config = getTableConfig(table);
  const key = config.primaryKeys[0]?.columns.map(({ name }) => name) ?? columns.flatMap(([, { primary, name }]) => (primary ? [name] : []));
  if (key.length === 0) throw new Error(`the table ${getTableName(table)} has no primary key`);
  const keys = new Set(columns.map(([as]) => as));
  const reals = new Set(columns.flatMap(([, column]) => (column.getSQLType() === 'real' ? [column.name] : [])));
  // Texts and numbers come as they are.
  const plain = new Set(['string', 'number']);
  const steps = columns.map(([as, column]) => ({ as, name: column.name, column: plain.has(column.dataType) ? null : column }));
  return {
    table: getTableName(table),
    keys: columns.map(([as]) => as),
    names: columns.map(([, { name }]) => name),
    has: (as) => keys.has(as),
    isReal: (name) => reals.has(name),
    key,
    decode: (bare) => {
      const row: Record<string, unknown> = {};
      for (const { as, name, column } of steps) {
        const value = bare[name] ?? null;
        row[as] = value === null || column === null ? value : column.mapFromDriverValue(value);
      }
      return row;
    },
    encode: (row) =>
      columns.map(([as, column]) => {
        const value = row[as] ?? null;
        return value === null ? null : column.mapToDriverValue(value);
      }),
  };
};
