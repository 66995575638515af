import { warning } from '../warnings.ts';
import type { Finding } from './ground.ts';
import { rangeText, sizeText } from './ground.ts';
import { sizesAmong } from './sizes.ts';
import { slippedIn } from './slipped-sizes.ts';

/** Fewer figures say nothing of what is usual among them. */
export const leastOutliers = 8;

/**
 * The median absolute deviation times this is the standard deviation, of normal figures: 1 / Φ⁻¹(3/4). F. R. Hampel, “The influence curve and its role in
 * robust estimation”, J. Am. Stat. Assoc. 69 (1974), 383–393.
 */
const madToSigma = 1.4826;
/** B. Iglewicz and D. C. Hoaglin, “How to Detect and Handle Outliers” (ASQC 1993): figures more than 3.5 such deviations from the median are outliers. */
const cut = 3.5;
/** Where the usual deviation is more than this share of the median, the sizes of a family differ because its models do. Our own; no source. */
const widest = 0.1;
/** Nearer than this share of the median it is another fit, not another size. Our own; no source. */
const nearest = 0.05;

/**
 * How many usual deviations each outlier lies off, by its place in the list: |x − median| / (1.4826 · MAD) above 3.5. None of a list that is short, that spreads, or of
 * which more than half is one size; and none of two that lie off on the same side, for one bears the other out.
 * @param sizes in ascending order
 */
export const outliersIn = (sizes: readonly number[]): ReadonlyMap<number, number> => {
  const found = new Map<number, number>();
  if (sizes.length < leastOutliers) return found;
  const median = medianOf(sizes);
  const usual = madToSigma * medianOf(sizes.map((size) => Math.abs(size - median)).sort((a, b) => a - b));
  if (usual === 0 || usual > widest * median) return found;
  const isFar = (size: number): boolean => Math.abs(size - median) > Math.max(cut * usual, nearest * median);
  for (const [at, next] of [
    [0, 1],
    [sizes.length - 1, sizes.length - 2],
  ] as const) {
    const size = sizes[at] as number;
    if (isFar(size) && !isFar(sizes[next] as number)) found.set(at, Math.abs(size - median) / usual);
  }
  return found;
};

const medianOf = (sorted: readonly number[]): number => {
  const half = sorted.length >> 1;
  const above = sorted[half] as number;
  return sorted.length % 2 === 1 ? above : ((sorted[half - 1] as number) + above) / 2;
};

/** One part of a family that is another size than all others, where the others are nearly of one. */
export const outlyingSizes: Finding = {
  about: 'outlier',
  rests: [],
  find: function* (ground) {
    const slipped = slippedIn(ground);
    const judged = new Map<unknown, ReadonlyMap<number, number>>();
    for (const among of sizesAmong(ground)) {
      const { feature, part, nominal, group, of } = among;
      if (of !== 'family' || slipped.has(among)) continue;
      const outliers = judged.get(group) ?? outliersIn(group.map((size) => size.nominal));
      judged.set(group, outliers);
      for (const [at, times] of outliers) {
        if (group[at]?.part.id !== part.id) continue;
        const others = group.filter((_, n) => n !== at);
        const [least, most] = [others[0]?.nominal ?? 0, others.at(-1)?.nominal ?? 0];
        yield warning(
          ground.at.fact(part.id, feature.id, 'value'),
          `the ${feature.name} of ${JSON.stringify(part.name)} is ${sizeText(nominal, feature)}, where the ${others.length} other parts of its family have ${rangeText(least, most, feature)}: ${Number(times.toPrecision(2))} times their usual deviation off`,
          'If it is not of another size than they are, units that are right would be held against it.',
          { alike: { cause: feature.id, name: part.name } },
        );
      }
    }
  },
};
