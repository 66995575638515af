import { expect, it } from 'vitest';
import { type Factor, marginal, numbers } from '../../oracle/algebra/evaluate.ts';

/*
 * S. L. Lauritzen & D. J. Spiegelhalter, “Local computations with probabilities on graphical structures and their application to expert
 * systems”, J. R. Statist. Soc. B 50 (1988) 157–224. Tables C; marginals C, recomputed (V); those given an X-ray C to four places, V.
 * Its arrows join slots to slots, which the odds model of Q1 has none of: so it is put to the summing engine itself.
 */
const names = ['asia', 'tub', 'smoke', 'lung', 'bronc', 'either', 'xray', 'dysp'] as const;
type Variable = (typeof names)[number];
const at = (name: Variable): number => names.indexOf(name);

/** A table: the chance of `of` being so, given what its parents are (1 so, 0 not). */
const table = (of: Variable, parents: readonly Variable[], chance: (...so: number[]) => number): Factor<number> => ({
  scope: [at(of), ...parents.map(at)],
  at: (values) => {
    const so = chance(...parents.map((parent) => values[at(parent)] as number));
    return values[at(of)] === 1 ? so : 1 - so;
  },
});

const tables: readonly Factor<number>[] = [
  table('asia', [], () => 0.01),
  table('tub', ['asia'], (asia) => (asia === 1 ? 0.05 : 0.01)),
  table('smoke', [], () => 0.5),
  table('lung', ['smoke'], (smoke) => (smoke === 1 ? 0.1 : 0.01)),
  table('bronc', ['smoke'], (smoke) => (smoke === 1 ? 0.6 : 0.3)),
  table('either', ['tub', 'lung'], (tub, lung) => (tub === 1 || lung === 1 ? 1 : 0)),
  table('xray', ['either'], (either) => (either === 1 ? 0.98 : 0.05)),
  table('dysp', ['bronc', 'either'], (bronc, either) => (bronc === 1 ? (either === 1 ? 0.9 : 0.8) : either === 1 ? 0.7 : 0.1)),
];

const chanceOf = (name: Variable, seen: Partial<Record<Variable, 0 | 1>> = {}): number => {
  const evidence = Object.entries(seen).map(
    ([of, so]): Factor<number> => ({ scope: [at(of as Variable)], at: (values) => (values[at(of as Variable)] === so ? 1 : 0) }),
  );
  const [not, so] = marginal({ domains: names.map(() => 2), factors: [...tables, ...evidence] }, at(name), numbers) as [number, number];
  return so / (not + so);
};

it('[Q1] the summing engine on the chest clinic, nothing seen', () => {
  const published = { tub: 0.0104, lung: 0.055, bronc: 0.45, either: 0.064828, xray: 0.11029004, dysp: 0.4359706 } as const;
  for (const [name, chance] of Object.entries(published)) expect(chanceOf(name as Variable)).toBeCloseTo(chance, 8);
});

it('[Q1] the summing engine on the chest clinic, given a shadow on the X-ray', () => {
  const published = { asia: 0.013156, smoke: 0.687754, tub: 0.092411, lung: 0.488711, bronc: 0.506326, either: 0.57604, dysp: 0.640766 };
  for (const [name, chance] of Object.entries(published)) expect(chanceOf(name as Variable, { xray: 1 })).toBeCloseTo(chance, 6);
});
