import { shown } from '../read/faults.ts';
import { type CellFault, placed, type Unplaced } from './cell-fault.ts';
import { type Cell, type CellSheet, noCell } from './cells.ts';
import type { ColumnUse, Matching, Mended } from './column-use.ts';
import { marksIn, type RowMarks } from './marks.ts';

export const asItIs: Mended = { cells: {}, confirmed: [], left: [], makers: [] };

export const cellKey = (row: number, column: number): string => `${row}:${column}`;

/** A column with what it is taken for. */
export interface UsedColumn {
  readonly column: number;
  readonly heading: string;
  readonly use: ColumnUse;
}

/** A row to be read: its cells as they were mended, and what is wrong with them put together. */
export interface Row {
  readonly row: number;
  readonly marks: RowMarks;
  /** The columns taken for this, in order, with their cells. */
  all<U extends ColumnUse['is']>(is: U): readonly (UsedColumn & { readonly use: Extract<ColumnUse, { is: U }>; readonly cell: Cell })[];
  /** The first of them; a cell of nothing where no column is. */
  first(is: ColumnUse['is']): { readonly column: number | null; readonly heading: string; readonly text: string };
  isConfirmed(column: number): boolean;
  readonly faults: CellFault[];
  fault(column: number | null, of: Unplaced): void;
}

/** The rows below the headings, without empty ones and those that are left out; every cell of a column that is used and cannot be taken at its word is a fault at once. */
export const rowsOf = (sheet: CellSheet, { headings, columns }: Matching, mended: Mended): readonly Row[] => {
  const heads = headings === 0 ? [] : (sheet.rows[headings - 1] ?? []);
  const used = columns.map((use, column): UsedColumn => ({ column, heading: heads[column]?.text ?? '', use }));
  const markColumn = used.find(({ use }) => use.is === 'as brought out');
  const [left, confirmed] = [new Set(mended.left), new Set(mended.confirmed)];
  return sheet.rows.slice(headings).flatMap((cells, at): Row[] => {
    const row = headings + at + 1;
    if (left.has(row) || cells.every(({ text, is }) => text === '' && is === 'text')) return [];
    const cellAt = (column: number): Cell => {
      const instead = mended.cells[cellKey(row, column)];
      return instead === undefined ? (cells[column] ?? noCell) : { text: instead.trim(), is: 'text' };
    };
    const faults: CellFault[] = [];
    const fault = (column: number | null, of: Unplaced) => faults.push(placed(row, column, of));
    for (const { column, use } of used) {
      if (use.is === 'ignored' || use.is === 'as brought out') continue;
      const cell = cellAt(column);
      const odd = oddity(cell);
      if (odd !== null) fault(column, odd);
    }
    const all: Row['all'] = (is) =>
      used
        .filter(({ use }) => use.is === is)
        .map((one) => {
          const cell = cellAt(one.column);
          return { ...one, cell: cell.is === 'text' || cell.is === 'number' ? cell : noCell } as never;
        });
    return [
      {
        row,
        marks: marksIn(markColumn?.heading ?? '', markColumn === undefined ? undefined : cellAt(markColumn.column)),
        all,
        first: (is) => {
          const [one] = all(is);
          return { column: one?.column ?? null, heading: one?.heading ?? '', text: one?.cell.text ?? '' };
        },
        isConfirmed: (column) => confirmed.has(cellKey(row, column)),
        faults,
        fault,
      },
    ];
  });
};

export const oddity = ({ text, is }: Cell): Unplaced | null => {
  switch (is) {
    case 'text':
    case 'number':
      return null;
    case 'date':
      return {
        found: `a date, ${text}`,
        expected: 'what was meant',
        sentence: `This is a date to the spreadsheet, ${text}. A fraction or a number with a dash becomes one as it is typed: write what was meant.`,
      };
    case 'error':
      return { found: shown(text), expected: 'a value', sentence: `The spreadsheet could not work this out and says ${text}.` };
    case 'not reckoned':
      return {
        found: 'a formula without its value',
        expected: 'a value',
        sentence: 'This is a formula whose value is not in the file. Open the file in the spreadsheet and save it, or write the value.',
      };
    case 'too long':
      return { found: `${text} characters`, expected: 'fewer', sentence: `${text} characters are more than a cell may hold.` };
    case 'not closed':
      return {
        found: shown(text),
        expected: 'a quote at both ends of the cell',
        sentence: `A quote is opened here and not closed where it ought to be${linesGone(text)}: ${shown(text)}.`,
      };
    case 'cut short':
      return {
        found: `a number of more than fifteen figures, ${text}`,
        expected: 'the number as a text',
        sentence: `The spreadsheet keeps fifteen figures of a number, and the last of ${text} are lost. Write it out.`,
      };
  }
};

const linesGone = (text: string): string => {
  const lines = text.split(/\r\n|\r|\n/).length - 1;
  return lines === 0 ? '' : `, and ${lines === 1 ? 'one line' : `${lines} lines`} below went into the cell`;
};
