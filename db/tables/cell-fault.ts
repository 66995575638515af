/** One thing wrong in a cell, or in a row (column null). `row` as a spreadsheet counts; `column` from 0. */
export interface CellFault {
  readonly row: number;
  readonly column: number | null;
  /** What stands there, quoted. */
  readonly found: string;
  /** To stand after “expected”. */
  readonly expected: string;
  /** A whole sentence where the two do not make one by themselves. */
  readonly sentence: string;
  /** What may have been meant: what to write there instead, and why. */
  readonly likely: readonly { readonly text: string; readonly why: string }[];
  /** What somebody may confirm as it stands: a figure hard to believe (O7), or a word against what the atlas has come to say since (H4). */
  readonly confirm: 'hard to believe' | 'moved on' | null;
  /** What nobody has listed yet and might be added: a maker of this name. */
  readonly add: 'maker' | null;
}

/** Where and how, of a fault that is yet to be placed. */
export type Unplaced = Pick<CellFault, 'found' | 'expected'> & {
  readonly [K in 'sentence' | 'likely' | 'confirm' | 'add']?: CellFault[K] | undefined;
};

export const placed = (row: number, column: number | null, of: Unplaced): CellFault => ({
  row,
  column,
  found: of.found,
  expected: of.expected,
  sentence: of.sentence ?? `Found ${of.found}, expected ${of.expected}.`,
  likely: of.likely ?? [],
  confirm: of.confirm ?? null,
  add: of.add ?? null,
});
