import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { FeatureId, ModelId, Part, PartId } from '../../reasoner/index.ts';
import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import * as t from '../schema.ts';
import { type CellKey, keyOf } from './cell.ts';
import { type Columns, columnsOf } from './columns.ts';
import type { Child, Ids, List, Named, Values } from './list.ts';
import { type Entries, everyList, type ListName, lists, partList } from './lists.ts';
import { packedPages, rowsAtOnce } from './packed-rows.ts';

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
  /** Only the parts of these ids, and no other list. */
  readonly onlyParts?: readonly string[];
}

export interface ReadLists {
  readonly lists: Entries;
  readonly parts: readonly Part[];
  /** Where one pack's entries and lines stand, by the cell that says so; of one pack alone. */
  readonly places: ReadonlyMap<CellKey, number>;
  /** What numbers stand for, in all packs. */
  readonly ids: Ids;
}

/**
 * The lists of the atlas, each entry once however many packs hold it. Shared ones stand in the order of the first pack (by id) that holds
 * them, others by pack and their place in it. Run it in a transaction where others may write.
 */
export const readLists = async (
  connection: Reader,
  { view, page = rowsAtOnce, sharedOnly = false, onlyParts }: ReadOptions,
): Promise<ReadLists> => {
  if (onlyParts !== undefined) return await readSomeParts(connection, view, onlyParts);
  const places = new Map<CellKey, number>();
  const order = await orderOfShared(connection, view, places);
  const ids = sharedOnly ? noIds : await readIds(connection, order.get(lists.features.one) ?? [], page);
  const read: Record<string, readonly unknown[]> = {};
  for (const list of everyList) {
    if (sharedOnly && !list.shared) continue;
    read[list.name] = await readEntries(connection, list, { view, page, ids, order: order.get(list.one) ?? [], places });
  }
  const readParts = sharedOnly ? [] : await readEntries(connection, parts, { view, page, ids, order: [], places });
  return { lists: read as unknown as Entries, parts: readParts as unknown as readonly Part[], places, ids };
};

const parts = { name: 'parts', ...(partList as unknown as List) };

const readSomeParts = async (connection: Reader, view: View, only: readonly string[]): Promise<ReadLists> => {
  const places = new Map<CellKey, number>();
  const order = (await orderOfShared(connection, view, new Map(), lists.features.one)).get(lists.features.one) ?? [];
  const some = JSON.stringify(only);
  const spokenOf = await connection.all<{ n: number; id: PartId }>(
    `select n, id from parts where n in (select pattern_of from parts where id in ${theIds} union select supersedes from parts where id in ${theIds})`,
    [some, some],
  );
  const ids = {
    ...noIds,
    parts: new Map(spokenOf.map(({ n, id }) => [n, id])),
    features: await readFeatures(connection, order, rowsAtOnce),
  };
  const read = await readEntries(connection, parts, { view, page: rowsAtOnce, ids, order: [], places, only: some });
  return { lists: { ...emptyLists }, parts: read as unknown as readonly Part[], places, ids };
};

const theIds = '(select value from json_each(?))';
const emptyLists = Object.fromEntries(everyList.map(({ name }) => [name, []])) as unknown as Entries;

const noIds: Ids = { models: new Map(), parts: new Map(), features: new Map() };

/** Ids of shared entries by what the list calls one. */
const orderOfShared = async (
  connection: Reader,
  view: View,
  places: Map<CellKey, number>,
  kind?: string,
): Promise<ReadonlyMap<string, readonly string[]>> => {
  const [where, values] = ofPack('pack', view);
  const held = await connection.all<{ kind: string; id: string; position: number }>(
    `select kind, id, position from pack_terms where ${where}${kind === undefined ? '' : ' and kind = ?'} order by pack, kind, position`,
    kind === undefined ? values : [...values, kind],
  );
  const names = new Map<string, ListName>(everyList.map(({ one, name }) => [one, name]));
  if (view.of === 'one') for (const { kind, id, position } of held) places.set(keyOf(names.get(kind) ?? kind, id), position);
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

/** References lead into packs that are not read, too, and facts speak of their features. */
const readIds = async (connection: Reader, features: readonly string[], page: number): Promise<Ids> => ({
  models: await readNumbered<ModelId>(connection, t.models, page),
  parts: await readNumbered<PartId>(connection, t.parts, page),
  features: await readFeatures(connection, features, page),
});

const readFeatures = async (connection: Reader, inOrder: readonly string[], page: number): Promise<Ids['features']> => {
  const rank = new Map(inOrder.map((id, at) => [id, at]));
  const found = await readNumbered<FeatureId>(connection, t.features, page);
  return new Map([...found].map(([n, id]) => [n, { id, rank: rank.get(id) ?? rank.size }]));
};

const readNumbered = async <Id extends string>(connection: Reader, table: SQLiteTable, page: number): Promise<Map<number, Id>> => {
  const found = new Map<number, Id>();
  for await (const { rows, of } of packedPages(connection, columnsOf(table), 'true', [], page, ['n', 'id'])) {
    const [n, id] = [of('n') as readonly number[], of('id') as readonly Id[]];
    for (let row = 0; row < rows; row += 1) found.set(n[row] as number, id[row] as Id);
  }
  return found;
};

interface Reading {
  readonly view: View;
  readonly page: number;
  readonly ids: Ids;
  readonly order: readonly string[];
  readonly places: Map<CellKey, number>;
  /** Ids, as JSON, where only some entries are read; of a list no packs share. */
  readonly only?: string;
}

type NamedList = List & { readonly name: string };

const readEntries = async (connection: Reader, list: NamedList, reading: Reading): Promise<readonly Named[]> => {
  const { view, page, ids, order, places, only } = reading;
  const columns = columnsOf(list.table);
  const [ofView, ofPacks] = list.shared ? ofPack('pack', { of: 'all' }) : ofPack('pack', view);
  // The plus keeps SQLite from going through the whole pack for a few of its entries.
  const [where, values] = only === undefined ? [ofView, ofPacks] : [`+${ofView} and id in ${theIds}`, [...ofPacks, only]];
  const rows: Values[] = [];
  for await (const some of pages(connection, columns, where, values, page)) rows.push(...some.map(columns.decode));
  const key = list.numbered === null ? 'id' : 'n';
  const idOf = new Map(rows.map((row) => [row[key], row.id as string]));
  if (view.of === 'one' && !list.shared)
    for (const { id, position } of rows) places.set(keyOf(list.name, id as string), position as number);
  const children: { readonly of: Child<Named>; readonly said: ReadonlyMap<unknown, Values> }[] = [];
  for (const of of list.children) {
    const whose =
      only === undefined && (list.shared || view.of === 'all')
        ? null
        : { sql: `select ${key} from ${columns.table} where ${where}`, values };
    children.push({ of, said: await readChild(connection, of, whose, reading, lineIn(list, of, idOf, reading)) });
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

/** Notes where a row stands that is a line with a place of its own. */
const lineIn =
  (list: NamedList, { of, line }: Child<Named>, idOf: ReadonlyMap<unknown, string>, { view, ids, places }: Reading) =>
  (row: Values): void => {
    if (line === undefined || view.of !== 'one') return;
    const [id, key] = [idOf.get(row[of]), line.keyOf(row as never, ids)];
    if (id !== undefined && key !== undefined) places.set(keyOf(list.name, id, line.field, key), row.position as number);
  };

/** An entry of a list without children, as a query of its table has it. */
export const entryOfRow = <E extends Named>(list: List<E>, row: Values): E => entryFrom(list as unknown as List, row, [], noIds) as E;

/** An entry with its fields in the order of its schema, those that are optional left out where they say nothing. */
const entryFrom = (list: List, row: Values, fromChildren: readonly Values[], ids: Ids): Named => {
  const said: Values = Object.assign({}, ...fromChildren, list.toEntry(row, ids));
  const { has } = columnsOf(list.table);
  const entry: Record<string, unknown> = {};
  for (const { name, optional } of list.fields) {
    if (Object.hasOwn(said, name)) entry[name] = said[name];
    else if (has(name) && !(optional && row[name] === null)) entry[name] = row[name];
  }
  return entry as unknown as Named;
};

const byPackAndPosition = (a: Values, b: Values): number =>
  a.pack === b.pack ? (a.position as number) - (b.position as number) : (a.pack as string) < (b.pack as string) ? -1 : 1;

/** What each entry's rows of a table beside say of it, by whose they are. */
const readChild = async (
  connection: Reader,
  of: Child<Named>,
  whose: { readonly sql: string; readonly values: readonly string[] } | null,
  { page, ids }: Reading,
  note: (row: Values) => void,
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
  const where = whose === null ? 'true' : `${name} in (${whose.sql})`;
  const gathered = of.gather?.(ids);
  if (gathered !== undefined) {
    for await (const some of packedPages(connection, columns, where, whose?.values ?? [], page)) gathered.take(some);
    return gathered.said();
  }
  const inTurn = columns.key[0] === name;
  let waiting: Values[] = [];
  for await (const some of pages(connection, columns, where, whose?.values ?? [], page)) {
    for (const bare of some) {
      const row = columns.decode(bare);
      note(row);
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
  columns: Columns,
  where: string,
  values: readonly string[],
  page: number,
): AsyncGenerator<readonly Values[]> {
  const { names } = columns;
  for await (const { rows, of } of packedPages(connection, columns, where, values, page)) {
    const found = names.map(of);
    yield Array.from({ length: rows }, (_, row) => {
      const bare: Record<string, unknown> = {};
      for (let at = 0; at < names.length; at += 1) bare[names[at] as string] = found[at]?.[row];
      return bare;
    });
  }
}
