import { getTableName } from 'drizzle-orm';
import type { Named, Numbered, Numbers } from '../atlas/list.ts';
import { everyList, lists, partList } from '../atlas/lists.ts';
import type { Pack } from '../atlas/pack.ts';
import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import type * as t from '../schema.ts';

/** What a change of a pack's rows rests on: read beforehand, or planned before it in the same batch. */

/** The numbers entries of the numbered lists go by in the tables. */
export type Numbering = ReadonlyMap<Numbered, ReadonlyMap<string, number>>;

const numbered = [
  ['features', lists.features],
  ['models', lists.models],
  ['parts', partList],
] as const;

export const readNumbering = async (reader: Reader): Promise<Numbering> => {
  const known = new Map<Numbered, ReadonlyMap<string, number>>();
  for (const [list, { table }] of numbered) {
    const rows = await reader.all<{ id: string; n: number }>(`select id, n from ${getTableName(table)}`);
    known.set(list, new Map(rows.map(({ id, n }) => [id, n])));
  }
  return known;
};

/** The same of some parts, of what they say they are after, and of features. */
export const readSomeNumbers = async (reader: Reader, features: readonly string[], parts: readonly string[]): Promise<Numbering> => {
  const rows = await reader.all<{ list: Numbered; id: string; n: number }>(
    `select 'features' as list, id, n from features where id in (select value from json_each(?))
     union all select 'parts', id, n from parts where id in (select value from json_each(?))`,
    [JSON.stringify(features), JSON.stringify(parts)],
  );
  const of = (list: Numbered) => new Map(rows.flatMap((row) => (row.list === list ? [[row.id, row.n] as const] : [])));
  return new Map<Numbered, ReadonlyMap<string, number>>([
    ['features', of('features')],
    ['models', new Map()],
    ['parts', of('parts')],
  ]);
};

/** With a number for each entry of a pack: the one it has, whoever brought it, or the next free one. */
export const numberedToo = (known: Numbering, pack: Pack | null): Numbering =>
  new Map(
    numbered.map(([list]) => {
      const numbers = new Map(known.get(list));
      let next = [...numbers.values()].reduce((most, n) => Math.max(most, n), 0) + 1;
      for (const { id } of pack?.[list] ?? []) if (!numbers.has(id)) numbers.set(id, next++);
      return [list, numbers];
    }),
  );

export const numbersIn = (known: Numbering): Numbers => ({
  of: (list, id) => {
    const n = known.get(list)?.get(id);
    if (n === undefined) throw new Error(`"${id}" has no number in ${list}`);
    return n;
  },
});

/** `kind id` of every shared entry some of these packs hold. */
export const heldIn = (packs: readonly Pack[]): ReadonlySet<string> =>
  new Set(
    packs.flatMap((pack) =>
      everyList.flatMap(({ name, one, shared }) => (shared ? (pack[name] as readonly Named[]).map(({ id }) => `${one} ${id}`) : [])),
    ),
  );

export type Term = typeof t.searchTerms.$inferSelect;

/** What the touched nodes of a pack may be looked up by, as it is kept, by `kind id`. */
export const readTerms = async (
  reader: Reader,
  pack: string,
  touched: ReadonlyMap<string, ReadonlySet<string>>,
): Promise<ReadonlyMap<string, readonly Term[]>> => {
  const nodes = ['makers', 'families', 'generations', 'models', 'parts'].flatMap((list) => [...(touched.get(list) ?? [])]);
  const rows = await reader.all<Term & { readonly node_kind: Term['nodeKind']; readonly node_id: string }>(
    // Found by node: a pack may have a hundred thousand terms.
    `select * from search_terms where +pack = ? and node_kind in ('maker', 'family', 'generation', 'model', 'part')
     and node_id in (select value from json_each(?)) order by n`,
    [pack, JSON.stringify(nodes)],
  );
  const terms = rows.map(({ node_kind: nodeKind, node_id: nodeId, ...row }): Term => ({ ...row, nodeKind, nodeId }));
  return groupBy(terms, ({ nodeKind, nodeId }) => `${nodeKind} ${nodeId}`);
};

export const readNextTerm = async (reader: Reader): Promise<number> => {
  const [row] = await reader.all<{ next: number }>('select coalesce(max(n), 0) + 1 as next from search_terms');
  return row?.next ?? 1;
};
