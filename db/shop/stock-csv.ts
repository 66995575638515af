import Papa from 'papaparse';
import type { PartId } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { readAmount } from '../../reasoner/plain/money.ts';
import { type StockCondition, stockConditions } from '../../reasoner/plain/stock-condition.ts';
import { csvOf, unguarded } from './csv.ts';
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

export interface StockTableFault {
  readonly place: string;
  readonly sentence: string;
}

/** The most faults told at once. */
const mostFaults = 200;

/** Reads a table by its headings, in any order; comma, semicolon and tab are all read. Every fault is named by row and column. */
export const readStockTable = (
  text: string,
  file: string,
): { readonly rows: readonly StockRow[] } | { readonly faults: readonly StockTableFault[] } => {
  const faults: StockTableFault[] = [];
  const say = (row: number | null, column: Column | null, found: string, expected: string): void => {
    if (faults.length >= mostFaults) return;
    const place = [file, row === null ? null : `row ${row}`, column === null ? null : `column ${column}`]
      .filter((word) => word !== null)
      .join(', ');
    faults.push({
      place,
      sentence: `${row === null ? '' : `Row ${row}${column === null ? '' : `, “${column}”`}: `}found ${found}, expected ${expected}.`,
    });
  };
  if (text.length > limits.tableLetters)
    return { faults: [{ place: file, sentence: `Found ${text.length} characters, expected ${limits.tableLetters} at most.` }] };
  if (text.includes('\uFFFD')) say(null, null, 'letters that are not UTF-8', 'a table saved as CSV in UTF-8');
  const first = text.split(/\r?\n/, 1)[0] ?? '';
  const delimiter = [';', '\t'].find((sign) => first.includes(sign)) ?? ',';
  const parsed = Papa.parse<string[]>(text, { delimiter });
  const [header = [], ...body] = parsed.data;
  const heads = header.map((cell) => unguarded(cell.trim()).toLowerCase());
  const at = new Map(stockColumns.flatMap((column) => (heads.includes(column) ? [[column, heads.indexOf(column)] as const] : [])));
  for (const error of parsed.errors) say((error.row ?? 0) + 1, null, `a quoting fault (${error.message})`, 'cells quoted as RFC 4180 says');
  const stranger = heads.find((head) => head !== '' && !(stockColumns as readonly string[]).includes(head));
  if (stranger !== undefined) say(1, null, `the heading “${stranger}”`, `only ${stockColumns.join(', ')}`);
  for (const [index, head] of heads.entries())
    if (head !== '' && heads.indexOf(head) !== index) say(1, null, `the heading “${head}” twice`, 'each once');
  if (!at.has('how many') || !(at.has('what') || at.has('part')))
    say(1, null, 'no such headings', 'at least “how many”, and “what” or “part”');
  if (faults.length > 0) return { faults };

  const rows: StockRow[] = [];
  const named = new Map<string, number>();
  body.forEach((cells, index) => {
    const row = index + 2;
    if (cells.every((cell) => cell.trim() === '')) return;
    if (cells.length > header.length) say(row, null, `${cells.length} cells`, `${header.length}, as the first row has`);
    const of = (column: Column): string => unguarded((cells[at.get(column) ?? -1] ?? '').trim());
    const before = faults.length;
    const id = of('line');
    if (id !== '' && named.has(id)) say(row, 'line', `the line of row ${named.get(id)} again`, 'each line once');
    if (id !== '') named.set(id, row);
    const state = of('state');
    if (id !== '' && !/^[1-9]\d{0,8}$/.test(state)) say(row, 'state', shown(state), 'the figure this line had when the table was written');
    const [part, words] = [of('part'), of('what')];
    if (part === '' && words === '') say(row, 'what', 'nothing', 'what it is, or the id of a part in “part”');
    const many = of('how many');
    if (!/^\d{1,6}$/.test(many)) say(row, 'how many', shown(many), 'a whole number, 0 or more');
    const condition = of('condition') === '' ? 'not looked at yet' : of('condition').toLowerCase();
    if (!(stockConditions as readonly string[]).includes(condition))
      say(row, 'condition', shown(of('condition')), stockConditions.join(', or '));
    const [price, money] = [of('price'), of('money').toUpperCase()];
    const amount = price === '' ? null : readAmount(price);
    if (price !== '' && amount === null) say(row, 'price', shown(price), 'an amount above 0, or nothing where it is not known');
    if (price !== '' && !/^[A-Z]{3}$/.test(money)) say(row, 'money', shown(of('money')), 'three letters, as ISO 4217 has them');
    for (const [column, most] of longest)
      if (of(column).length > most) say(row, column, `${of(column).length} characters`, `${most} at most`);
    if (faults.length > before) return;
    rows.push({
      row,
      id: id === '' ? null : (id as StockLineId),
      state: id === '' ? null : Number(state),
      line: {
        part: part === '' ? null : (part as PartId),
        words,
        number: part === '' ? of('number') : '',
        many: Number(many),
        condition: condition as StockCondition,
        price: amount === null ? null : { amount, money },
        place: of('where'),
        note: of('note'),
      },
    });
  });
  if (rows.length > limits.stockLines)
    return { faults: [{ place: file, sentence: `Found ${rows.length} rows, expected ${limits.stockLines} at most.` }] };
  return faults.length > 0 ? { faults } : { rows };
};

const longest: readonly (readonly [Column, number])[] = [
  ['part', 200],
  ['what', 300],
  ['number', 200],
  ['where', 200],
  ['note', 1000],
];

const shown = (text: string): string => (text === '' ? 'nothing' : `“${text.slice(0, 60)}”`);
