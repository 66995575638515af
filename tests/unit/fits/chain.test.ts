import { describe, expect, test } from 'vitest';
import { type Chain, type ChainId, judgeChain, type Known, type SourceId } from '../../../reasoner/index.ts';
import { count, f, measure, unknown } from './helpers.ts';

/** From the turbine wheel's back to the compressor nut: what is left of the stub shaft for the nut. */
const chain: Chain = {
  id: 'nut-engagement' as ChainId,
  name: 'stub shaft past the compressor wheel',
  leaves: 'nut engagement',
  links: [
    { feature: f('stub length'), times: 1 },
    { feature: f('thrust collar'), times: -1 },
    { feature: f('flinger'), times: -1 },
    { feature: f('wheel hub length'), times: -1 },
  ],
  min: 6,
  max: 9,
  source: 'tests' as SourceId,
};

const good: Record<string, Known> = {
  'stub length': measure(60, -0.05, 0.05),
  'thrust collar': measure(9, -0.01, 0.01),
  flinger: measure(14, -0.02, 0.02),
  'wheel hub length': measure(29.5, -0.05, 0.05),
};
const judge = (facts: Record<string, Known>, ...rest: Parameters<typeof judgeChain> extends [unknown, unknown, ...infer R] ? R : never) =>
  judgeChain(chain, (feature) => facts[feature], ...rest);

describe('axial chain over the rotor', () => {
  test('[F1] four lengths on four parts: worst case, root sum square, and which length matters most', () => {
    const found = judge(good);
    expect(found.verdict).toBe('drops in');
    expect(found.numbers?.worst).toEqual({ least: 7.37, greatest: 7.63 });
    expect(found.numbers?.rss.greatest).toBeCloseTo(7.5 + Math.hypot(0.05, 0.01, 0.02, 0.05), 6);
    expect(found.numbers?.contributions.map((each) => each.half)).toEqual([0.05, 0.05, 0.02, 0.01]);
    expect(found.numbers?.contributions.reduce((sum, each) => sum + each.ofVariance, 0)).toBeCloseTo(1, 12);
  });

  test('[F2] a hub too long leaves the nut too little to hold on', () => {
    expect(judge({ ...good, 'wheel hub length': measure(32, -0.05, 0.05) }).verdict).toBe('will not fit');
    const close = judge({ ...good, 'wheel hub length': measure(31, -0.05, 0.05) });
    expect(close.verdict).toBe('after work');
    expect(close.numbers?.share).toBeCloseTo(0.5, 6);
  });

  test('[A5] one unknown length leaves the whole unknown, and no number is made up', () => {
    const found = judge({ ...good, flinger: unknown });
    expect(found).toMatchObject({ verdict: 'not known', missing: ['flinger'], numbers: null });
    expect(judge({}).missing).toHaveLength(4);
  });

  test('[F2] lengths measured and lengths from the catalogue: a straddle still means choosing the parts not yet in hand', () => {
    const taken = (value: number): Known => ({ kind: 'measured', value, u: 0.01 });
    // The nut has 6 mm in the middle of what the lengths can leave.
    const inHand = { 'stub length': taken(60), 'thrust collar': taken(9), flinger: taken(14), 'wheel hub length': taken(31) };
    expect(judge(inHand), 'all of them in hand: it is the instrument that doubts').toMatchObject({
      verdict: 'not known',
      missing: ['stub length', 'thrust collar', 'flinger', 'wheel hub length'],
    });
    for (const published of Object.keys(inHand)) {
      const { nominal } = { nominal: (inHand[published as keyof typeof inHand] as { readonly value: number }).value };
      expect(judge({ ...inHand, [published]: measure(nominal, -0.02, 0.02) }), published).toMatchObject({
        verdict: 'after work',
        missing: [],
      });
    }
  });

  test('[F1] a length standing twice is one length: its doubt is doubled, not added in quadrature', () => {
    const twice: Chain = {
      ...chain,
      links: [
        { feature: f('spacer'), times: 1 },
        { feature: f('spacer'), times: 1 },
      ],
      min: 0,
      max: 100,
    };
    const found = judgeChain(twice, () => measure(4, -0.03, 0.03));
    expect(found.numbers?.worst).toEqual({ least: 7.94, greatest: 8.06 });
    expect(found.numbers?.rss).toEqual({ least: 7.94, greatest: 8.06 });
  });

  test('[F2] of two like lengths the inflated range would be wider than the worst case, and is shown no wider', () => {
    const two: Chain = { ...chain, links: chain.links.slice(0, 2), min: 50, max: 52 };
    const alike = { 'stub length': measure(60, -0.05, 0.05), 'thrust collar': measure(9, -0.05, 0.05) } as Record<string, Known>;
    const { numbers } = judgeChain(two, (feature) => alike[feature]);
    // Drake's factor is 1½ for like lengths: 1.5·√2·0.05 = 0.106, and the two together cannot be off by more than 0.1.
    expect(numbers?.worst).toEqual({ least: 50.9, greatest: 51.1 });
    expect(numbers?.inflated).toMatchObject({ least: 50.9, greatest: 51.1 });
    expect(numbers?.inflated.factor).toBeCloseTo(Math.SQRT2, 12);
    expect(numbers?.rss.greatest).toBeCloseTo(51 + Math.SQRT2 * 0.05, 6);
    // Of limits all on one side of the nominal as of any others: what counts is their middle.
    const onesided = { 'stub length': measure(60, 0, 0.1), 'thrust collar': measure(9, -0.1, 0) } as Record<string, Known>;
    expect(judgeChain(two, (feature) => onesided[feature]).numbers?.inflated).toMatchObject({ least: 51, greatest: 51.2 });
    // Of three the factor keeps within the worst case by itself, and is left as it is.
    const three: Chain = { ...two, links: chain.links.slice(0, 3) };
    const { inflated } = judgeChain(three, (feature) => ({ ...alike, flinger: measure(14, -0.05, 0.05) })[feature as string]).numbers ?? {};
    expect(inflated?.factor).toBeCloseTo(1.5, 12);
    expect(inflated?.greatest).toBeCloseTo(37 + 1.5 * Math.sqrt(3) * 0.05, 6);
  });

  test('[F2] simulated shares depend on how sizes spread, say so, and repeat with their seed', () => {
    const tight: Chain = { ...chain, min: 7.42, max: 7.58 };
    const by = (spread: 'normal' | 'normal, sorted' | 'triangular' | 'even') =>
      judgeChain(tight, (feature) => good[feature], { seed: 7, draws: 20_000, spread }).numbers;
    expect(by('even')).toEqual(by('even'));
    expect(by('even')?.statistics).toMatchObject({ method: 'Monte Carlo', spread: 'even', seed: 7, draws: 20_000 });
    const [even, triangular, sorted, normal] = [by('even'), by('triangular'), by('normal, sorted'), by('normal')].map(
      (numbers) => numbers?.share as number,
    ) as [number, number, number, number];
    expect(even).toBeLessThan(triangular);
    expect(triangular).toBeLessThan(normal);
    expect(Math.abs(sorted - normal)).toBeLessThan(0.01);
    expect(judgeChain(tight, (feature) => good[feature]).numbers?.statistics).toEqual({ method: 'closed form', spread: 'normal' });
  });

  test('[F2] a Monte Carlo of no draws, or with a broken seed, is refused', () => {
    expect(() => judge(good, { seed: 1, draws: 0, spread: 'even' })).toThrow(/one or more; found 0/);
    expect(() => judge(good, { seed: 1.5, draws: 10, spread: 'even' })).toThrow(/a seed is a whole number; found 1.5/);
  });

  test('[T1] a count in a chain of lengths is a bug past the door', () => {
    expect(() => judge({ ...good, flinger: count(2) })).toThrow(/flinger is a count where a fit compares a measure/);
  });
});
