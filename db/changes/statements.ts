import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import { columnsOf } from '../atlas/columns.ts';
import { type Encoded, overwriting, type RowChange } from '../atlas/rows.ts';
import type { Statement } from '../driver/driver.ts';
import { columnsOfJson, rowsAsJson } from '../driver/rows-as-json.ts';
import { rowsInStatement } from '../driver/statements.ts';

/**
 * The statements of many changes of rows, several hundred rows of a table to a statement. They are made while the changes are, so that a large one
 * need not stand in memory. References are asked for at the end of the batch, so that tables may come in any order.
 */
export function* statementsOf(changes: Iterable<RowChange>): Generator<Statement> {
  const writing = new Map<SQLiteTable, Encoded[]>();
  const removing = new Map<SQLiteTable, Encoded[]>();
  const full = (waiting: Map<SQLiteTable, Encoded[]>, row: Encoded): readonly Encoded[] | null => {
    const rows = waiting.get(row.table) ?? [];
    waiting.set(row.table, rows);
    rows.push(row);
    return rows.length === rowsInStatement(row.values.length) ? rows.splice(0) : null;
  };
  for (const { write, remove } of changes) {
    for (const row of remove) {
      const rows = full(removing, row);
      if (rows !== null) yield removed(rows);
    }
    for (const row of write) {
      const rows = full(writing, row);
      if (rows !== null) yield written(rows);
    }
  }
  for (const rows of removing.values()) if (rows.length > 0) yield removed(rows);
  for (const rows of writing.values()) if (rows.length > 0) yield written(rows);
}

const marks = (many: number): string => `(${Array.from({ length: many }, () => '?').join(', ')})`;

/** What stands for many rows of values in a statement: one text of JSON, or where that could say something else than they do, each value by itself. */
const valuesOf = (rows: readonly (readonly unknown[])[]): { readonly select: string; readonly params: readonly unknown[] } => {
  const [{ length }] = rows as readonly [readonly unknown[]];
  const json = rowsAsJson(rows);
  if (json !== null) return { select: `select ${columnsOfJson(length)} from jsonb_each(?)`, params: [json] };
  const each = marks(length);
  return { select: `values ${rows.map(() => each).join(', ')}`, params: rows.flat() };
};

const written = (rows: readonly Encoded[]): Statement => {
  const { table } = rows[0] as Encoded;
  const { table: name, names } = columnsOf(table);
  const { select, params } = valuesOf(rows.map(({ values }) => values));
  // Without a condition `on` would be taken for that of a join.
  return { sql: `insert into ${name} (${names.join(', ')}) select * from (${select}) where true ${overwriting(table)}`, params };
};

const removed = (rows: readonly Encoded[]): Statement => {
  const { table } = rows[0] as Encoded;
  const { table: name, key: names } = columnsOf(table);
  const { select, params } = valuesOf(rows.map(({ key }) => key));
  return { sql: `delete from ${name} where (${names.join(', ')}) in (${select})`, params };
};
