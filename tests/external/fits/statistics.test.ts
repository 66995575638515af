import { cumulativeStdNormalProbability, errorFunction } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { normalBelow, normalWithin } from '../../../reasoner/fits/normal.ts';
import type { Chain, Fact, FeatureId, FitRule } from '../../../reasoner/index.ts';
import { expandCode, judgeChain, judgeRule } from '../../../reasoner/index.ts';
import { shareTogether } from './share-together.ts';

const f = (name: string) => name as FeatureId;
const coded = (nominal: number, code: string): Fact => {
  const read = expandCode(nominal, code);
  if (!read.ok) throw new Error(read.sentence);
  return { kind: 'measure', nominal, lower: read.value.lower, upper: read.value.upper };
};

describe('The normal distribution', () => {
  test('[F2] agrees with simple-statistics, whose table has four places and whose error function is good to 1.2e-7', () => {
    for (let z = -3; z <= 3.0001; z += 0.01) {
      const rounded = Math.round(z * 100) / 100;
      expect(Math.abs(normalBelow(rounded) - cumulativeStdNormalProbability(rounded))).toBeLessThan(5.1e-5);
      expect(Math.abs(normalBelow(rounded) - (1 + errorFunction(rounded / Math.SQRT2)) / 2)).toBeLessThan(1.3e-7);
    }
  });

  // Abramowitz & Stegun 1964, table 26.1, and the well-known tails; from memory (M).
  test.each([
    [1, 0.841344746068543],
    [2, 0.977249868051821],
    [3, 0.99865010196837],
    [-4, 3.16712418331199e-5],
    [-6, 9.86587645037698e-10],
    [-10, 7.61985302416053e-24],
  ])('[F2] below %d standard deviations lie %d', (z, share) => {
    expect(Math.abs(normalBelow(z) / share - 1)).toBeLessThan(2e-13);
  });

  test('[F2] both ways of computing it meet where one takes over from the other', () => {
    expect(Math.abs(normalBelow(3) - normalBelow(2.9999999999999996))).toBeLessThan(1e-13);
    expect(Math.abs(normalBelow(-3) - normalBelow(-2.9999999999999996))).toBeLessThan(1e-13);
  });

  test('[F2] a share far out in the tail keeps its digits', () => {
    expect(normalWithin(0, 1, 6, Number.POSITIVE_INFINITY) / 9.86587645037698e-10).toBeCloseTo(1, 12);
  });
});

describe('Share of pairs, 50 H7/k6, both normal with limits at ±3σ (check values F5, computed)', () => {
  const rule: FitRule = { kind: 'pilot', spigot: f('spigot'), recess: f('recess'), min: 0, max: 1 };
  const facts: Record<string, Fact> = { spigot: coded(50, 'k6'), recess: coded(50, 'H7') };
  const factOf = (feature: FeatureId) => facts[feature];

  test('[F2] closed form: interference in 30.665 % of pairs', () => {
    expect(1 - (judgeRule(rule, factOf).share as number)).toBeCloseTo(0.30665, 5);
    // The same from the mean 2.5 µm and standard deviation 4.947 µm, by the library.
    expect(Math.abs(cumulativeStdNormalProbability(-2.5 / 4.947) - 0.30665)).toBeLessThan(2e-3);
    expect(Math.abs((1 + errorFunction(-2.5 / 4.947 / Math.SQRT2)) / 2 - 0.30665)).toBeLessThan(2e-5);
  });

  test('[F2] seeded Monte Carlo agrees with the closed form within four of its standard errors', () => {
    for (const seed of [1, 2, 3]) {
      const simulated = shareTogether(rule, factOf, { seed, draws: 40_000, spread: 'normal' });
      if (simulated?.statistics.method !== 'Monte Carlo') throw new Error('expected a simulation');
      expect(Math.abs(simulated.share - (1 - 0.30665))).toBeLessThan(4 * simulated.statistics.standardError);
    }
  });
});

/** A stack given as [sign, nominal, lower, upper], any length unit. */
const stack = (links: readonly (readonly [1 | -1, number, number, number])[], min: number, max: number) => {
  const facts: Record<string, Fact> = {};
  links.forEach(([, nominal, lower, upper], i) => {
    facts[`length ${i}`] = { kind: 'measure', nominal, lower, upper };
  });
  const chain = {
    id: 'stack',
    name: 'a published stack',
    leaves: 'gap',
    links: links.map(([times], i) => ({ feature: f(`length ${i}`), times })),
    min,
    max,
    source: 'published',
  } as unknown as Chain;
  return { chain, factOf: (feature: FeatureId) => facts[feature] };
};

describe('Published tolerance stacks (lengths in inches, as published)', () => {
  test('[F1] Shigley, Mechanical Engineering Design, 9th ed., Example 1-3: mean .005, worst case ±.010 (C), root sum square ±.006 (computed)', () => {
    const { chain, factOf } = stack(
      [
        [1, 1.75, -0.003, 0.003],
        [-1, 0.75, -0.001, 0.001],
        [-1, 0.12, -0.005, 0.005],
        [-1, 0.875, -0.001, 0.001],
      ],
      0,
      0.02,
    );
    const found = judgeChain(chain, factOf);
    expect(found.verdict).toBe('after work');
    expect(found.numbers?.worst).toEqual({ least: -0.005, greatest: 0.015 });
    expect(found.numbers?.rss.least).toBeCloseTo(0.005 - 0.006, 6);
    expect(found.numbers?.rss.greatest).toBeCloseTo(0.005 + 0.006, 6);
    expect(found.numbers?.contributions[0]?.feature).toBe('length 2');
    expect(found.numbers?.contributions[0]?.ofVariance).toBeCloseTo(25 / 36, 6);
  });

  const motor = [
    [-1, 0.375, -0.031, 0],
    [1, 0.032, -0.002, 0.002],
    [1, 0.06, -0.003, 0.003],
    [1, 0.438, -0.015, 0],
    [1, 0.12, -0.005, 0.005],
    [1, 1.5, -0.004, 0.01],
    [1, 0.12, -0.005, 0.005],
    [1, 0.438, -0.015, 0],
    [1, 0.45, -0.007, 0.007],
    [-1, 3.019, 0, 0.012],
    [1, 0.3, -0.03, 0.03],
  ] as const;

  test('[F1] Drake, Dimensioning and Tolerancing Handbook, 1999, ch. 9, motor assembly: worst case, root sum square and inflated (C)', () => {
    const { chain, factOf } = stack(motor, 0, 1);
    const { numbers } = judgeChain(chain, factOf);
    if (!numbers) throw new Error('nothing is missing');
    const middle = (numbers.worst.least + numbers.worst.greatest) / 2;
    const half = (span: { least: number; greatest: number }) => (span.greatest - span.least) / 2;
    expect(middle).toBeCloseTo(0.0615, 6);
    expect(half(numbers.worst)).toBeCloseTo(0.0955, 6);
    expect(half(numbers.rss)).toBeCloseTo(0.03808, 5);
    expect(half(numbers.inflated)).toBeCloseTo(0.05047, 5);
    // Published 1.32551, worked there from the rounded root sum square.
    expect(Math.abs(numbers.inflated.factor - 1.32551)).toBeLessThan(1e-4);
  });

  test('[F1] the same stack by Monte Carlo, normals at ±3σ: standard deviation .012692 (computed anchor), share as the closed form gives it', () => {
    const sd = 0.012692;
    const { chain, factOf } = stack(motor, 0.0615 - sd, 0.0615 + sd);
    const closed = judgeChain(chain, factOf).numbers?.share as number;
    expect(closed).toBeCloseTo(0.682689, 4);
    const simulated = judgeChain(chain, factOf, { seed: 11, draws: 40_000, spread: 'normal' }).numbers;
    if (simulated?.statistics.method !== 'Monte Carlo') throw new Error('expected a simulation');
    expect(Math.abs(simulated.share - closed)).toBeLessThan(4 * simulated.statistics.standardError);
  });
});
