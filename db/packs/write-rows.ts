import { getTableName } from 'drizzle-orm';
import type { List, Named, Numbered, Numbers } from '../atlas/list.ts';
import { everyList, lists, partList } from '../atlas/lists.ts';
import type { Connection } from '../driver/connection.ts';
import { insertAll } from '../driver/insert-all.ts';
import * as t from '../schema.ts';
import { sampleRow } from '../sheets/rows.ts';
import { termsOf } from '../store/search-terms.ts';
import type { LoadStep } from './load-step.ts';
import type { Pack } from './pack.ts';
import type { Kept } from './remove-rows.ts';

/** Writes every row of a pack. Entries of shared lists that another pack holds already are only noted as held by this one too. */
export const writeRows = async (connection: Connection, pack: Pack, kept: Kept, step: (at: LoadStep) => void): Promise<void> => {
  const numbers = await numbersFor(connection, pack, kept);
  const writing: Writing = { connection, pack: pack.head.id, numbers };
  step('terms');
  for (const list of everyList) if (list.shared) await writeShared(writing, list, pack[list.name]);
  step('names');
  for (const list of everyList) if (!list.shared) await writeOwn(writing, list, pack[list.name]);
  step('parts');
  await writeOwn(writing, partList as unknown as List, pack.parts, [t.numbers]);
  await insertAll(
    connection,
    t.sits,
    pack.allowed.map(({ model, part, role }) => ({
      model: numbers.of('models', model),
      part: numbers.of('parts', part),
      role,
      pack: pack.head.id,
    })),
  );
  step('facts');
  // Part by part, so that a large pack's facts need not all stand in memory as rows at once.
  for (let start = 0; start < pack.parts.length; start += 1000)
    await writeChildren(writing, partList as unknown as List, pack.parts.slice(start, start + 1000), [t.facts]);
  step('sheets');
  await insertAll(
    connection,
    t.sheets,
    pack.sheets.map((sheet, position) => sampleRow(sheet, pack.head.id, position)),
  );
  step('search');
  await insertAll(connection, t.searchTerms, termsOf(pack));
};

interface Writing {
  readonly connection: Connection;
  readonly pack: string;
  readonly numbers: Numbers;
}

const writeShared = async (writing: Writing, list: List, entries: readonly Named[]): Promise<void> => {
  const { connection, pack } = writing;
  const held = new Set(
    (await connection.all<{ id: string }>('select distinct id from pack_terms where kind = ?', [list.one])).map(({ id }) => id),
  );
  const fresh = entries.filter(({ id }) => !held.has(id));
  await insertAll(
    connection,
    list.table,
    fresh.map((entry) => rowOf(writing, list, entry)),
  );
  await writeChildren(writing, list, fresh);
  await insertAll(
    connection,
    t.packTerms,
    entries.map(({ id }, position) => ({ pack, kind: list.one, id, position })),
  );
};

const writeOwn = async (writing: Writing, list: List, entries: readonly Named[], children?: readonly unknown[]): Promise<void> => {
  const { connection, pack } = writing;
  await insertAll(
    connection,
    list.table,
    entries.map((entry, position) => ({ ...rowOf(writing, list, entry), pack, position })),
  );
  await writeChildren(writing, list, entries, children);
};

const rowOf = ({ numbers }: Writing, list: List, entry: Named) => ({
  ...entry,
  ...list.toRow(entry, numbers),
  ...(list.numbered === null ? {} : { n: numbers.of(list.numbered, entry.id) }),
});

const writeChildren = async (
  { connection, numbers }: Writing,
  list: List,
  entries: readonly Named[],
  only?: readonly unknown[],
): Promise<void> => {
  for (const { table, of, rows } of list.children) {
    if (only !== undefined && !only.includes(table)) continue;
    const own = (entry: Named) => (list.numbered === null ? entry.id : numbers.of(list.numbered, entry.id));
    await insertAll(
      connection,
      table,
      entries.flatMap((entry) => rows(entry, numbers).map((row) => ({ ...row, [of]: own(entry) }))),
    );
  }
};

/** A number for each entry of the numbered lists: the one it had, or the next free one. Other packs' entries are found too. */
const numbersFor = async (connection: Connection, pack: Pack, kept: Kept): Promise<Numbers> => {
  const known = new Map<Numbered, ReadonlyMap<string, number>>();
  for (const [list, { table }] of [
    ['features', lists.features],
    ['models', lists.models],
    ['parts', partList],
  ] as const) {
    const others = await connection.all<{ id: string; n: number }>(`select id, n from ${getTableName(table)}`);
    const numbers = new Map<string, number>(others.map(({ id, n }) => [id, n]));
    let next = [...numbers.values(), ...kept[list].values()].reduce((most, n) => Math.max(most, n), 0) + 1;
    for (const { id } of pack[list]) if (!numbers.has(id)) numbers.set(id, kept[list].get(id) ?? next++);
    known.set(list, numbers);
  }
  return {
    of: (list, id) => {
      const n = known.get(list)?.get(id);
      if (n === undefined) throw new Error(`"${id}" has no number in ${list}`);
      return n;
    },
  };
};
