import type { Span } from './fit.ts';

/** Standard deviations either side that hold 95 % of a normal distribution. */
export const z95 = 1.959963984540054;

/**
 * Between which shares, 0..1, the true one lies with 95 % confidence when `hits` of `draws` independent draws were within: Wilson's score interval,
 * (p + z²/2n ± z·√(p(1 − p)/n + z²/4n²)) / (1 + z²/n) with p = hits/draws (E. B. Wilson 1927, J. Am. Stat. Assoc. 22:209). Unlike p ± z·√(p(1 − p)/n) it
 * keeps a width where none or all were within: none in n leaves up to z²/(n + z²), a little over the one-sided 3/n of Hanley & Lippman-Hand 1983.
 * @throws RangeError when hits and draws are not whole, or more hits than draws
 */
export const shareInterval = (hits: number, draws: number): Span => {
  if (!(Number.isInteger(draws) && draws >= 1 && Number.isInteger(hits) && hits >= 0 && hits <= draws))
    throw new RangeError(`a share is of whole draws, one or more; found ${hits} of ${draws}`);
  const share = hits / draws;
  const squared = z95 ** 2 / draws;
  const middle = (share + squared / 2) / (1 + squared);
  const half = (z95 * Math.sqrt((share * (1 - share)) / draws + squared / (4 * draws))) / (1 + squared);
  // The ends of none and of all are 0 and 1 exactly; binary arithmetic misses them by a hair.
  return { least: hits === 0 ? 0 : Math.max(0, middle - half), greatest: hits === draws ? 1 : Math.min(1, middle + half) };
};
