import Papa from 'papaparse';

export type Cell = string | number;

/**
 * The one writer of CSV that is read in a spreadsheet: cases, listings. RFC 4180, a heading row first, CRLF; no cell, nor any piece of one that another delimiter would make
 * a cell of, is a formula. (A pack's own tables are written by `db/packs/canonical.ts`, byte for byte as they are read again.)
 */
export const csvOf = (headings: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  `${Papa.unparse({ fields: [...headings], data: rows.map((row) => row.map(guarded)) }, { newline: '\r\n' })}\r\n`;

/** A spreadsheet takes a cell that begins with one of these for a formula; the full-width forms too in some locales. */
const begins = new Set('=+-@＝＋－＠|%');
/** Where commas are decimal, a program takes one of these for the end of a cell, in quotes or not, as the quotes then stand in the middle of a cell of its own. */
const delimits = new Set(';\t\r\n');
/** What may stand before the first sign of a cell and is passed over. */
const passedOver = /[\s\p{Cc}\p{Cf}"]/u;

/**
 * The text of a cell with an apostrophe before whatever would be a formula: at its beginning, and after every delimiter in it. One look along the text.
 * OWASP, “CSV Injection”: = + - @, tab, carriage return and line feed at the beginning, and the same after a field separator or a quote that starts a new cell.
 */
export const guarded = (value: Cell): Cell => {
  if (typeof value !== 'string') return value;
  let text = '';
  let at: 'beginning' | 'after a delimiter' | 'within' = 'beginning';
  let first = value.startsWith('\t') || value.startsWith('\r') || value.startsWith('\n');
  for (const sign of value) {
    if (begins.has(sign)) {
      if (at === 'beginning') first = true;
      if (at === 'after a delimiter') text += "'";
      at = 'within';
    } else if (delimits.has(sign)) at = 'after a delimiter';
    else if (at !== 'within' && !passedOver.test(sign)) at = 'within';
    text += sign;
  }
  return first ? `'${text}` : text;
};

/** What a cell said before `guarded` put its apostrophes in. Of a text that had one in such a place by itself, that one is taken for ours. */
export const unguarded = (cell: string): string => {
  const bare = cell.startsWith("'") && guarded(cell.slice(1)) !== cell.slice(1) ? cell.slice(1) : cell;
  let text = '';
  let at: 'beginning' | 'after a delimiter' | 'within' = 'beginning';
  const signs = [...bare];
  for (const [index, sign] of signs.entries()) {
    if (sign === "'" && at === 'after a delimiter' && begins.has(signs[index + 1] ?? '')) {
      at = 'within';
      continue;
    }
    if (delimits.has(sign)) at = 'after a delimiter';
    else if (at !== 'within' && !passedOver.test(sign)) at = 'within';
    text += sign;
  }
  return text;
};
