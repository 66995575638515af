import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import { columnsOf } from '../../../db/atlas/columns.ts';
import type { Named, Numbers } from '../../../db/atlas/list.ts';
import { listsAndParts } from '../../../db/atlas/lists.ts';
import { rowsOf } from '../../../db/atlas/rows.ts';
import { migrations } from '../../../db/migrations/index.ts';
import * as t from '../../../db/schema.ts';
import type { Atlas } from '../../../reasoner/index.ts';
import { MemoryDatabase } from './memory-database.ts';

/** So many rows are handed over at once. */
const handful = 50_000;

/**
 * The atlas in the tables the desk keeps it in: made by the same migrations, with the indexes these make, of the rows that loading it as one pack writes; in memory, and analysed.
 * What may be searched for, what fits what and the journal are left out: no status asks them.
 */
export const storedTables = async (atlas: Atlas): Promise<MemoryDatabase> => {
  const database = new MemoryDatabase();
  for (const { sql } of migrations) await database.run(sql);
  const numbers = numbersOf(atlas);
  const waiting = new Map<SQLiteTable, (readonly unknown[])[]>();
  const flush = async (table: SQLiteTable, rows: (readonly unknown[])[]): Promise<void> => {
    const { table: name, names } = columnsOf(table);
    await database.fill(`${name} (${names.join(', ')})`, names.length, rows.splice(0) as never);
  };
  const add = async (table: SQLiteTable, row: Readonly<Record<string, unknown>>): Promise<void> => {
    const rows = waiting.get(table) ?? [];
    waiting.set(table, rows);
    rows.push(columnsOf(table).encode(row));
    if (rows.length >= handful) await flush(table, rows);
  };
  for (const list of listsAndParts) {
    const entries: readonly Named[] = atlas[list.name] ?? [];
    for (const [place, entry] of entries.entries()) {
      let line = 0;
      const context = { pack: 'larger', numbers, place, lineAt: () => line++, heldByOthers: false };
      for (const { table, row } of rowsOf(list, entry, context)) await add(table, row);
    }
  }
  for (const { id, allowed } of atlas.models)
    for (const { part, role } of allowed)
      await add(t.sits, { model: numbers.of('models', id), part: numbers.of('parts', part), role, pack: 'larger' });
  for (const [table, rows] of waiting) await flush(table, rows);
  await database.run('analyze');
  return database;
};

const numbersOf = ({ features, models, parts }: Atlas): Numbers => {
  const numbered = (entries: readonly Named[]) => new Map(entries.map(({ id }, n) => [id, n + 1]));
  const all = { features: numbered(features), models: numbered(models), parts: numbered(parts) };
  return {
    of: (list, id) => {
      const number = all[list].get(id);
      if (number === undefined) throw new Error(`the atlas has no ${id} among its ${list}`);
      return number;
    },
  };
};
