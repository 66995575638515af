import { getTableName } from 'drizzle-orm';
import { columnsOf } from '../atlas/columns.ts';
import type { List } from '../atlas/list.ts';
import { listsAndParts } from '../atlas/lists.ts';
import type { Reader } from '../driver/driver.ts';
import type { Version } from '../plain/version.ts';
import * as t from '../schema.ts';
import type { HeldPack, NeededBy, NeededPlace, PackCounts } from './held-pack.ts';

/** So many names stand for all of one sort. */
const named = 5;

/** The packs of the atlas, by id, with what would go with each and what keeps it in. Nothing is read whole: counts and references are asked of SQLite. */
export const heldPacks = async (reader: Reader): Promise<readonly HeldPack[]> => {
  const rows = await reader.orm.select().from(t.packs).orderBy(t.packs.id);
  const needs = await needsAmong(reader, rows.length);
  const packs: HeldPack[] = [];
  for (const { id, title, edition, invented, own, note, leansOn, licence, by, hash } of rows) {
    const neededBy = rows.flatMap((other): readonly NeededBy[] => {
      if (other.id === id) return [];
      const leans = other.leansOn?.includes(id) ?? false;
      const places = needs.filter((need) => need.of === id && need.by === other.id).map(({ of: _of, by: _by, ...place }) => place);
      return leans || places.length > 0 ? [{ pack: other.id, title: other.title, leans, places }] : [];
    });
    packs.push({
      id,
      title,
      edition,
      invented,
      own,
      note,
      leansOn: leansOn ?? [],
      licence,
      by,
      version: hash as Version,
      counts: await countsOfPack(reader, id),
      neededBy,
    });
  }
  return packs;
};

const countsOfPack = async (reader: Reader, pack: string): Promise<PackCounts> => {
  const [row] = await reader.all<Record<keyof PackCounts, number>>(
    `select (select count(*) from makers where pack = ?1) as makers, (select count(*) from families where pack = ?1) as families,
       (select count(*) from models where pack = ?1) as models, (select count(*) from parts where pack = ?1) as parts,
       (select count(*) from sheets where pack = ?1 and origin = 'sample') as samples,
       (select count(*) from pack_terms w where w.pack = ?1 and w.kind <> 'source'
          and not exists (select 1 from pack_terms o where o.kind = w.kind and o.id = w.id and o.pack <> ?1)) as words,
       (select count(*) from own_words where pack = ?1) as ownWords`,
    [pack],
  );
  if (row === undefined) throw new Error('a count without a row');
  const { makers, families, models, parts, samples, words, ownWords } = row;
  return { makers, families, models, parts, samples, words, ownWords };
};

interface Foreign {
  readonly child: string;
  readonly parent: string;
  readonly column: string;
  readonly to: string | null;
}
type Need = NeededPlace & { readonly of: string; readonly by: string };

/** What packs say of entries that only another one holds, as far as a row refers to a row. */
const needsAmong = async (reader: Reader, packs: number): Promise<readonly Need[]> => {
  if (packs < 2) return [];
  const foreign = await reader.all<Foreign>(
    `select l.name as child, f."table" as parent, f."from" as "column", f."to" as "to" from pragma_table_list l join pragma_foreign_key_list(l.name) f
     where l.schema = 'main' and f.on_delete not in ('CASCADE', 'SET NULL') order by l.name, f.id`,
  );
  const needs = new Map<string, Need>();
  for (const { child, parent, column, to } of foreign) {
    const here = listsAndParts.find(({ table }) => getTableName(table) === parent);
    const there = sayingOf(child, column);
    if (here === undefined || there === null) continue;
    const held = holding(here, 'p');
    const found = await reader.all<{ held: string; said: string; name: string; many: number }>(
      `with met as (
         select distinct ${held.pack} as held, c.pack as said, c.name from (${there.rows}) c
         join ${parent} p on p."${to ?? (here.numbered === null ? 'id' : 'n')}" = c.key ${held.join} where c.pack <> ${held.pack} ${held.alone}
       )
       select held, said, name, many from (
         select *, count(*) over (partition by held, said) as many, row_number() over (partition by held, said order by name) as place from met
       ) where place <= ${named} order by held, said, place`,
    );
    for (const { held: of, said: by, name, many } of found) {
      const sort = JSON.stringify([of, by, there.one, here.one]);
      const before = needs.get(sort);
      // Two columns of one table may lead to one list: the larger count is not more than there are.
      needs.set(sort, {
        of,
        by,
        from: there.one,
        to: here.one,
        many: Math.max(many, before?.many ?? 0),
        names: [...new Set([...(before?.names ?? []), name])].slice(0, named),
      });
    }
  }
  return [...needs.values()].sort((a, b) => compare(a.from, b.from) || compare(a.to, b.to));
};

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** The rows of a table that belong to packs, as `pack`, `name` and the `key` they refer by; null where it holds nothing of packs. */
const sayingOf = (table: string, column: string): { readonly one: string; readonly rows: string } | null => {
  if (table === 'sits')
    return {
      one: 'allowed',
      rows: `select c.pack, x.name || ' in ' || m.name as name, c."${column}" as key from sits c join parts x on x.n = c.part join models m on m.n = c.model`,
    };
  for (const list of listsAndParts) {
    const main = getTableName(list.table);
    const { join, pack } = holding(list, 'm');
    const name = `m.${['name', 'title'].find((each) => columnsOf(list.table).names.includes(each)) ?? 'id'}`;
    if (main === table)
      return { one: list.one, rows: `select ${pack} as pack, ${name} as name, m."${column}" as key from ${main} m ${join}` };
    const child = list.children.find((each) => getTableName(each.table) === table);
    if (child === undefined) continue;
    const { names, keys } = columnsOf(child.table);
    const of = names[keys.indexOf(child.of)];
    return {
      one: list.one,
      rows: `select ${pack} as pack, ${name} as name, c."${column}" as key from ${table} c join ${main} m on m.${list.numbered === null ? 'id' : 'n'} = c."${of}" ${join}`,
    };
  }
  return null;
};

/** Whose the row of a list is: a shared one belongs to every pack that holds it. `alone`: where no other pack does. */
const holding = ({ one, shared }: List, row: string) =>
  shared
    ? {
        join: `join pack_terms h${row} on h${row}.kind = '${one}' and h${row}.id = ${row}.id`,
        pack: `h${row}.pack`,
        alone: `and not exists (select 1 from pack_terms o where o.kind = '${one}' and o.id = ${row}.id and o.pack <> h${row}.pack)`,
      }
    : { join: '', pack: `${row}.pack`, alone: '' };
