import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { criticalDeviate, outliersAmong } from '../../../reasoner/samples/outliers.ts';
import { measureStatistics } from '../../../reasoner/samples/statistics.ts';
import { toleranceFactor } from '../../../reasoner/samples/tolerance-factor.ts';

/** Simpson's rule: f over a to b, in n steps (even). */
const integral = (f: (x: number) => number, a: number, b: number, n: number): number => {
  const h = (b - a) / n;
  let sum = f(a) + f(b);
  for (let i = 1; i < n; i += 1) sum += (i % 2 === 1 ? 4 : 2) * f(a + i * h);
  return (sum * h) / 3;
};

const density = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
const below = (z: number): number => (z < 0 ? 1 - below(-z) : 0.5 + integral(density, 0, Math.min(z, 9), 100));

/** Γ(ν/2) of a whole ν, from Γ(1) = 1 and Γ(½) = √π. */
const gammaOfHalf = (degrees: number): number => {
  let value = degrees % 2 === 0 ? 1 : Math.sqrt(Math.PI);
  for (let a = degrees % 2 === 0 ? 1 : 0.5; a < degrees / 2; a += 1) value *= a;
  return value;
};

/** Density of s = √(χ²/ν), the spread found where the true one is 1. */
const spreadDensity = (s: number, degrees: number) =>
  (2 * (degrees / 2) ** (degrees / 2) * s ** (degrees - 1) * Math.exp((-degrees * s * s) / 2)) / gammaOfHalf(degrees);

/** P(T ≤ t) of the noncentral t distribution, by its definition (Z + δ)/s. */
const noncentralBelow = (t: number, degrees: number, shift: number) =>
  integral((s) => below(t * s - shift) * spreadDensity(s, degrees), 0, 1 + 9 / Math.sqrt(degrees), 400);

/**
 * How sure mean ± k·spread of n readings holds the share: over the spread found, and for each how far the mean may then be off. The other way round than the program's. Below
 * `least` no mean is near enough; above it the distance begins as a root, which w = √(s − least) takes out.
 */
const confidenceOf = (k: number, n: number, share: number) => {
  const mayBeOff = (s: number) => {
    let [low, high] = [0, k * s];
    for (let turn = 0; turn < 24; turn += 1) {
      const off = (low + high) / 2;
      if (below(off + k * s) - below(off - k * s) >= share) low = off;
      else high = off;
    }
    return low;
  };
  let [least, above] = [0, 9];
  for (let turn = 0; turn < 40; turn += 1) {
    const s = (least + above) / 2;
    if (2 * below(k * s) - 1 < share) least = s;
    else above = s;
  }
  return integral(
    (w) => {
      const s = least + w * w;
      return 2 * w * (2 * below(mayBeOff(s) * Math.sqrt(n)) - 1) * spreadDensity(s, n - 1);
    },
    0,
    Math.sqrt(1 + 9 / Math.sqrt(n - 1) - least),
    120,
  );
};

describe('samples against others', () => {
  test('[M1] mean and spread are simple-statistics’s', () => {
    const values = [52.0312, 52.0288, 52.0301, 52.0407, 52.0333, 52.0296];
    const ours = measureStatistics(values.map((value) => ({ value, u: 0.001 })));
    expect(ours.mean).toBeCloseTo(mean(values), 12);
    expect(ours.spread).toBeCloseTo(sampleStandardDeviation(values), 12);
    expect(ours.measuring).toBeCloseTo(0.001, 12);
  });

  // Tables of two-sided factors for 0.95 and 0.95 (A. H. Bowker 1947, by Wald and Wolfowitz's approximation; values from memory), within a half of a hundredth.
  test.each([
    [5, 5.079],
    [10, 3.379],
    [20, 2.752],
    [30, 2.549],
    [100, 2.233],
  ])('[M2] the factor of limits from %i readings', (n, table) => {
    const k = toleranceFactor(n);
    expect(Math.abs(k / table - 1)).toBeLessThan(0.005);
    expect(confidenceOf(k, n, 0.95)).toBeCloseTo(0.95, 5);
    // Limits on one side are exact by the noncentral t: those of 0.95 lie inside, and two that hold 0.975 each, each with 0.975, lie outside.
    expect(noncentralBelow(k * Math.sqrt(n), n - 1, 1.6448536269514722 * Math.sqrt(n))).toBeGreaterThan(0.95);
    expect(noncentralBelow(k * Math.sqrt(n), n - 1, 1.959963984540054 * Math.sqrt(n))).toBeLessThan(0.975);
  });

  test('[M2] a one-sided factor of the tables comes out of the integration it is held against', () => {
    // n = 10, 0.95 and 0.95: k = 2.911 (D. B. Owen 1963; from memory).
    expect(noncentralBelow(2.911 * Math.sqrt(10), 9, 1.6448536269514722 * Math.sqrt(10))).toBeCloseTo(0.95, 4);
  });

  test('[M3] Rosner’s 54 readings have three outliers, though neither of the first two stands apart by itself', () => {
    // B. Rosner, Technometrics 25, 1983; NIST/SEMATECH e-Handbook 1.3.5.17.3. Data and critical values from memory.
    const values =
      '-0.25 0.68 0.94 1.15 1.20 1.26 1.26 1.34 1.38 1.43 1.49 1.49 1.55 1.56 1.58 1.65 1.69 1.70 1.76 1.77 1.81 1.91 1.94 1.96 1.99 2.06 2.09 2.10 2.14 2.15 2.23 2.24 2.26 2.35 2.37 2.40 2.47 2.54 2.62 2.64 2.90 2.92 2.92 2.93 3.21 3.26 3.30 3.59 3.68 4.30 4.64 5.34 5.42 6.01'
        .split(' ')
        .map(Number);
    expect([1, 2, 3, 4, 10].map((i) => Number(criticalDeviate(54, i).toFixed(3)))).toEqual([3.159, 3.151, 3.144, 3.136, 3.085]);
    expect(outliersAmong(values)).toEqual([51, 52, 53]);
  });

  test('[M3] one outlier among eight is Grubbs’s', () => {
    // NIST/SEMATECH e-Handbook 1.3.5.17.1 (from memory): uranium by mass spectrometer, two-sided critical value 2.13 at 0.05 for n = 8.
    expect(criticalDeviate(8, 1)).toBeCloseTo(2.13, 2);
    const values = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
    expect(outliersAmong(values)).toEqual([7]);
    expect(outliersAmong(values.slice(2))).toBe(null);
  });
});
