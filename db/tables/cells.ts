import { limits } from '../../reasoner/plain/limits.ts';

/** What stands in a cell: a text, a number a spreadsheet holds as one, or what cannot be taken at its word. */
export type CellIs =
  | 'text'
  | 'number'
  /** A spreadsheet makes one of what looks like it: `1/4` becomes the first of April. */
  | 'date'
  /** `#REF!` and its like. */
  | 'error'
  /** A formula nobody has reckoned out: its value is not in the file. */
  | 'not reckoned'
  /** More figures than a spreadsheet keeps: the last of them are lost. */
  | 'cut short'
  /** More characters than a cell may hold; how many is its text. */
  | 'too long'
  /** A quote that is opened and not closed where it ought to be: what follows went into the cell. */
  | 'not closed';

/** How the cells of a file are taken. */
export interface CellsTaken {
  /** Characters a cell may hold. */
  readonly letters: number;
  /** Whether a cell that holds more, or is not closed, is told of where it stands; else the whole file is refused. */
  readonly each: boolean;
}

export interface Cell {
  readonly text: string;
  readonly is: CellIs;
}

/** A file is refused for one cell that is none. */
export const strictly: CellsTaken = { letters: limits.cellLetters, each: false };

export const tooLong = (text: string): Cell => ({ text: String(text.length), is: 'too long' });

export const noCell: Cell = { text: '', is: 'text' };

/** One sheet of a spreadsheet, or all of a CSV. */
export interface CellSheet {
  readonly name: string;
  readonly hidden: boolean;
  /** The row a spreadsheet counts as 1 stands first; an empty row has no cells. */
  readonly rows: readonly (readonly Cell[])[];
}

/** A file as it was read, before anything is made of it. */
export interface Cells {
  readonly file: string;
  readonly sheets: readonly CellSheet[];
  /** What was taken for granted in reading it, each a sentence. */
  readonly notes: readonly string[];
}

/** The sheet called so, else the first that is not hidden and holds anything. */
export const sheetIn = ({ sheets }: Cells, name: string | null): CellSheet | undefined =>
  sheets.find((sheet) => sheet.name === name) ??
  sheets.find(({ hidden, rows }) => !hidden && rows.length > 0) ??
  sheets.find(({ rows }) => rows.length > 0) ??
  sheets[0];
