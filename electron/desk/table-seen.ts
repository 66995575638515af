import type { Cells } from '../../db/index.ts';
import type { TableSeen } from '../bridge/table-calls.ts';

type Row = Cells['sheets'][number]['rows'][number];

/** So many rows are shown under the headings. */
const shownFirst = 6;

/**
 * What is shown of a file of cells before its columns are taken for anything.
 * @param rows of the sheet that is looked at
 * @param headings the row of the headings, as a spreadsheet counts; 0 where there are none
 */
export const tableSeen = ({ file, notes, sheets }: Cells, rows: readonly Row[], headings: number): TableSeen => {
  const width = rows.reduce((most, cells) => Math.max(most, cells.length), 0);
  const textsOf = (cells: Row): string[] => Array.from({ length: width }, (_, at) => cells[at]?.text ?? '');
  const below = rows.slice(headings);
  return {
    file,
    notes,
    sheets: sheets.map((one) => ({ name: one.name, hidden: one.hidden, rows: one.rows.length })),
    headings: textsOf(headings === 0 ? [] : (rows[headings - 1] ?? [])),
    first: below
      .filter((cells) => cells.some(({ text }) => text !== ''))
      .slice(0, shownFirst)
      .map(textsOf),
    rows: below.length,
  };
};
