import type { Fact } from '../atlas/atlas.ts';
import type { FitVerdict, Span } from './fit.ts';
import type { Measured } from './measured.ts';
import { normalWithin } from './normal.ts';

/**
 * Limits of size in whole nanometres. Deviations are written in thousandths of a millimetre, and 0.3 − 0.1 is not 0.2 in binary:
 * limits that touch on the drawing must touch here too, so sizes are made whole before they are compared.
 */
export interface Limits {
  readonly low: number;
  readonly high: number;
  /** Standard deviation, also in nanometres: of limits a sixth of their width, of a measured size its uncertainty. */
  readonly sd: number;
}

export type Size = (Fact & { readonly kind: 'measure' }) | Measured;

export const nanometres = (mm: number): number => Math.round(mm * 1e6);
export const millimetres = (nm: number): number => nm / 1e6;

/** @throws RangeError when a size is no number, its uncertainty below zero or its limits the wrong way round: the door should have refused it */
export const limitsOf = (size: Size): Limits => {
  const sound =
    size.kind === 'measured'
      ? Number.isFinite(size.value) && size.u >= 0 && size.u < Number.POSITIVE_INFINITY
      : Number.isFinite(size.nominal + size.lower + size.upper) && size.lower <= size.upper;
  if (!sound) throw new RangeError(`a size has limits in order, and numbers for them; found ${JSON.stringify(size)}`);
  if (size.kind === 'measured') {
    return { low: nanometres(size.value - 2 * size.u), high: nanometres(size.value + 2 * size.u), sd: size.u * 1e6 };
  }
  const low = nanometres(size.nominal + size.lower);
  const high = nanometres(size.nominal + size.upper);
  return { low, high, sd: (high - low) / 6 };
};

/** A size and how often it enters a sum; taken away where `times` is negative. */
export interface Term {
  readonly limits: Limits;
  readonly times: number;
}

/** What a sum of independent sizes can be: at worst, and by its mean and standard deviation. Nanometres. */
export const sumOf = (terms: readonly Term[]): Limits & { readonly mean: number } => {
  let low = 0;
  let high = 0;
  let variance = 0;
  for (const { limits, times } of terms) {
    low += times * (times > 0 ? limits.low : limits.high);
    high += times * (times > 0 ? limits.high : limits.low);
    variance += (times * limits.sd) ** 2;
  }
  return { low, high, mean: (low + high) / 2, sd: Math.sqrt(variance) };
};

/** A sum against what is asked of it, in mm (F2). */
export const judgeSum = (
  terms: readonly Term[],
  asked: Span,
): { readonly found: Span; readonly share: number; readonly verdict: 'drops in' | 'after work' | 'will not fit' } => {
  const sum = sumOf(terms);
  const least = nanometres(asked.least);
  const greatest = nanometres(asked.greatest);
  return {
    found: { least: millimetres(sum.low), greatest: millimetres(sum.high) },
    share: normalWithin(sum.mean, sum.sd, least, greatest),
    verdict: sum.low >= least && sum.high <= greatest ? 'drops in' : sum.high < least || sum.low > greatest ? 'will not fit' : 'after work',
  } satisfies { verdict: FitVerdict; found: Span; share: number };
};

/** Whether (one − other)/per lies outside what is asked whatever the two sizes are: `judgeSum`'s *will not fit* for a difference. */
export const neverWithin = (one: Limits, other: Limits, per: 1 | 2, asked: Span): boolean =>
  one.high / per - other.low / per < nanometres(asked.least) || one.low / per - other.high / per > nanometres(asked.greatest);
