import type { PartId } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { type StockCondition, stockConditions } from '../../reasoner/plain/stock-condition.ts';
import { csvOf } from './csv.ts';
import { isState, priceOfRow } from './price-csv.ts';
import { readShopTable, type ShopTableFault, shownCell } from './read-shop-table.ts';
import type { KeptStockLine, StockLine, StockLineId } from './stock.ts';

/**
 * The stock list as a table, out and in. `line` and `state` say which line a row is and as it stood when the table was written; both are empty for a new line, and may be
 * left out of a table altogether. `part` is the id of a part of the atlas; without it the row is told in words, in `what` and `number`.
 */
export const stockColumns = [
  'line',
  'state',
  'part',
  'what',
  'number',
  'how many',
  'condition',
  'price',
  'money',
  'where',
  'note',
] as const;
type Column = (typeof stockColumns)[number];

export const stockCsv = (lines: readonly KeptStockLine[]): string =>
  csvOf(
    stockColumns,
    lines.map((line) => [
      line.id,
      line.state,
      line.part ?? '',
      line.name,
      line.numbers.join('; '),
      line.many,
      line.condition,
      line.price === null ? '' : String(line.price.amount),
      line.price?.money ?? '',
      line.place,
      line.note,
    ]),
  );

/** A row of a table that says what a line is to be. */
export interface StockRow {
  /** As a spreadsheet counts it, header included. */
  readonly row: number;
  /** Null for a new line. */
  readonly id: StockLineId | null;
  readonly state: number | null;
  readonly line: StockLine;
}

/** Reads a table by its headings, in any order. Every fault is named by row and column. */
export const readStockTable = (
  text: string,
  file: string,
): { readonly rows: readonly StockRow[] } | { readonly faults: readonly ShopTableFault[] } => {
  const named = new Map<string, number>();
  const read = readShopTable<Column, StockRow>(text, file, {
    columns: stockColumns,
    least: [['how many'], ['what', 'part']],
    leastSaid: 'at least “how many”, and “what” or “part”',
    longest,
    row: (row, of, say) => {
      const id = of('line');
      if (id !== '' && named.has(id)) say(row, 'line', `the line of row ${named.get(id)} again`, 'each line once');
      if (id !== '') named.set(id, row);
      const state = of('state');
      if (id !== '' && !isState(state)) say(row, 'state', shownCell(state), 'the figure this line had when the table was written');
      const [part, words] = [of('part'), of('what')];
      if (part === '' && words === '') say(row, 'what', 'nothing', 'what it is, or the id of a part in “part”');
      const many = of('how many');
      if (!/^\d{1,6}$/.test(many)) say(row, 'how many', shownCell(many), 'a whole number, 0 or more');
      const condition = of('condition') === '' ? 'not looked at yet' : of('condition').toLowerCase();
      if (!(stockConditions as readonly string[]).includes(condition))
        say(row, 'condition', shownCell(of('condition')), stockConditions.join(', or '));
      const price = priceOfRow(row, of('price'), of('money'), 'where it is not known', say);
      return {
        row,
        id: id === '' ? null : (id as StockLineId),
        state: id === '' ? null : Number(state),
        line: {
          part: part === '' ? null : (part as PartId),
          words,
          number: part === '' ? of('number') : '',
          many: Number(many),
          condition: condition as StockCondition,
          price,
          place: of('where'),
          note: of('note'),
        },
      };
    },
  });
  if ('rows' in read && read.rows.length > limits.stockLines)
    return { faults: [{ place: file, sentence: `Found ${read.rows.length} rows, expected ${limits.stockLines} at most.` }] };
  return read;
};

const longest: readonly (readonly [Column, number])[] = [
  ['part', 200],
  ['what', 300],
  ['number', 200],
  ['where', 200],
  ['note', 1000],
];
