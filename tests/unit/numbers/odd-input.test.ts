import { describe, expect, test } from 'vitest';
import { buildKey, type CheckDigit, checkDigit, type KeyAsked, type KeyProblem, problemOf, readListing } from '../../../reasoner/index.ts';
import { instrumentUncertainty } from '../../../reasoner/odds/readings.ts';
import { feature } from '../reasoner/little-atlas.ts';
import { demo } from '../seed/demo-atlas.ts';

describe('numbers nobody could mean', () => {
  test('[O5] a check digit without weights, or with a modulus that is none, is an error', () => {
    const sound: CheckDigit = { kind: 'check digit', weights: [3, 1], modulus: 10, stamps: 'complement', ten: 'X' };
    expect(checkDigit(sound, '12')).toBe('5');
    for (const wrong of [
      { weights: [] },
      { weights: [3, Number.NaN] },
      { modulus: 0 },
      { modulus: 12 },
      { modulus: Number.NaN },
      { modulus: 1 },
    ])
      expect(() => checkDigit({ ...sound, ...wrong }, '12'), JSON.stringify(wrong)).toThrow(
        /a check digit needs weights and a modulus from 2 to 11/,
      );
    expect(checkDigit({ ...sound, modulus: 11, stamps: 'remainder', weights: [1] }, '19')).toBe('X');
  });

  test('[O1] a number of a listing too long to be one is passed over', () => {
    const long = '9'.repeat(400);
    for (const text of [
      `Turbine housing A/R ${long}`,
      `turbine wheel, exducer diameter ${long} mm`,
      `turbine wheel ${long} blades`,
      `exducer diameter ${long}/3 in`,
    ])
      expect(
        readListing(demo, text).finds.filter(({ becomes: [first] }) => first.kind === 'told' && first.value.kind !== 'choice'),
        text.slice(0, 40),
      ).toEqual([]);
  });

  test('[D4] odds of models that are no odds make no key', () => {
    const asked = (odds: number): KeyAsked => ({
      level: 'models',
      scope: { letters: false },
      odds: { [demo.data.models[0]?.id ?? '']: odds },
    });
    for (const odds of [Number.NaN, -1, 0, Number.POSITIVE_INFINITY])
      expect(() => problemOf(demo, asked(odds)), String(odds)).toThrow(/odds .* greater than zero; found/);
  });

  test('[D4] odds at an end of a key are never above one', () => {
    for (let n = 1; n <= 300; n += 1) {
      const subjects = Array.from({ length: n }, () => ({ label: 0, odds: 1 / n, holds: [[{ kind: 0, odds: 1 }]] }));
      const problem: KeyProblem = { labels: 1, subjects, kinds: [1], checks: [], stages: [] };
      const { root } = buildKey(problem);
      if (root.kind !== 'end') throw new Error('there is nothing to check');
      expect(root.odds[0], `${n} alike`).toBeLessThanOrEqual(1);
      expect(root.odds[0]).toBeCloseTo(1, 12);
    }
  });

  test('[Q1] an instrument whose step is no number has no uncertainty to judge by', () => {
    for (const resolution of [Number.NaN, -0.02, Number.POSITIVE_INFINITY])
      expect(() => instrumentUncertainty(feature('wheel.tip', 'measure', { resolution })), String(resolution)).toThrow(
        /a step is zero or more; found/,
      );
    expect(instrumentUncertainty(feature('wheel.tip', 'measure'))).toBe(0);
  });
});
