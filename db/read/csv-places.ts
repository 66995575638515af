/** Where a cell stands in the text of a CSV, both from 1: a row with a break of line inside a cell takes several lines. */
export interface CsvPlaces {
  /** @param row as a spreadsheet counts them, the header being 1 @param cell from 0; null: the beginning of the row. Null where there is no such cell */
  at(row: number, cell: number | null): { readonly line: number; readonly character: number } | null;
}

/**
 * Places in a CSV by RFC 4180. Nothing is looked for before it is asked about: a text without faults costs nothing.
 * @param linebreak what the reader of its cells took for one
 */
export const csvPlacesIn = (text: string, linebreak: string): CsvPlaces => {
  let rows: readonly Row[] | null = null;
  return {
    at: (row, cell) => {
      rows ??= rowsIn(text, linebreak);
      const found = rows[row - 1];
      if (found === undefined) return null;
      if (cell === null) return { line: found.line, character: 1 };
      return cellIn(text, found, cell);
    },
  };
};

interface Row {
  readonly begins: number;
  readonly ends: number;
  readonly line: number;
}

const rowsIn = (text: string, linebreak: string): readonly Row[] => {
  const rows: Row[] = [];
  const breaks = linebreak === '\r' ? '\r' : '\n';
  let [begins, line, row, cell] = [0, 1, 1, true];
  let quoted = false;
  for (let at = 0; at <= text.length; at += 1) {
    const sign = text[at];
    if (sign === '"' && quoted && text[at + 1] === '"') at += 1;
    // A quote opens a cell only where it begins, and closes only what it opened.
    else if (sign === '"') quoted = quoted ? false : cell;
    else if (sign === undefined || sign === breaks) {
      line += 1;
      if (!quoted || sign === undefined) {
        rows.push({ begins, ends: at, line: row });
        [begins, row] = [at + 1, line];
      }
    }
    cell = !quoted && (sign === ',' || sign === breaks);
  }
  return rows;
};

const cellIn = (text: string, { begins, ends, line }: Row, index: number): { line: number; character: number } | null => {
  let [left, from, on, cell] = [index, begins, line, true];
  let quoted = false;
  for (let at = begins; left > 0 && at < ends; at += 1) {
    const sign = text[at];
    if (sign === '"' && quoted && text[at + 1] === '"') at += 1;
    else if (sign === '"') quoted = quoted ? false : cell;
    else if (sign === '\n') [from, on] = [at + 1, on + 1];
    else if (sign === ',' && !quoted) {
      left -= 1;
      if (left === 0) return { line: on, character: at + 2 - from };
    }
    cell = !quoted && sign === ',';
  }
  return left === 0 ? { line, character: 1 } : null;
};
