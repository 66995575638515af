import { eq } from 'drizzle-orm';
import type { SheetId } from '../../reasoner/index.ts';
import { caseNumberPattern, counterLetters } from '../../reasoner/plain/counter-letter.ts';
import type { Reader } from '../driver/driver.ts';
import * as t from '../schema.ts';

/** A case's number as the store has it: the counter's letter (empty of one given before counters had letters), the year, the place in that year. */
export interface CaseNumber {
  readonly letter: string;
  readonly year: number;
  readonly number: number;
}

/** The last number given under a letter in a year. */
export interface CaseCount {
  readonly letter: string;
  readonly year: number;
  readonly last: number;
}

/**
 * A count of before letters counted by themselves, as one for each letter: under which of them its numbers were given is not known, and none is given twice (P1).
 */
export const ofEveryLetter = (year: number, last: number): readonly CaseCount[] =>
  ['', ...counterLetters].map((letter) => ({ letter, year, last }));

/** `A-2026-0007`: the letter of the counter, the year it was opened in and its place in that year there, with as many digits as it takes past four. */
export const numberText = ({ letter, year, number }: CaseNumber): string =>
  `${letter === '' ? '' : `${letter}-`}${year}-${String(number).padStart(4, '0')}`;

/** A case's number read as it is written; null where it is none. */
export const readCaseNumber = (text: string): CaseNumber | null => {
  if (!caseNumberPattern.test(text)) return null;
  const [number, year, letter = ''] = text.split('-').reverse();
  return { letter, year: Number(year), number: Number(number) };
};

/** The columns a case's number is made of. */
export const numberColumns = { letter: t.cases.letter, year: t.cases.year, number: t.cases.number };

/** The number of a sheet's case; null where it has none. */
export const numberOfCase = async ({ orm }: Pick<Reader, 'orm'>, sheet: SheetId): Promise<string | null> => {
  const [head] = await orm.select(numberColumns).from(t.cases).where(eq(t.cases.sheet, sheet));
  return head === undefined ? null : numberText(head);
};

/** The day an instant falls on by the clock of this computer, `YYYY-MM-DD`: a shop's day does not end at midnight in Greenwich. */
export const dayOf = (instant: Date): string =>
  [instant.getFullYear(), instant.getMonth() + 1, instant.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
