import { createHash } from 'node:crypto';
import { fold } from '../plain/fold.ts';
import type { Cell } from './cells.ts';

/**
 * What a sheet was brought out with, in a column of its own: a few signs for every cell, so that one that was edited is told from one that was not, in a file any
 * program has saved. The heading of that column names the columns that were brought out.
 */
export const outHeading = 'as brought out';

const signsOf = (text: string): string => createHash('sha256').update(text).digest('base64url').slice(0, 6);

/** A figure however a program writes it: `51,5` and `51.50` are as `51.5` was brought out. */
const plainly = (text: string): string => {
  const bare = text.replace(/\s+/g, ' ').trim();
  const figure = /^(-?\d+)(?:[.,](\d+))?$/.exec(bare);
  if (figure === null) return bare;
  const decimals = (figure[2] ?? '').replace(/0+$/, '');
  return decimals === '' ? (figure[1] as string) : `${figure[1]}.${decimals}`;
};

/** The heading of the column of marks. */
export const markHeading = (headings: readonly string[]): string =>
  `${outHeading}: ${headings.map((heading) => signsOf(fold(heading))).join('.')}`;

/** A row’s marks, a cell each in the order of the headings; nothing for an empty cell. */
export const marksOf = (texts: readonly string[]): string => texts.map((text) => (text === '' ? '' : signsOf(plainly(text)))).join('.');

/** Whether a heading is that of the column of marks. */
export const isMarkHeading = (heading: string): boolean => fold(heading).startsWith(outHeading);

/** How a cell stands to what was brought out. */
export type Since = 'as brought out' | 'edited' | 'cleared' | 'not brought out';

/** What one row’s marks say: of a cell under a heading, and whether a text is what was brought out there. */
export interface RowMarks {
  since(heading: string, text: string): Since;
  wasBroughtOut(heading: string, text: string): boolean;
}

const noMarks: RowMarks = { since: () => 'not brought out', wasBroughtOut: () => false };

/** Marks are read by the headings they were made of; a column that came since has none. */
export const marksIn = (heading: string, cell: Cell | undefined): RowMarks => {
  const columns = (heading.split(':')[1] ?? '').trim().split('.');
  const marks = (cell?.text ?? '').split('.');
  if (cell === undefined || cell.text === '' || marks.length !== columns.length) return noMarks;
  const own = new Map(columns.map((column, at) => [column, marks[at] as string]));
  const markUnder = (of: string): string | undefined => own.get(signsOf(fold(of)));
  const signs = (text: string): string => (text === '' ? '' : signsOf(plainly(text)));
  return {
    since: (of, text) => {
      const mark = markUnder(of);
      if (mark === undefined) return 'not brought out';
      if (mark === signs(text)) return 'as brought out';
      return text === '' ? 'cleared' : 'edited';
    },
    wasBroughtOut: (of, text) => markUnder(of) === signs(text),
  };
};
