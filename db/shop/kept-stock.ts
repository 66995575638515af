import { randomUUID } from 'node:crypto';
import { asc, eq } from 'drizzle-orm';
import type { PartId, SlotId } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import type { StockCondition } from '../../reasoner/plain/stock-condition.ts';
import type { Guard, Reader, Statement } from '../driver/driver.ts';
import { insertRows } from '../driver/statements.ts';
import { type Version, versionOf } from '../driver/version.ts';
import { compact } from '../graph/search-terms.ts';
import * as t from '../schema.ts';
import { TroubleError, trouble } from '../trouble.ts';
import type { KeptStockLine, StockLine, StockLineId, StockState } from './stock.ts';

export const newLineId = (): StockLineId => randomUUID() as StockLineId;

/** Of what a line says, whoever wrote it and when. */
export const versionOfLine = ({ part, words, number, many, condition, price, place, note }: StockLine): Version =>
  versionOf({ part, words, number, many, condition, price, place, note });

interface Row {
  readonly line: StockLineId;
  readonly n: number;
  readonly at: string;
  readonly who: string;
  readonly part: PartId | null;
  readonly words: string;
  readonly number: string;
  readonly many: number;
  readonly condition: StockCondition;
  readonly price: number | null;
  readonly money: string | null;
  readonly place: string;
  readonly note: string;
  readonly part_name: string | null;
  readonly part_slot: SlotId | null;
  readonly part_numbers: string | null;
}

/** Lines as they stand, by where they lie, then by name. @param only a line; or those of some parts, and those that are told in words with a number */
export const stockLines = async (
  reader: Reader,
  only: { readonly line: StockLineId } | { readonly parts: readonly string[] } | null = null,
): Promise<KeptStockLine[]> => {
  const [narrowed, params] =
    only === null
      ? ['', []]
      : 'line' in only
        ? ['and s.line = ?', [only.line]]
        : [`and (s.part in (select value from json_each(?)) or (s.part is null and s.number <> ''))`, [JSON.stringify(only.parts)]];
  const rows = await reader.all<Row>(
    `select s.line, s.n, s.at, s.who, s.part, s.words, s.number, s.many, s.condition, s.price, s.money, s.place, s.note,
       p.name as part_name, p.slot as part_slot,
       (select json_group_array(x.number) from (select number from numbers where part = p.n order by position) x) as part_numbers
     from stock s left join parts p on p.id = s.part
     where s.gone = 0 and s.n = (select max(n) from stock where line = s.line) ${narrowed}
     order by s.place, coalesce(p.name, s.words), s.line limit ?`,
    [...params, limits.stockLines + 1],
  );
  return rows.map(lineOf);
};

/** Lines of any of these parts, and lines in words that have the number. @param typed a number as it is compared */
export const stockOf = async (reader: Reader, parts: readonly string[], typed: string): Promise<KeptStockLine[]> => {
  const all = await stockLines(reader, { parts });
  return all.filter((line) => (line.part === null ? typed !== '' && compact(line.number) === typed : true));
};

const lineOf = (row: Row): KeptStockLine => {
  const line = saidBy(row);
  return {
    id: row.line,
    ...line,
    version: versionOfLine(line),
    state: row.n,
    at: row.at,
    who: row.who,
    name: row.part_name ?? line.words,
    numbers: row.part_name === null ? (line.number === '' ? [] : [line.number]) : (JSON.parse(row.part_numbers ?? '[]') as string[]),
    slot: row.part_slot,
  };
};

const saidBy = (row: Pick<Row, 'part' | 'words' | 'number' | 'many' | 'condition' | 'price' | 'money' | 'place' | 'note'>): StockLine => ({
  part: row.part,
  words: row.words,
  number: row.number,
  many: row.many,
  condition: row.condition,
  price: row.price === null || row.money === null ? null : { amount: row.price, money: row.money },
  place: row.place,
  note: row.note,
});

/** The line as it stands; null where there is none, or it was taken off. */
export const heldLine = async (reader: Reader, line: StockLineId): Promise<KeptStockLine | null> =>
  (await stockLines(reader, { line }))[0] ?? null;

/** Every state of a line, newest first. */
export const stockStates = async ({ orm }: Reader, line: StockLineId): Promise<StockState[]> =>
  (await orm.select().from(t.stock).where(eq(t.stock.line, line)).orderBy(asc(t.stock.n)))
    .map((row) => ({ at: row.at, who: row.who, line: row.gone ? null : saidBy(row) }))
    .reverse();

/** The line with the name its part has in the atlas. Throws `not-found` for a part the atlas does not have, unless the line said it before. */
export const withItsPart = async (reader: Reader, line: StockLine, held: StockLine | null): Promise<StockLine> => {
  if (line.part === null) return line;
  const [part] = await reader.orm.select({ name: t.parts.name }).from(t.parts).where(eq(t.parts.id, line.part));
  if (part !== undefined) return { ...line, words: part.name, number: '' };
  if (held?.part === line.part) return { ...line, words: held.words, number: held.number };
  throw new TroubleError(trouble('not-found', 'part', `The atlas has no part “${line.part}”.`));
};

export const stateWritten = (
  states: readonly { readonly id: StockLineId; readonly n: number; readonly line: StockLine; readonly gone: boolean }[],
  at: string,
  who: string,
): Iterable<Statement> =>
  insertRows(
    t.stock,
    states.map(({ id, n, line: { price, ...line }, gone }) => ({
      line: id,
      n,
      at,
      who,
      gone,
      ...line,
      price: price?.amount ?? null,
      money: price?.money ?? null,
    })),
  );

/** That each of these lines has so many states and no more, and that the list is not longer than it may be. */
export const linesStand = (lines: readonly (readonly [line: StockLineId, states: number])[]): Guard[] => [
  {
    sql: `select not exists (select 1 from json_each(?) j where (select count(*) from stock where line = j.value ->> 0) <> j.value ->> 1)`,
    params: [JSON.stringify(lines)],
    refusal: trouble(
      'changed-since',
      'stock',
      'The stock list was being written elsewhere at the same time. Nothing was changed. Try again.',
    ),
  },
  {
    sql: 'select count(distinct line) + ? <= ? from stock s where gone = 0 and n = (select max(n) from stock where line = s.line)',
    params: [lines.filter(([, states]) => states === 0).length, limits.stockLines],
    refusal: trouble(
      'stock-table-invalid',
      'stock',
      `The stock list would have more than ${limits.stockLines} lines, which is the most. Take off what is no longer there. Nothing was changed.`,
    ),
  },
];

export const noSuchLine = (line: StockLineId) =>
  trouble('not-found', `stock ${line}`, 'The stock list has no such line; it was taken off. Nothing was changed.');
