import type { FeatureId, ModelId, Part, PartId } from '../../reasoner/index.ts';
import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import { type Columns, columnsOf } from './columns.ts';
import type { Child, Ids, List, Named, Values } from './list.ts';
import { type Entries, everyList, lists, partList } from './lists.ts';

/** Whose entries are read: everybody's, those of all packs but one, or one pack's. */
export type View =
  | { readonly of: 'all' }
  | { readonly of: 'others'; readonly pack: string }
  | { readonly of: 'one'; readonly pack: string };

export interface ReadOptions {
  readonly view: View;
  /** How many rows are read at once: one big read would hold up everything else in the process. */
  readonly page?: number;
  /** Only the lists that packs share. */
  readonly sharedOnly?: boolean;
}

/** How many rows are read at once where nobody says. */
const rowsAtOnce = 20_000;

export interface ReadLists {
  readonly lists: Entries;
  readonly parts: readonly Part[];
}

/**
 * The lists of the atlas, each entry once however many packs hold it. Shared ones stand in the order of the first pack (by id) that holds
 * them, others by pack and their place in it. Run it in a transaction where others may write.
 */
export const readLists = async (connection: Reader, { view, page = rowsAtOnce, sharedOnly = false }: ReadOptions): Promise<ReadLists> => {
  const order = await orderOfShared(connection, view);
  const ids = sharedOnly ? noIds : await readIds(connection, order.get(lists.features.one) ?? [], view);
  const read: Record<string, readonly unknown[]> = {};
  for (const list of everyList) {
    if (sharedOnly && !list.shared) continue;
    read[list.name] = await readEntries(connection, list, { view, page, ids, order: order.get(list.one) ?? [] });
  }
  const parts = sharedOnly ? [] : await readEntries(connection, partList as unknown as List, { view, page, ids, order: [] });
  return { lists: read as unknown as Entries, parts: parts as unknown as readonly Part[] };
};

const noIds: Ids = { models: new Map(), parts: new Map(), features: new Map() };

/** Ids of shared entries by what the list calls one. */
const orderOfShared = async (connection: Reader, view: View): Promise<ReadonlyMap<string, readonly string[]>> => {
  const [where, values] = ofPack('pack', view);
  const held = await connection.all<{ kind: string; id: string }>(
    `select kind, id from pack_terms where ${where} order by pack, kind, position`,
    values,
  );
  return new Map([...groupBy(held, ({ kind }) => kind)].map(([kind, rows]) => [kind, [...new Set(rows.map(({ id }) => id))]]));
};

const ofPack = (column: string, view: View): [where: string, values: readonly string[]] => {
  switch (view.of) {
    case 'all':
      return ['true', []];
    case 'others':
      return [`${column} <> ?`, [view.pack]];
    case 'one':
      return [`${column} = ?`, [view.pack]];
  }
};

/** References lead into packs that are not read, too; but what a fact is about must be among what is read of the others. */
const readIds = async (connection: Reader, features: readonly string[], view: View): Promise<Ids> => {
  const numbered = async (table: string) => await connection.all<{ n: number; id: string }>(`select n, id from ${table}`);
  const rank = new Map(features.map((id, at) => [id, at]));
  const known = (await numbered('features')).filter(({ id }) => view.of === 'one' || rank.has(id));
  return {
    models: new Map((await numbered('models')).map(({ n, id }) => [n, id as ModelId])),
    parts: new Map((await numbered('parts')).map(({ n, id }) => [n, id as PartId])),
    features: new Map(known.map(({ n, id }) => [n, { id: id as FeatureId, rank: rank.get(id) ?? rank.size }])),
  };
};

interface Reading {
  readonly view: View;
  readonly page: number;
  readonly ids: Ids;
  readonly order: readonly string[];
}

const readEntries = async (connection: Reader, list: List, { view, page, ids, order }: Reading): Promise<readonly Named[]> => {
  const columns = columnsOf(list.table);
  const [where, values] = list.shared ? ofPack('pack', { of: 'all' }) : ofPack('pack', view);
  const rows: Values[] = [];
  for await (const some of pages(connection, columns, where, values, page)) rows.push(...some.map(columns.decode));
  const key = list.numbered === null ? 'id' : 'n';
  const children: { readonly of: Child<Named>; readonly said: ReadonlyMap<unknown, Values> }[] = [];
  for (const of of list.children) {
    const whose = list.shared || view.of === 'all' ? null : `select ${key} from ${columns.table} where ${where}`;
    children.push({ of, said: await readChild(connection, of, whose, values, page, ids) });
  }
  const entryOf = (row: Values): Named =>
    entryFrom(
      list,
      row,
      children.map(({ of, said }) => said.get(row[key]) ?? of.read([], ids)),
      ids,
    );
  if (list.shared) {
    const byId = new Map(rows.map((row) => [row.id as string, row]));
    return order.flatMap((id) => {
      const row = byId.get(id);
      return row === undefined ? [] : [entryOf(row)];
    });
  }
  return rows.sort(byPackAndPosition).map(entryOf);
};

/** An entry of a list without children, as a query of its table has it. */
export const entryOfRow = <E extends Named>(list: List<E>, row: Values): E => entryFrom(list as unknown as List, row, [], noIds) as E;

/** An entry with its fields in the order of its schema, those that are optional left out where they say nothing. */
const entryFrom = (list: List, row: Values, fromChildren: readonly Values[], ids: Ids): Named => {
  const said: Values = Object.assign({}, ...fromChildren, list.toEntry(row, ids));
  const columns = new Set(columnsOf(list.table).keys);
  const entry: Record<string, unknown> = {};
  for (const { name, optional } of list.fields) {
    if (Object.hasOwn(said, name)) entry[name] = said[name];
    else if (columns.has(name) && !(optional && row[name] === null)) entry[name] = row[name];
  }
  return entry as unknown as Named;
};

const byPackAndPosition = (a: Values, b: Values): number =>
  a.pack === b.pack ? (a.position as number) - (b.position as number) : (a.pack as string) < (b.pack as string) ? -1 : 1;

/** What each entry's rows of a table beside say of it, by whose they are. */
const readChild = async (
  connection: Reader,
  of: Child<Named>,
  whose: string | null,
  values: readonly string[],
  page: number,
  ids: Ids,
): Promise<ReadonlyMap<unknown, Values>> => {
  const columns = columnsOf(of.table);
  const name = columns.names[columns.keys.indexOf(of.of)] as string;
  const said = new Map<unknown, Values>();
  const take = (rows: readonly Values[]): void => {
    const [first] = rows;
    if (first === undefined) return;
    const inOrder = 'position' in first ? [...rows].sort((a, b) => (a.position as number) - (b.position as number)) : rows;
    said.set(first[of.of], of.read(inOrder as readonly never[], ids));
  };
  const where = whose === null ? 'true' : `${name} in (${whose})`;
  const inTurn = columns.key[0] === name;
  let waiting: Values[] = [];
  for await (const some of pages(connection, columns, where, values, page)) {
    for (const bare of some) {
      const row = columns.decode(bare);
      // Rows that come entry by entry need not all be held at once.
      if (inTurn && waiting[0] !== undefined && waiting[0][of.of] !== row[of.of]) {
        take(waiting);
        waiting = [];
      }
      waiting.push(row);
    }
  }
  if (inTurn) take(waiting);
  else for (const rows of groupBy(waiting, (row) => row[of.of]).values()) take(rows);
  return said;
};

/** Rows of a table as SQLite has them, by primary key, a page at a time. */
async function* pages(
  connection: Reader,
  { table, key }: Columns,
  where: string,
  values: readonly string[],
  page: number,
): AsyncGenerator<readonly Values[]> {
  const columns = key.join(', ');
  const further = `(${columns}) > (${key.map(() => '?').join(', ')})`;
  let last: readonly unknown[] = [];
  let rows: readonly Values[];
  do {
    rows = await connection.all<Values>(
      `select * from ${table} where ${where}${last.length === 0 ? '' : ` and ${further}`} order by ${columns} limit ?`,
      [...values, ...last, page],
    );
    yield rows;
    const end = rows.at(-1);
    last = end === undefined ? last : key.map((name) => end[name]);
  } while (rows.length === page);
}
