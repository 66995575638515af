import type { SheetId } from '../../reasoner/index.ts';
import type { GivenElsewhere } from '../../reasoner/plain/shared-letter.ts';
import type { Reader } from '../driver/driver.ts';
import { type CaseNumber, numberText, readCaseNumber } from './case-number.ts';
import { counterLetter } from './kept-cases.ts';

/** What is known here of a number: this counter's letter, the last one given under the number's letter in its year (0: none), and the sheet of the case that has it. */
interface NumberHere {
  readonly letter: string;
  readonly last: number;
  readonly sheet: string | null;
}

/**
 * Whether a case has this counter's letter in a number that was not given here: two counters then have one letter (P1). What is not past the last and no case here has is taken for a removed one's.
 */
export const isGivenElsewhere = (number: CaseNumber, sheet: string, here: NumberHere): boolean =>
  number.letter === here.letter && (here.sheet === null ? number.number > here.last : here.sheet !== sheet);

/** The same of the case in a file, whose number is as it is written; null where there is nothing to tell. */
export const givenElsewhere = async ({ all }: Reader, text: string, sheet: SheetId): Promise<GivenElsewhere | null> => {
  const number = readCaseNumber(text);
  if (number === null) return null;
  const { letter, year } = number;
  const [here] = await all<{ letter: string; last: number; sheet: string | null }>(
    `select ${counterLetter} as letter, coalesce((select last from case_counts where letter = ? and year = ?), 0) as last,
       (select sheet from cases where letter = ? and year = ? and number = ?) as sheet`,
    [letter, year, letter, year, number.number],
  );
  return here !== undefined && isGivenElsewhere(number, sheet, here) ? { first: numberText(number), many: 1 } : null;
};
