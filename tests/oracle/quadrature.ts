/** Nodes and weights of Gauss–Legendre quadrature with five points on [−1, 1] (Abramowitz & Stegun 1964, table 25.4; from memory, held by its own test). */
const nodes: readonly (readonly [number, number])[] = [
  [0, 128 / 225],
  [Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3, (322 + 13 * Math.sqrt(70)) / 900],
  [-Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3, (322 + 13 * Math.sqrt(70)) / 900],
  [Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3, (322 - 13 * Math.sqrt(70)) / 900],
  [-Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3, (322 - 13 * Math.sqrt(70)) / 900],
];

/** ∫ f over [from, to], in steps no wider than `step`; f smooth inside. */
export const integral = (f: (x: number) => number, from: number, to: number, step: number): number => {
  if (!(to > from)) return 0;
  const panels = Math.max(1, Math.ceil((to - from) / step));
  const half = (to - from) / panels / 2;
  let sum = 0;
  for (let i = 0; i < panels; i += 1) {
    const middle = from + half * (2 * i + 1);
    for (const [node, weight] of nodes) sum += weight * f(middle + half * node);
  }
  return sum * half;
};

/** Density of a normal error of one standard deviation. */
const bell = (e: number): number => Math.exp((-e * e) / 2) / Math.sqrt(2 * Math.PI);

/** Errors are followed to so many standard deviations: what is beyond is below 1e-22. */
const reach = 10;
const step = 0.125;

/** Chance that a size anywhere in [least, greatest] alike, read with a normal error of standard deviation u, reads below `cut`: summed over the error. */
export const readsBelow = (cut: number, least: number, greatest: number, u: number): number => {
  if (cut === Number.POSITIVE_INFINITY) return 1;
  if (cut === Number.NEGATIVE_INFINITY) return 0;
  const truth = (limit: number): number => {
    if (greatest === least) return limit > least ? 1 : limit === least ? 0.5 : 0;
    return Math.min(1, Math.max(0, (limit - least) / (greatest - least)));
  };
  if (u === 0) return truth(cut);
  // Cut where the truth leaves off being smooth.
  const bends = [-reach, (cut - greatest) / u, (cut - least) / u, reach]
    .map((e) => Math.min(reach, Math.max(-reach, e)))
    .sort((a, b) => a - b);
  return bends.slice(1).reduce((sum, to, i) => sum + integral((e) => bell(e) * truth(cut - e * u), bends[i] as number, to, step), 0);
};

/** Density of the reading `value` for the same, per unit: the density of the truth that each error would need, averaged over the errors. */
export const densityAt = (value: number, least: number, greatest: number, u: number): number => {
  if (greatest === least) return bell((value - least) / u) / u;
  return integral(bell, (value - greatest) / u, (value - least) / u, step) / (greatest - least);
};
