import Papa from 'papaparse';
import { limits } from '../../reasoner/plain/limits.ts';
import { shown } from '../read/faults.ts';
import { quotingFault } from '../read/quoting-fault.ts';
import { unguarded } from '../shop/csv.ts';
import { done, failed, type Outcome, trouble } from '../trouble.ts';
import { type Cell, type Cells, type CellsTaken, strictly, tooLong } from './cells.ts';

/** What a spreadsheet writes between cells; the first is RFC 4180’s, the second stands where commas are decimal, the third between cells that are copied, the fourth what some programs write out. */
const delimiters = [',', ';', '\t', '|'] as const;
/** So many lines say which of them it is. */
const looked = 40;

/** The text in bytes: UTF-8 or UTF-16 with a mark, else UTF-8; what is neither is read as Windows-1252, and said to be. */
export const textIn = (bytes: Uint8Array): { readonly text: string; readonly note: string | null } => {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return { text: new TextDecoder('utf-16le').decode(bytes), note: null };
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return { text: new TextDecoder('utf-16be').decode(bytes), note: null };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), note: null };
  } catch {
    return {
      text: new TextDecoder('windows-1252').decode(bytes),
      note: 'The file is not UTF-8 and was read as Windows-1252: look at letters with accents, at ± and at °.',
    };
  }
};

/**
 * Cells of a text: RFC 4180, with whichever of comma, semicolon, tab and pipe takes it apart most evenly; a byte order mark, CRLF and LF are read.
 * Troubles: `table-unreadable` for a quote that is not closed and for a text without cells, `table-too-large`.
 */
export const readDelimited = (given: string, file: string, notes: readonly string[] = [], taken: CellsTaken = strictly): Outcome<Cells> => {
  const text = given.startsWith('\uFEFF') ? given.slice(1) : given;
  const tooLarge = (found: string, most: string) =>
    failed(
      trouble(
        'table-too-large',
        file,
        `${file} is too large: ${found}; the most is ${most}. Nothing was brought in; take it apart into several.`,
      ),
    );
  if (text.length > limits.tableLetters) return tooLarge(`${text.length} characters`, `${limits.tableLetters}`);
  const { data, errors } = Papa.parse<string[]>(text, { delimiter: delimiterOf(text) });
  const unclosed = errors.find(({ type }) => type === 'Quotes');
  const notClosed = new Set(errors.flatMap(({ type, row }) => (type === 'Quotes' ? [row ?? 0] : [])));
  if (unclosed !== undefined && !taken.each) {
    const row = (unclosed.row ?? 0) + 1;
    const [found, expected] = quotingFault(unclosed.code);
    return failed(
      trouble(
        'table-unreadable',
        `${file}, row ${row}`,
        `${file}, row ${row}: found ${found}, in ${shown(data[row - 1]?.join() ?? '')}, expected ${expected}. Nothing was brought in.`,
      ),
    );
  }
  const rows: Cell[][] = [];
  for (const [index, cells] of data.entries()) {
    const own = cells.map((cell): Cell => ({ text: unguarded(cell.trim()), is: 'text' }));
    if (notClosed.has(index)) {
      const at = Math.max(
        0,
        own.findLastIndex(({ text: said }) => said.includes('"')),
      );
      own[at] = { text: own[at]?.text ?? '', is: 'not closed' };
    }
    while (own.length > 0 && own.at(-1)?.text === '') own.pop();
    if (own.length > limits.spreadsheetColumns) return tooLarge(`row ${index + 1} has ${own.length} cells`, `${limits.spreadsheetColumns}`);
    const long = own.find((cell) => cell.text.length > taken.letters);
    if (long !== undefined && !taken.each)
      return tooLarge(`a cell of row ${index + 1} holds ${long.text.length} characters`, `${taken.letters}`);
    rows.push(own.map((cell) => (cell.text.length > taken.letters ? tooLong(cell.text) : cell)));
  }
  while (rows.length > 0 && rows.at(-1)?.length === 0) rows.pop();
  if (rows.length > limits.spreadsheetRows) return tooLarge(`${rows.length} rows`, `${limits.spreadsheetRows}`);
  if (rows.length === 0)
    return failed(trouble('table-unreadable', file, `${file}: found no cells, expected headings and rows. Nothing was brought in.`));
  return done({ file, sheets: [{ name: file, hidden: false, rows }], notes });
};

/** The one by which most of the first lines have as many cells as the first of them, more than one; of two, the one that makes more cells. */
const delimiterOf = (text: string): string => {
  let best: { readonly delimiter: string; readonly even: number; readonly cells: number } = { delimiter: ',', even: 0, cells: 1 };
  for (const delimiter of delimiters) {
    const { data } = Papa.parse<string[]>(text, { delimiter, preview: looked, skipEmptyLines: true });
    const cells = data[0]?.length ?? 0;
    const even = data.filter((row) => row.length === cells).length;
    if (cells > 1 && (best.cells < 2 || even > best.even || (even === best.even && cells > best.cells))) best = { delimiter, even, cells };
  }
  return best.delimiter;
};
