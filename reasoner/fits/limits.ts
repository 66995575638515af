import type { Fact } from '../atlas/atlas.ts';
import type { FitVerdict, Span } from './fit.ts';
import { normalWithin } from './normal.ts';

/**
 * Limits of size in whole nanometres. Deviations are written in thousandths of a millimetre, and 0.3 − 0.1 is not 0.2 in binary:
 * limits that touch on the drawing must touch here too, so sizes are made whole before they are compared.
 */
export interface Limits {
  readonly low: number;
  readonly high: number;
}

const nanometres = (mm: number): number => Math.round(mm * 1e6);
const millimetres = (nm: number): number => nm / 1e6;

export const limitsOf = (fact: Fact & { kind: 'measure' }): Limits => ({
  low: nanometres(fact.nominal + fact.lower),
  high: nanometres(fact.nominal + fact.upper),
});

/** outer − inner, divided by `per` (2 for a radial clearance of diameters): what it can be at worst, and the share within `asked`. */
export const difference = (
  outer: Limits,
  inner: Limits,
  per: 1 | 2,
  asked: Span,
): { readonly found: Span; readonly share: number; readonly verdict: FitVerdict } => {
  const least = outer.low - inner.high;
  const greatest = outer.high - inner.low;
  const from = per * nanometres(asked.least);
  const to = per * nanometres(asked.greatest);
  const mean = (least + greatest) / 2;
  const sd = Math.hypot(outer.high - outer.low, inner.high - inner.low) / 6;
  return {
    found: { least: millimetres(least / per), greatest: millimetres(greatest / per) },
    share: normalWithin(mean, sd, from, to),
    verdict: least >= from && greatest <= to ? 'drops in' : greatest < from || least > to ? 'will not fit' : 'after work',
  };
};
