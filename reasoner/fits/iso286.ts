import {
  fineRanges,
  holeJ,
  mainRanges,
  shaftJ,
  shaftLower,
  shaftLowerFine,
  shaftUpper,
  shaftUpperFine,
  standardTolerances,
} from './iso286-tables.ts';
import { done, type Outcome, refused } from './outcome.ts';

/** A tolerance code expanded for one nominal size: deviations from it in mm, as a measure's fact holds them (F3). */
export interface Expansion {
  readonly lower: number;
  readonly upper: number;
  /** The code as the standard writes it: capital letters for holes, small ones for shafts. */
  readonly code: string;
}

/**
 * Expands an ISO 286 code (`H7`, `g6`, `js9`, `ZA8`) for a nominal size of 1 to 500 mm. What the tables do not hold is refused, never guessed:
 * grades beyond 1–18 (the two finer ones, IT01 as `h01` and IT0, among them), letters left out of the tables, sizes for which a letter has no deviation.
 * Source: ISO 286-1:2010, tables and the Δ rule for holes; the status of the cells stands in iso286-tables.ts.
 */
export const expandCode = (nominal: number, code: string): Outcome<Expansion> => {
  // A grade has no zero before it but for IT01, finer than IT0 and another grade than IT1 (ISO 286-1:2010, from memory).
  const read = /^([A-Z]{1,2}|[a-z]{1,2})(0|01|[1-9]\d?)$/.exec(code.trim());
  if (!read) return refused(`"${code}" is no ISO 286 code: expected a letter or two and a grade, such as H7 or g6.`);
  const letter = read[1] as string;
  if (read[2] === '01') return refused(gradesHeld('01'));
  const grade = Number(read[2]);
  const tolerance = toleranceOf(nominal, grade);
  if (!tolerance.ok) return tolerance;
  const it = tolerance.value;
  const hole = letter === letter.toUpperCase();
  const deviation = hole ? holeDeviation(nominal, letter, grade, it) : shaftDeviation(nominal, letter, grade, it);
  if (deviation === null) {
    return refused(`${letter}${grade} is not in the ISO 286 tables for ${nominal} mm.`);
  }
  const [from, way] = deviation;
  const [lower, upper] = way === 'lower' ? [from, from + it] : [from - it, from];
  return done({ lower: millimetres(lower), upper: millimetres(upper), code: `${letter}${grade}` });
};

/** The standard tolerance of a grade (IT1–IT18) at a nominal size of 1 to 500 mm, in micrometres. */
export const toleranceOf = (nominal: number, grade: number): Outcome<number> => {
  if (!(nominal >= 1 && nominal <= 500)) return refused(`The ISO 286 tables held here run from 1 to 500 mm; found ${nominal}.`);
  const row = standardTolerances[grade];
  if (!row) return refused(gradesHeld(grade));
  if (nominal === 1 && grade >= 14) return refused(`IT14 to IT18 are not used up to 1 mm; found IT${grade} at 1 mm.`);
  return done(row[mainRange(nominal)] as number);
};

const gradesHeld = (found: string | number): string => `The standard tolerance grades held here run from IT1 to IT18; found IT${found}.`;

/** A fundamental deviation in micrometres and which limit it is. The tolerance gives the other limit. */
type Deviation = readonly [number, 'lower' | 'upper'];

const shaftDeviation = (nominal: number, letter: string, grade: number, it: number): Deviation | null => {
  if (letter === 'js') return [-it / 2, 'lower'];
  if (letter === 'j') return at(shaftJ[grade], mainRange(nominal), 'lower');
  if (letter === 'k' && (grade < 4 || grade > 7)) return [0, 'lower'];
  if (nominal === 1 && (letter === 'a' || letter === 'b')) return null;
  return (
    at(shaftUpper[letter], mainRange(nominal), 'upper') ??
    at(shaftUpperFine[letter], fineRange(nominal), 'upper') ??
    at(shaftLower[letter], mainRange(nominal), 'lower') ??
    at(shaftLowerFine[letter], fineRange(nominal), 'lower')
  );
};

/**
 * Holes mirror shafts: A–H have EI = −es. K–ZC have ES = −ei, and in the finer grades (K, M, N to IT8; P–ZC to IT7) ES = −ei + Δ, with
 * Δ = ITn − IT(n−1) above 3 mm, so that H7/p6 and P7/h6 give the same fit.
 */
const holeDeviation = (nominal: number, letter: string, grade: number, it: number): Deviation | null => {
  const small = letter.toLowerCase();
  if (letter === 'JS') return [-it / 2, 'lower'];
  if (letter === 'J') return at(holeJ[grade], mainRange(nominal), 'upper');
  if (letter <= 'H' && letter.length === 1) {
    const shaft = shaftDeviation(nominal, small, grade, it);
    return shaft && [-shaft[0] || 0, 'lower'];
  }
  const transition = letter === 'K' || letter === 'M' || letter === 'N';
  if (grade > (transition ? 8 : 7)) {
    if (letter === 'K') return null;
    if (letter === 'N') return nominal <= 3 ? (nominal === 1 ? null : [-4, 'upper']) : [0, 'upper'];
    const shaft = at(shaftLower[small], mainRange(nominal), 'lower') ?? at(shaftLowerFine[small], fineRange(nominal), 'lower');
    return shaft && [-shaft[0], 'upper'];
  }
  if (grade < 3) return null;
  // The one cell the standard sets by hand: M6 over 250 up to 315 mm is −9, not −11.
  if (letter === 'M' && grade === 6 && nominal > 250 && nominal <= 315) return [-9, 'upper'];
  const shaft = at(shaftLower[small], mainRange(nominal), 'lower') ?? at(shaftLowerFine[small], fineRange(nominal), 'lower');
  return shaft && [-shaft[0] + delta(nominal, grade, it), 'upper'];
};

const delta = (nominal: number, grade: number, it: number): number =>
  nominal <= 3 ? 0 : it - (standardTolerances[grade - 1]?.[mainRange(nominal)] as number);

const at = (row: readonly (number | null)[] | undefined, range: number, way: 'lower' | 'upper'): Deviation | null => {
  const value = row?.[range];
  return value === undefined || value === null ? null : [value, way];
};

/** Ranges are "over, up to and including": 30 mm lies in 18–30. */
const mainRange = (nominal: number): number => mainRanges.findIndex((end) => nominal <= end);
const fineRange = (nominal: number): number => fineRanges.findIndex((end) => nominal <= end);

const millimetres = (micrometres: number): number => Math.round(micrometres * 10) / 10_000;
