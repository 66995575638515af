import type { SalvagedRow } from '../salvage/salvage.ts';
import { lettersIndex, numbersIndex, yearsIndex } from './layouts.ts';
import type { Source } from './source.ts';

/** What a file's indexes say of the numbers of its cases. */
export interface Numbered {
  /** With its letter; null where the file is from before letters counted by themselves and its index of letters does not say it. */
  readonly rows: readonly SalvagedRow[];
  /** Whether a case that is not among them is not there either. */
  readonly complete: boolean;
}

export const numberedIn = (source: Source): Numbered => {
  const rows = source.index(numbersIndex);
  if (rows.length > 0) return { rows, complete: source.isComplete(numbersIndex) };
  const letters = new Map(source.index(lettersIndex).map(({ sheet, letter }) => [sheet, letter]));
  const older = source.index(yearsIndex).map((row) => ({ ...row, letter: letters.get(row.sheet ?? null) ?? null }));
  const complete = source.isComplete(yearsIndex) && (older.length > 0 || source.isComplete(numbersIndex));
  return { rows: older, complete };
};
