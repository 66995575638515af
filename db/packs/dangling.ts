import { getTableName } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import { columnsOf } from '../atlas/columns.ts';
import type { List } from '../atlas/list.ts';
import { listsAndParts } from '../atlas/lists.ts';
import type { Reader } from '../driver/driver.ts';

/** What goes out of a table, by what other rows refer to it by. */
export interface Going {
  readonly table: SQLiteTable;
  readonly keys: readonly (string | number)[];
}

/** Rows that would be left referring to nothing. */
export interface Dangling {
  readonly many: number;
  /** Of the first: the table it stands in, and the one it refers to. */
  readonly table: string;
  readonly parent: string;
}

/** The rows of one table that refer to one that goes. */
export interface Needed {
  readonly table: string;
  readonly parent: string;
  readonly key: string | number;
  readonly many: number;
}

interface Foreign {
  readonly child: string;
  readonly parent: string;
  readonly column: string;
}

/**
 * What other packs refer to of all that goes, or null: asked before anything is written. In the order of SQLite's own `foreign_key_check`.
 * @param pack whose rows go or are written anew; its own references were checked when it was read
 */
export const danglingWithout = async (reader: Reader, pack: string, going: readonly Going[]): Promise<Dangling | null> => {
  const needed = await neededOf(reader, pack, going);
  const [first] = needed;
  return first === undefined ? null : { many: needed.reduce((sum, { many }) => sum + many, 0), table: first.table, parent: first.parent };
};

/** The same, all of it: for each thing that goes the rows of other packs that refer to it, table by table. */
export const neededOf = async (reader: Reader, pack: string, going: readonly Going[]): Promise<readonly Needed[]> => {
  const gone = new Map(going.filter(({ keys }) => keys.length > 0).map(({ table, keys }) => [getTableName(table), keys]));
  if (gone.size === 0) return [];
  const foreign = await reader.all<Foreign>(
    `select l.name as child, f."table" as parent, f."from" as "column" from pragma_table_list l join pragma_foreign_key_list(l.name) f
     where l.schema = 'main' and f.on_delete not in ('CASCADE', 'SET NULL')`,
  );
  const needed: Needed[] = [];
  for (const { child, parent, column } of foreign) {
    const keys = gone.get(parent);
    if (keys === undefined) continue;
    const others = ofOthers(child);
    if (others === null) continue;
    const rows = await reader.all<{ key: string | number; many: number }>(
      `select c."${column}" as key, count(*) as many from ${child} c where c."${column}" in (select value from json_each(?)) and ${others} group by 1`,
      [JSON.stringify(keys), pack],
    );
    for (const { key, many } of rows) needed.push({ table: child, parent, key, many });
  }
  return needed;
};

/** The rows `c` of a table that some other pack than the one bound holds, or null where a table holds nothing of packs. */
const ofOthers = (table: string): string | null => {
  if (['sits', 'sheets', 'search_terms', 'pack_terms'].includes(table)) return 'c.pack <> ?';
  for (const list of listsAndParts) {
    const main = getTableName(list.table);
    if (main === table) return heldByOthers(list, 'c');
    const child = list.children.find((each) => getTableName(each.table) === table);
    if (child === undefined) continue;
    const { names, keys } = columnsOf(child.table);
    const of = names[keys.indexOf(child.of)];
    return `exists (select 1 from ${main} m where m.${list.numbered === null ? 'id' : 'n'} = c."${of}" and ${heldByOthers(list, 'm')})`;
  }
  return null;
};

const heldByOthers = ({ shared, one }: List, row: string): string =>
  shared ? `exists (select 1 from pack_terms h where h.kind = '${one}' and h.id = ${row}.id and h.pack <> ?)` : `${row}.pack <> ?`;
