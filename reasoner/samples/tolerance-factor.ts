import { normalBelow } from '../fits/normal.ts';
import { chiSquareAbove } from './distributions.ts';

/** Of the parts, how many lie within the limits, and how sure that is. */
export const toleranceShare = 0.95;
export const toleranceConfidence = 0.95;

/** So far from the mean, in spreads of the mean, that nothing of the normal distribution is left. */
const reach = 8;
/** Even, for Simpson's rule. */
const steps = 128;

/**
 * The factor k of two-sided normal tolerance limits mean ± k·spread: of what n readings were drawn from, a share of at least 0.95 lies within them, with 0.95 confidence.
 *
 * Not Howe's approximation (W. G. Howe, J. Amer. Statist. Assoc. 64, 1969, 610–620; NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3), which is up to some thousandths off
 * for few readings, but what it approximates, from its definition: with z the error of the mean in spreads and R(z) the half width about it that holds the share,
 * Φ(z + R) − Φ(z − R) = share, k is where ∫ P(χ²(n − 1) > (n − 1)·R(z)²/k²)·√(n/2π)·exp(−n·z²/2) dz is the confidence.
 * @param n how many readings, 2 or more
 */
export const toleranceFactor = (n: number): number => {
  if (!(Number.isInteger(n) && n >= 2)) throw new RangeError(`toleranceFactor: found ${n} readings`);
  const step = reach / Math.sqrt(n) / steps;
  const nodes = Array.from({ length: steps + 1 }, (_, i) => {
    const z = i * step;
    const simpson = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    // Both signs of z alike.
    const weight = ((2 * step * simpson) / 3) * Math.sqrt(n / (2 * Math.PI)) * Math.exp((-n * z * z) / 2);
    return { half: halfWidth(z), weight };
  });
  const confidence = (k: number) =>
    nodes.reduce((sum, { half, weight }) => sum + weight * chiSquareAbove((n - 1) * (half / k) ** 2, n - 1), 0);
  let [low, high] = [0, 4];
  while (confidence(high) < toleranceConfidence) high *= 2;
  for (let turn = 0; turn < 50; turn += 1) {
    const middle = (low + high) / 2;
    if (confidence(middle) < toleranceConfidence) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

/** R(z): half the width about z that holds the share of N(0, 1). */
const halfWidth = (z: number): number => {
  let [low, high] = [0, z + 10];
  for (let turn = 0; turn < 55; turn += 1) {
    const middle = (low + high) / 2;
    if (normalBelow(z + middle) - normalBelow(z - middle) < toleranceShare) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};
