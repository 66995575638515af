import { describe, expect, test } from 'vitest';
import { agrees } from '../../../reasoner/atlas/agree.ts';
import { limitsOf } from '../../../reasoner/fits/limits.ts';
import { normalWithin } from '../../../reasoner/fits/normal.ts';
import { shareInterval } from '../../../reasoner/fits/share-interval.ts';
import {
  chordOf,
  entropyOf,
  expandCode,
  type Feature,
  type FitRule,
  judgeRule,
  type Known,
  readThread,
  roomBetweenCircles,
} from '../../../reasoner/index.ts';
import { shareTogether } from '../../external/fits/share-together.ts';
import { f, measure } from '../fits/helpers.ts';

const refusal = (read: { readonly ok: boolean; readonly sentence?: string }) => (read.ok ? null : read.sentence);

describe('codes of the standard', () => {
  // ISO 286-1:2010 has twenty grades: IT01, IT0 and IT1 to IT18 (M). The tables here leave out the first two.
  test('[F3] h01 is grade IT01 of ISO 286-1, which the tables here do not hold; it is not h1', () => {
    expect(refusal(expandCode(25, 'h01'))).toMatch(/IT1 to IT18.*found IT01/);
    expect(refusal(expandCode(25, 'H01'))).toMatch(/found IT01/);
    expect(refusal(expandCode(25, 'h0'))).toMatch(/found IT0\./);
    expect(expandCode(25, 'h1')).toMatchObject({ ok: true, value: { lower: -0.0015, upper: 0 } });
  });

  test('[F3] any other grade with a zero before it is no grade of the standard', () => {
    for (const code of ['h00', 'h07', 'H010', 'js09', 'H011']) expect(refusal(expandCode(25, code)), code).toMatch(/is no ISO 286 code/);
    expect(expandCode(25, 'h10').ok).toBe(true);
  });

  test('[F1] a fraction without a denominator, or greater than one, is no size of a thread', () => {
    expect(refusal(readThread('1/0-20 UNC'))).toMatch(/1\/0 is no size/);
    expect(refusal(readThread('1 1/0-7 UNC'))).toMatch(/no size/);
    expect(refusal(readThread('0/8-40 UNS'))).toMatch(/no size/);
    // Might be 5 1/2, might be 1 1/2 with its space lost.
    expect(refusal(readThread('11/2-6 UN'))).toMatch(/11\/2 is no size/);
    expect(refusal(readThread('8/8-8 UN'))).toMatch(/no size/);
    expect(readThread('1 1/8-8 UN')).toMatchObject({ ok: true, value: { major: 28.575 } });
  });

  test('[F1] figures beyond any number are refused, not read as infinite', () => {
    const long = '9'.repeat(400);
    for (const text of [`M${long}x1`, `M8x0.${long.replaceAll('9', '0')}1`, `${long}-20 UNS`, `1/2-${long} UNS`])
      expect(readThread(text).ok, text.slice(0, 12)).toBe(false);
  });
});

describe('bolt circles', () => {
  test('[F1] a chord needs two bolts', () => {
    expect(() => chordOf(80, 1)).toThrow(/two holes or more; found 1/);
    expect(chordOf(80, 2)).toBeCloseTo(80, 12);
  });

  test('[F1] one hole still has its room beside a circle of others', () => {
    expect(roomBetweenCircles({ diameter: 60, holes: 1 }, { diameter: 60, holes: 4 })).toBeCloseTo(60 * Math.sin(Math.PI / 8), 12);
  });

  test('[F1] a circle without a diameter is refused', () => {
    for (const diameter of [Number.NaN, Number.POSITIVE_INFINITY, 0, -80]) {
      expect(() => chordOf(diameter, 4)).toThrow(/greater than zero; found/);
      expect(() => roomBetweenCircles({ diameter, holes: 4 }, { diameter: 60, holes: 4 })).toThrow(/greater than zero; found/);
      expect(() => roomBetweenCircles({ diameter: 60, holes: 4 }, { diameter, holes: 4 })).toThrow(/greater than zero; found/);
    }
  });
});

describe('what is no number is no answer (T1)', () => {
  const exducer = { id: 'exducer', slot: 'wheel', name: 'exducer', kind: 'measure', unit: 'mm' } as unknown as Feature;
  const measured = (value: number, u: number) => ({ value: { kind: 'measure', value }, sure: { kind: 'measured', u } }) as const;

  test('[O2] a size or an uncertainty that is no number is an error, never a disagreement', () => {
    for (const u of [Number.NaN, -0.01, Number.POSITIVE_INFINITY])
      expect(() => agrees(exducer, measure(57, -0.1, 0.1), measured(57, u))).toThrow(/uncertainty is zero or more; found/);
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => agrees(exducer, measure(57, -0.1, 0.1), measured(value, 0.01))).toThrow(/a measure is a number; found/);
    expect(agrees(exducer, measure(57, -0.1, 0.1), measured(57.12, 0.01))).toBe('holds');
  });

  test('[F2] limits that are no limits are an error, never “after work”', () => {
    const pilot: FitRule = { kind: 'pilot', spigot: f('spigot'), recess: f('recess'), min: 0.01, max: 0.05 };
    const judge = (spigot: Known) => judgeRule(pilot, (feature) => (feature === f('spigot') ? spigot : measure(70, 0, 0.03)));
    for (const wrong of [
      { kind: 'measured', value: Number.NaN, u: 0.01 },
      { kind: 'measured', value: 70, u: Number.NaN },
      { kind: 'measured', value: 70, u: -0.01 },
      { kind: 'measured', value: Number.POSITIVE_INFINITY, u: 0.01 },
      { kind: 'measure', nominal: Number.NaN, lower: 0, upper: 0.01 },
      { kind: 'measure', nominal: 70, lower: 0.02, upper: 0.01 },
    ] satisfies Known[])
      expect(() => judge(wrong), JSON.stringify(wrong)).toThrow(RangeError);
    expect(judge({ kind: 'measured', value: 69.98, u: 0 }).verdict).toBe('drops in');
    expect(limitsOf({ kind: 'measure', nominal: 70, lower: 0, upper: 0 })).toEqual({ low: 70_000_000, high: 70_000_000, sd: 0 });
  });

  test('[Q1] the entropy of what are no chances is an error', () => {
    expect(() => entropyOf([0.5, Number.NaN])).toThrow(/chance 2: found NaN, expected 0 to 1/);
    expect(() => entropyOf([1.5, -0.5])).toThrow(/found 1.5/);
    expect(() => entropyOf([-0.5, 1])).toThrow(/found -0.5/);
    expect(entropyOf([0.5, 0.5, 0])).toBe(1);
    expect(entropyOf([1 + 1e-12, 0])).toBe(0);
  });
});

describe('shares', () => {
  test('[F2] a share is between nothing and all, whatever is rounded on the way', () => {
    let outside = 0;
    for (let i = 0; i < 40_000; i += 1) {
      const least = -12 + (i % 200) * 0.12;
      const share = normalWithin(0, 1, least, least + 10 ** -(i % 17) / (1 + (i % 7)));
      if (!(share >= 0 && share <= 1)) outside += 1;
    }
    expect(outside).toBe(0);
    expect(normalWithin(0, 1, -100, 100)).toBe(1);
  });

  test('[F2] no share is told of what is no number, or of limits the wrong way round', () => {
    for (const [mean, sd, least, greatest] of [
      [Number.NaN, 0, 0, 1],
      [0, Number.NaN, 0, 1],
      [0, -1, 0, 1],
      [0, 1, Number.NaN, 1],
      [0, 1, 1, 0],
    ] as const)
      expect(() => normalWithin(mean, sd, least, greatest)).toThrow(RangeError);
  });

  test('[F2] a simulation in which nothing fitted does not claim to know so exactly', () => {
    const rule: FitRule = { kind: 'pilot', spigot: f('spigot'), recess: f('recess'), min: 1, max: 2 };
    const facts: Record<string, Known> = { spigot: measure(70, 0, 0.03), recess: measure(70, 0, 0.03) };
    for (const draws of [1, 40, 4000]) {
      const found = shareTogether(rule, (feature) => facts[feature], { seed: 5, draws, spread: 'even' });
      if (found?.statistics.method !== 'Monte Carlo') throw new Error('expected a simulation');
      const { standardError, interval } = found.statistics;
      expect(found.share).toBe(0);
      expect(standardError).toBeGreaterThan(0);
      expect(interval.least).toBe(0);
      expect(interval.greatest).toBeLessThan(1);
      // Hanley & Lippman-Hand 1983, J. Am. Med. Assoc. 249:1743 (M): none in n says with 95 % no more than 3/n; one-sided, so two-sided takes a little more.
      if (draws > 30) expect(interval.greatest).toBeGreaterThan(1 - 0.05 ** (1 / draws));
      if (draws > 30) expect(interval.greatest).toBeLessThan(4 / draws);
    }
  });

  test('[F2] where many were within and many not, the standard error is √(p(1 − p)/n)', () => {
    const rule: FitRule = { kind: 'pilot', spigot: f('spigot'), recess: f('recess'), min: 0, max: 1 };
    const facts: Record<string, Known> = { spigot: measure(70, 0, 0.03), recess: measure(70, 0, 0.03) };
    const found = shareTogether(rule, (feature) => facts[feature], { seed: 5, draws: 40_000, spread: 'even' });
    if (found?.statistics.method !== 'Monte Carlo') throw new Error('expected a simulation');
    const { share, statistics } = found;
    expect(statistics.standardError / Math.sqrt((share * (1 - share)) / 40_000)).toBeCloseTo(1, 3);
    expect(statistics.interval.least).toBeLessThan(share);
    expect(statistics.interval.greatest).toBeGreaterThan(share);
  });

  test('[F2] an interval needs a whole number of draws, and no more hits than draws', () => {
    for (const [hits, draws] of [
      [0, 0],
      [2, 1],
      [-1, 4],
      [0.5, 4],
      [Number.NaN, 4],
    ] as const)
      expect(() => shareInterval(hits, draws)).toThrow(RangeError);
  });
});
