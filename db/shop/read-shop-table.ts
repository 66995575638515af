import Papa from 'papaparse';
import { limits } from '../../reasoner/plain/limits.ts';
import { quotingFault } from '../read/quoting-fault.ts';
import { type Trouble, trouble } from '../trouble.ts';
import { unguarded } from './csv.ts';

export interface ShopTableFault {
  readonly place: string;
  readonly sentence: string;
}

/** Names what was found in a cell, row or the whole table, and what was expected. */
export type SayFault<Column> = (row: number | null, column: Column | null, found: string, expected: string) => void;

interface Reading<Column extends string, Row> {
  readonly columns: readonly Column[];
  /** The headings there must be. Several alternatives of one stand in a list; in words, to stand after "expected". */
  readonly least: readonly (readonly Column[])[];
  readonly leastSaid: string;
  /** Longest texts, in characters. */
  readonly longest: readonly (readonly [Column, number])[];
  /** What a row says; null where a fault was said of it. */
  row(row: number, of: (column: Column) => string, say: SayFault<Column>): Row | null;
}

/** The most faults told at once. */
const mostFaults = 200;

/**
 * A table of the shop's, read by its headings in any order; comma, semicolon and tab are all read. Rows are counted as a spreadsheet counts them, header included.
 * Every fault is named by row and column, and with one of them no row is given.
 */
export const readShopTable = <Column extends string, Row>(
  text: string,
  file: string,
  { columns, least, leastSaid, longest, row: readRow }: Reading<Column, Row>,
): { readonly rows: readonly Row[] } | { readonly faults: readonly ShopTableFault[] } => {
  const faults: ShopTableFault[] = [];
  const say: SayFault<Column> = (row, column, found, expected) => {
    if (faults.length >= mostFaults) return;
    const place = [file, row === null ? null : `row ${row}`, column === null ? null : `column ${column}`]
      .filter((word) => word !== null)
      .join(', ');
    faults.push({
      place,
      sentence: `${row === null ? 'Found' : `Row ${row}${column === null ? '' : `, “${column}”`}: found`} ${found}, expected ${expected}.`,
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
  const at = new Map(columns.flatMap((column) => (heads.includes(column) ? [[column, heads.indexOf(column)] as const] : [])));
  for (const error of parsed.errors) say((error.row ?? 0) + 1, null, ...quotingFault(error.code));
  const stranger = heads.find((head) => head !== '' && !(columns as readonly string[]).includes(head));
  if (stranger !== undefined) say(1, null, `the heading “${stranger}”`, `only ${columns.join(', ')}`);
  for (const [index, head] of heads.entries())
    if (head !== '' && heads.indexOf(head) !== index) say(1, null, `the heading “${head}” twice`, 'each once');
  if (least.some((any) => !any.some((column) => at.has(column))))
    say(
      1,
      null,
      heads.every((head) => head === '') ? 'no headings' : `the headings ${heads.filter((head) => head !== '').join(', ')}`,
      leastSaid,
    );
  if (faults.length > 0) return { faults };

  const rows = body.flatMap((cells, index): Row[] => {
    const row = index + 2;
    if (cells.every((cell) => cell.trim() === '')) return [];
    if (cells.length > header.length) say(row, null, `${cells.length} cells`, `${header.length}, as the first row has`);
    const of = (column: Column): string => unguarded((cells[at.get(column) ?? -1] ?? '').trim());
    const read = readRow(row, of, say);
    for (const [column, most] of longest)
      if (of(column).length > most) say(row, column, `${of(column).length} characters`, `${most} at most`);
    return read === null ? [] : [read];
  });
  return faults.length > 0 ? { faults } : { rows };
};

/** What was found in a cell, to stand after "found". */
export const shownCell = (text: string): string => (text === '' ? 'nothing' : `“${text.slice(0, 60)}”`);

/** A table that is not taken in, with every fault of it. */
export const tableRefused = (file: string, faults: readonly ShopTableFault[]): Trouble => {
  const all = faults.map(({ place, sentence }) => trouble('stock-table-invalid', place, sentence));
  const [first] = all;
  const rest = all.length - 1;
  const sentence =
    rest === 0
      ? `${file} was not taken in. ${first?.sentence}`
      : `${file} was not taken in: ${all.length} faults were found. The first: ${first?.sentence}`;
  return { ...trouble('stock-table-invalid', file, sentence), all };
};
