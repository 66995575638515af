import type { Guard, Reader, Statement } from '../../driver/driver.ts';
import { groupBy } from '../../plain/group-by.ts';
import { trouble } from '../../trouble.ts';
import type { EditedList, RowKey, RowSort } from '../seen.ts';

/** A row as far as it matters which id it stands under. */
export interface KeptRow {
  readonly of: RowSort;
  readonly key: RowKey;
  readonly id: string;
  readonly more: readonly unknown[];
}

interface Table {
  readonly of: RowSort;
  readonly list: EditedList;
  /** Key, id and what else is asked, as `key`, `id`, `more`, of the ids of a JSON list, in order. */
  readonly select: string;
  /** What gives rows under one id another one: what frees the one, and what fills the other. */
  move(from: string, to: string, keys: readonly { readonly key: RowKey; readonly as: RowKey }[]): Moving;
}

type Moving = readonly [free: readonly Statement[], fill: readonly Statement[]];

const ids = '(select value from json_each(?))';

const samplesBy = (list: EditedList, column: 'part' | 'slot' | 'feature'): Table => ({
  of: 'samples',
  list,
  select: `select json_array(id) as key, ${column} as id, json_array(out_by is null) as more from samples where ${column} in ${ids} order by id`,
  move: (_from, to, keys) => [
    [],
    [{ sql: `update samples set ${column} = ? where id in ${ids}`, params: [to, JSON.stringify(keys.map(({ key }) => key[0]))] }],
  ],
});

const papersOf = (list: EditedList, about: 'part' | 'source'): Table => ({
  of: 'papers',
  list,
  select: `select json_array(file) as key, of as id, json_array(title, name) as more from documents where about = '${about}' and of in ${ids} order by of, file`,
  move: (from, to, keys) => [
    [
      {
        sql: `update documents set of = ? where about = '${about}' and of = ? and file in ${ids}`,
        params: [waiting(to), from, JSON.stringify(keys.map(({ key }) => key[0]))],
      },
    ],
    [{ sql: `update documents set of = ? where about = '${about}' and of = ?`, params: [to, waiting(to)] }],
  ],
});

/** Of a row whose id is part of its key, until all are moved: two ids may change places. No id of the atlas has a line end in it. */
const waiting = (id: string): string => `\n${id}`;

const tables: readonly Table[] = [
  samplesBy('parts', 'part'),
  samplesBy('slots', 'slot'),
  samplesBy('features', 'feature'),
  papersOf('parts', 'part'),
  papersOf('sources', 'source'),
  {
    of: 'stock',
    list: 'parts',
    // Every state of a line: whether it is the last, and whether the line is gone.
    select: `select json_array(line, n) as key, part as id, json_array(n = (select max(n) from stock x where x.line = stock.line), gone) as more
      from stock where part in ${ids} order by line, n`,
    move: (_from, to, keys) => [
      [],
      [
        {
          sql: 'update stock set part = ? where (line, n) in (select value ->> 0, value ->> 1 from json_each(?))',
          params: [to, JSON.stringify(keys.map(({ key }) => key))],
        },
      ],
    ],
  },
  {
    of: 'prices',
    list: 'parts',
    select: `select json_array(n) as key, part as id, json_array(price, money) as more from shop_prices where part in ${ids} order by part, n`,
    move: (from, to, keys) => [
      keys.map(({ key, as }) => ({
        sql: 'update shop_prices set part = ?, n = ? where part = ? and n = ?',
        params: [waiting(to), as[0], from, key[0]],
      })),
      [{ sql: 'update shop_prices set part = ? where part = ?', params: [to, waiting(to)] }],
    ],
  },
];

/** The rows of some ids as they stand, and what keeps a batch from being written where they do not any more. */
export interface RowsHeld {
  readonly rows: readonly KeptRow[];
  readonly guard: Guard;
}

/** Of what the shop keeps under entries of a list, the rows under these ids. */
export const readRows = async (reader: Reader, list: EditedList, under: readonly string[]): Promise<readonly RowsHeld[]> => {
  const asked = JSON.stringify(under);
  const held: RowsHeld[] = [];
  for (const { of, select } of tables.filter((table) => table.list === list)) {
    const sql = `select (select json_group_array(json_array(json(key), id, json(more))) from (${select}))`;
    const [found] = await reader.all<{ text: string }>(`${sql} as text`, [asked]);
    const text = found?.text ?? '[]';
    const rows = (JSON.parse(text) as [RowKey, string, unknown[]][]).map(([key, id, more]) => ({ of, key, id, more }));
    held.push({ rows, guard: { sql: `${sql} = ?`, params: [asked, text], refusal: keptElsewhere } });
  }
  return held;
};

export const keptElsewhere = trouble(
  'changed-since',
  null,
  'What the shop keeps of it (samples, stock, prices, papers) was being changed elsewhere at the same time. Nothing was changed. Try again.',
);

/** A row that is to stand under another id, and by what key. */
export interface RowMoved {
  readonly row: KeptRow;
  readonly to: string;
  readonly as: RowKey;
}

export const rowStatements = (list: EditedList, moved: readonly RowMoved[]): readonly Statement[] => {
  const moving = tables
    .filter((table) => table.list === list)
    .flatMap(({ of, move }) => {
      const mine = moved.filter(({ row }) => row.of === of);
      return [...groupBy(mine, ({ row, to }) => JSON.stringify([row.id, to])).values()].map((rows) => {
        const [{ row, to }] = rows as [RowMoved, ...RowMoved[]];
        return move(
          row.id,
          to,
          rows.map((each) => ({ key: each.row.key, as: each.as })),
        );
      });
    });
  return [...moving.flatMap(([free]) => free), ...moving.flatMap(([, fill]) => fill)];
};
