/**
 * Share of a normal distribution below `z` standard deviations, 0..1, absolute error below 1e-14.
 *
 * For |z| < 3 the series Φ(z) = ½ + φ(z)·(z + z³/3 + z⁵/(3·5) + …); beyond it Laplace's continued fraction
 * Q(z) = φ(z)/(z + 1/(z + 2/(z + 3/(z + …)))). Both: Abramowitz & Stegun 1964, 26.2.11 and 26.2.14 (formula numbers from memory;
 * the values are held against simple-statistics and the published table in tests/external/fits).
 */
export const normalBelow = (z: number): number => {
  if (Number.isNaN(z)) throw new RangeError('normalBelow: z is not a number');
  if (z === 0) return 0.5;
  const size = Math.abs(z);
  if (size > 38) return z < 0 ? 0 : 1;
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  if (size < 3) {
    let term = size;
    let sum = size;
    for (let odd = 3; term > sum * 1e-17; odd += 2) {
      term *= (size * size) / odd;
      sum += term;
    }
    return z < 0 ? 0.5 - density * sum : 0.5 + density * sum;
  }
  let fraction = size;
  for (let k = 120; k >= 1; k -= 1) fraction = size + k / fraction;
  const tail = density / fraction;
  return z < 0 ? tail : 1 - tail;
};

/**
 * Share of N(mean, sd) between `least` and `greatest`, both included, 0..1. With no spread at all: 1 inside, 0 outside.
 * @throws RangeError when one of them is no number, the spread is below zero, or the limits stand the wrong way round
 */
export const normalWithin = (mean: number, sd: number, least: number, greatest: number): number => {
  if (!(Number.isFinite(mean) && sd >= 0 && least <= greatest))
    throw new RangeError(`a share needs a mean, a spread and limits in order; found ${mean}, ${sd} and ${least} to ${greatest}`);
  if (sd === 0) return mean >= least && mean <= greatest ? 1 : 0;
  const from = (least - mean) / sd;
  const to = (greatest - mean) / sd;
  // Taken on the lower side, so that a small share keeps its digits and a mirrored question has exactly the same answer.
  const share = from + to > 0 ? normalBelow(-from) - normalBelow(-to) : normalBelow(to) - normalBelow(from);
  // Two tails told to fifteen places may differ by a last figure the wrong way.
  return Math.min(1, Math.max(0, share));
};
