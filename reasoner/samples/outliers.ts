import { studentQuantile } from './distributions.ts';
import { meanOf, spreadOf } from './mean.ts';

/** Among fewer nothing is called an outlier. */
export const fewestForOutliers = 7;
/** From here on several are looked for; below, one, which is Grubbs's test. */
const fewestForSeveral = 15;
const most = 10;
/** How often one is named where there is none. */
export const outlierRisk = 0.05;

/**
 * Which of these stand apart from the others, as places in `values`; null where there are too few to say.
 *
 * The generalized extreme studentized deviate test: B. Rosner, Technometrics 25, 1983, 165–172; NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.3. Its critical values are good from some
 * fifteen readings on; among fewer, one outlier at most is looked for, with which it is Grubbs's test (1.3.5.17.1). Of more, a fifth at most, and ten. It rests on a normal
 * distribution of all others, and says that a reading stands apart, never why.
 */
export const outliersAmong = (values: readonly number[]): readonly number[] | null => {
  const n = values.length;
  if (n < fewestForOutliers) return null;
  const atMost = n < fewestForSeveral ? 1 : Math.min(most, Math.floor(n / 5));
  const left = values.map((value, at) => ({ value, at }));
  const taken: number[] = [];
  let named = 0;
  for (let i = 1; i <= atMost; i += 1) {
    const numbers = left.map(({ value }) => value);
    const [mean, spread] = [meanOf(numbers), spreadOf(numbers)];
    if (spread === 0) break;
    const far = left.reduce((best, one, at) => (Math.abs(one.value - mean) > Math.abs((left[best]?.value ?? mean) - mean) ? at : best), 0);
    const [one] = left.splice(far, 1);
    if (one === undefined) break;
    taken.push(one.at);
    // The largest number of outliers whose last stands apart: two near each other hide each other from the first step.
    if (Math.abs(one.value - mean) / spread > criticalDeviate(n, i)) named = i;
  }
  return taken.slice(0, named).sort((a, b) => a - b);
};

/** λ of Rosner's i-th step among n readings. */
export const criticalDeviate = (n: number, i: number): number => {
  const t = studentQuantile(outlierRisk / (2 * (n - i + 1)), n - i - 1);
  return ((n - i) * t) / Math.sqrt((n - i - 1 + t * t) * (n - i + 1));
};
