import { describe, expect, it } from 'vitest';
import type { Feature } from '../../../reasoner/index.ts';
import { limitsOf, mostSizesApart, type Readings, readingsOf } from '../../../reasoner/odds/readings.ts';
import { Dice } from '../../oracle/dice.ts';
import { readsBelow } from '../../oracle/quadrature.ts';
import { demo } from '../seed/demo-atlas.ts';

const u = 0.03;
const measure: Feature = {
  ...(demo.data.features.find(({ kind }) => kind === 'measure') as Feature),
  resolution: u * Math.sqrt(3),
  wear: { below: 0, above: 0 },
};

interface Sizes {
  readonly feature: Feature;
  readonly sizes: readonly number[];
  readonly half: number;
}

/** How wide ranges put together may be. */
const widest = ({ feature, half }: Sizes): number => Math.max(u / 2, Math.sqrt((u * (2 * half + (feature.wear?.below ?? 0))) / 8));

/** The middles of sizes, `apart` uncertainties from each to the next. */
const sizesOf = (dice: Dice, count: number, apart: () => number): number[] => {
  let at = 40;
  return Array.from({ length: count }, () => {
    at += apart() * u;
    return at + dice.whole(0, 99) * 1e-9;
  });
};

const readingsFor = ({ feature, sizes, half }: Sizes): Readings =>
  readingsOf(feature, {
    distinct: sizes.map((nominal) => ({ kind: 'measure', nominal, lower: -half, upper: half })),
    of: Int32Array.from(sizes.keys()),
  });

const xLog = (x: number): number => (x > 0 ? x * Math.log2(x) : 0);
/** What a reading tells of which size it is, each alike, bits. @param shares by size, of each reading */
const toldBy = (shares: readonly ArrayLike<number>[], readings: number): number => {
  let bits = 0;
  for (let reading = 0; reading < readings; reading += 1) {
    const own = shares.map((each) => (each[reading] as number) / shares.length);
    bits += own.reduce((sum, each) => sum + xLog(each), 0) - xLog(own.reduce((sum, each) => sum + each, 0));
  }
  return bits + Math.log2(shares.length);
};

const spread = ({ all, plain }: Readings): Float64Array[] =>
  plain.map((own) => {
    const shares = new Float64Array(all.length);
    own?.readings.forEach((reading, i) => {
      shares[reading] = own.shares[i] as number;
    });
    return shares;
  });

/** Every size a reading of its own, cut half-way to the next, by quadrature. */
const plainly = ({ feature, sizes, half }: Sizes): number[][] => {
  const cuts = [Number.NEGATIVE_INFINITY, ...sizes.slice(1).map((size, i) => (size + (sizes[i] as number)) / 2), Number.POSITIVE_INFINITY];
  return sizes.map((nominal) => {
    const { least, greatest } = limitsOf(feature, { kind: 'measure', nominal, lower: -half, upper: half });
    const under = cuts.map((cut) => readsBelow(cut, least, greatest, u));
    return sizes.map((_, reading) => (under[reading + 1] as number) - (under[reading] as number));
  });
};

describe('readings no finer than the instrument', () => {
  const dice = new Dice(7);
  const cases: Sizes[] = [
    { feature: measure, half: 0, sizes: sizesOf(dice, 120, () => 0.05) },
    { feature: measure, half: 0, sizes: sizesOf(dice, 120, () => 0.24) },
    { feature: measure, half: u / 4, sizes: sizesOf(dice, 120, () => dice.whole(1, 60) / 100) },
    { feature: measure, half: 2 * u, sizes: sizesOf(dice, 120, () => dice.whole(1, 20) / 100) },
    { feature: measure, half: 8 * u, sizes: sizesOf(dice, 160, () => dice.whole(1, 30) / 100) },
    { feature: { ...measure, wear: { below: u, above: 0 } }, half: 0, sizes: sizesOf(dice, 120, () => (dice.often(60) ? 0.02 : 1.5)) },
  ];

  it('[Q1] of many sizes that lie close a look tells at most 0.02 bits less than where each has a reading of its own, and never more', () => {
    let most = 0;
    for (const each of cases) {
      const readings = readingsFor(each);
      const less = toldBy(plainly(each), each.sizes.length) - toldBy(spread(readings), readings.all.length);
      expect(readings.all.length).toBeLessThan(each.sizes.length);
      expect(less).toBeGreaterThan(-1e-4);
      expect(less).toBeLessThan(0.02);
      most = Math.max(most, less);
    }
    // The bound is near what is lost: coarser ranges would break it.
    expect(most).toBeGreaterThan(0.009);
  });

  it('[Q1] ranges too narrow for it to tell are put together, wider ones stand, and what is read of a part is all of it', () => {
    for (const each of cases) {
      const { all, blind } = readingsFor(each);
      const inner = all.slice(1, -1);
      const middles = each.sizes.map((size) => size - (each.feature.wear?.below ?? 0) / 2);
      for (const [at, { from, to, seen }] of inner.entries()) {
        expect(from).toBe(all[at]?.to);
        expect(seen?.kind === 'measure' && seen.value >= from && seen.value < to).toBe(true);
        const next = inner[at + 1];
        if (next !== undefined) expect(next.to - from).toBeGreaterThan(widest(each));
        const together = middles.filter((middle) => middle >= from && middle < to).length;
        if (together > 1) expect(to - from).toBeLessThanOrEqual(widest(each) + 1e-12);
      }
      expect(blind.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
      for (const shares of spread(readingsFor(each))) expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
    }
  });

  it('[Q1] of few sizes, or with an instrument of no step, each keeps its own', () => {
    const few = sizesOf(new Dice(8), mostSizesApart, () => 0.05);
    expect(readingsFor({ feature: measure, half: 0, sizes: few }).all).toHaveLength(mostSizesApart);
    const many = sizesOf(new Dice(8), 200, () => 0.05);
    expect(readingsFor({ feature: { ...measure, resolution: 0 }, half: 0, sizes: many }).all).toHaveLength(200);
  });
});
