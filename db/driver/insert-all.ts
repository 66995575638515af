import { getTableColumns, getTableName } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Connection } from './connection.ts';

/** SQLite takes 32766 bindings a statement; past some hundred rows more gain nothing. */
const maxBindings = 32_766;
const maxRows = 500;

/** Inserts many rows of one table, several hundred to a statement: some three times as fast as drizzle's own insert. */
export const insertAll = async <T extends SQLiteTable>(
  connection: Connection,
  table: T,
  rows: readonly T['$inferInsert'][],
): Promise<void> => {
  if (rows.length === 0) return;
  const columns = Object.entries(getTableColumns(table));
  const names = columns.map(([, column]) => column.name).join(', ');
  const oneRow = `(${columns.map(() => '?').join(', ')})`;
  const step = Math.min(maxRows, Math.floor(maxBindings / columns.length));
  for (let start = 0; start < rows.length; start += step) {
    const some = rows.slice(start, start + step) as readonly Record<string, unknown>[];
    const bindings = some.flatMap((row) =>
      columns.map(([key, column]) => {
        const value = row[key] ?? null;
        return value === null ? null : column.mapToDriverValue(value);
      }),
    );
    await connection.run(`insert into ${getTableName(table)} (${names}) values ${some.map(() => oneRow).join(', ')}`, bindings);
  }
};
