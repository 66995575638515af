import { describe, expect, test } from 'vitest';
import {
  asId,
  type FeatureId,
  factOfSamples,
  type ObservationId,
  partFromEntries,
  type Sample,
  type Seen,
  type Sheet,
  type SheetId,
  type Sure,
  samplesIn,
  statisticsOf,
} from '../../../reasoner/index.ts';
import { outliersAmong } from '../../../reasoner/samples/outliers.ts';
import { measureStatistics } from '../../../reasoner/samples/statistics.ts';

const wheel = asId<FeatureId>('cw-inducer');
const of = (sheet: string, value: Seen, u: number | null = null, feature = wheel): Sample => ({
  feature,
  value,
  u,
  sheet: asId<SheetId>(sheet),
  entry: asId<ObservationId>(`${sheet} ${JSON.stringify(value)}`),
});
const measured = (sheet: string, value: number, u = 0.01) => of(sheet, { kind: 'measure', value }, u);
const only = (samples: readonly Sample[]) => {
  const [one, ...rest] = statisticsOf(samples);
  if (one === undefined || rest.length > 0) throw new Error(`${rest.length + 1} features`);
  return one;
};
const wordOf = (...samples: readonly Sample[]) => factOfSamples(only(samples));

describe('what samples say', () => {
  test('[M1] one specimen has no spread; readings of one case are one specimen, their mean, nearer than each', () => {
    expect(measureStatistics([{ value: 52, u: 0.02 }])).toEqual({
      n: 1,
      mean: 52,
      spread: null,
      measuring: 0.02,
      limits: null,
      noLimits: 'too few',
      outliers: null,
    });
    const twice = only([measured('a', 52), measured('a', 52.02), measured('b', 53)]);
    if (twice.kind !== 'measure') throw new Error(twice.kind);
    expect(twice.specimens.map(({ sheet, entries }) => [sheet, entries.length])).toEqual([
      ['a', 2],
      ['b', 1],
    ]);
    expect(twice.specimens[0]?.value).toBeCloseTo(52.01, 12);
    expect(twice.specimens[0]?.u).toBeCloseTo(0.01 / Math.SQRT2, 12);
    expect(twice.statistics.n).toBe(2);
    expect(twice.statistics.spread).toBeCloseTo(0.99 / Math.SQRT2, 12);
    expect(() => measureStatistics([])).toThrow(RangeError);
    expect(() => measureStatistics([{ value: Number.NaN, u: 1 }])).toThrow(RangeError);
  });

  test('[M2] limits from five specimens on; none where all read alike', () => {
    const values = [52.01, 52.03, 52.02, 52.05, 52.04].map((value) => ({ value, u: 0.01 }));
    expect(measureStatistics(values.slice(1))).toMatchObject({ limits: null, noLimits: 'too few' });
    const { limits, mean, spread } = measureStatistics(values);
    if (limits === null || spread === null) throw new Error('no limits');
    expect([mean - limits.lower, limits.upper - mean]).toEqual([
      expect.closeTo(limits.k * spread, 12),
      expect.closeTo(limits.k * spread, 12),
    ]);
    expect(measureStatistics(values.map(() => ({ value: 52, u: 0.01 })))).toMatchObject({ spread: 0, limits: null, noLimits: 'all alike' });
  });

  test('[M3] outliers from seven on; one at most among fewer than fifteen; none where all others are alike', () => {
    const six = [52.01, 52.02, 52.03, 52.02, 52.01, 55];
    expect(outliersAmong(six)).toBe(null);
    expect(outliersAmong([...six, 52.03])).toEqual([5]);
    expect(outliersAmong([52.01, 52.02, 52.03, 52.02, 52.01, 52.03, 52.02])).toEqual([]);
    const two = [52.01, 52.02, 52.03, 52.02, 52.01, 52.03, 52.02, 52.01, 52.03, 52.02, 52.02, 52.01, 55, 49];
    expect(outliersAmong(two)?.length).toBe(1);
    expect(outliersAmong([...two, 52.03])).toEqual([12, 13]);
    expect(outliersAmong(Array(8).fill(52))).toEqual([]);
  });

  test('[M1] what is no measure is counted by what was seen, each case once, most first', () => {
    const seven: Seen = { kind: 'count', from: 7, to: 7 };
    const blades = only([of('a', { kind: 'count', from: 8, to: 8 }), of('b', seven), of('c', seven), of('c', seven)]);
    expect(blades).toMatchObject({ kind: 'seen', tallies: [{ value: seven, sheets: ['b', 'c'] }, { sheets: ['a'] }] });
  });
});

describe('samples taken as the word', () => {
  test('[M5] a measure: all that was read ±2u while there are few, then the limits, rounded outwards', () => {
    expect(wordOf(measured('a', 52.01), measured('b', 52.05, 0.02))).toEqual({
      fact: { kind: 'measure', nominal: 52.03, lower: -0.04, upper: 0.06 },
      from: 'readings',
    });
    expect(wordOf(measured('a', 52.00004, 0.00004))).toMatchObject({ fact: { nominal: 52, lower: -0.0001, upper: 0.0002 } });
    const five = [52.01, 52.03, 52.02, 52.05, 52.04].map((value, i) => measured(`s${i}`, value));
    const word = wordOf(...five);
    expect(word.from).toBe('limits');
    const { limits } = measureStatistics(five.map(({ value, u }) => ({ value: value.kind === 'measure' ? value.value : 0, u: u ?? 0 })));
    if (word.fact?.kind !== 'measure' || limits === null) throw new Error('no limits');
    expect(word.fact.nominal + word.fact.lower).toBeLessThanOrEqual(limits.lower);
    expect(word.fact.nominal + word.fact.upper).toBeGreaterThanOrEqual(limits.upper);
    expect(word.fact.nominal + word.fact.upper - limits.upper).toBeLessThan(0.0002);
  });

  test('[M5] counts by what all can be; two numbers of blades, or there and not there, are no word; options and letters are found side by side', () => {
    const count = (from: number, to: number) => of(`${from} ${to}`, { kind: 'count', from, to });
    expect(wordOf(count(10, 11), count(10, 10))).toEqual({ fact: { kind: 'count', from: 10, to: 10 }, from: 'seen' });
    expect(wordOf(count(10, 10), count(11, 11))).toEqual({ fact: null, from: 'disagree' });
    const there = (present: boolean) => of(String(present), { kind: 'presence', present });
    expect(wordOf(there(false)).fact).toEqual({ kind: 'presence', present: false });
    expect(wordOf(there(true), there(false)).fact).toBe(null);
    const letters = (text: string | null) => of(String(text), { kind: 'mark', text });
    expect(wordOf(letters('LISLE'), letters(null)).fact).toEqual({ kind: 'mark', anyOf: ['LISLE'], blank: true });
    expect(wordOf(of('a', { kind: 'choice', option: 'milled' }), of('b', { kind: 'choice', option: 'cast' })).fact).toEqual({
      kind: 'choice',
      anyOf: ['milled', 'cast'],
    });
  });
});

describe('a part of a case', () => {
  const slot = asId<Sheet['observations'][number]['slot']>('compressor-wheel');
  const entry = (id: string, feature: string, value: Seen, sure: Sure = { kind: 'seen' }, at = slot): Sheet['observations'][number] => ({
    id: asId(id),
    slot: at,
    feature: asId(feature),
    value,
    sure,
  });
  const sheetOf = (...observations: Sheet['observations']): Sheet => ({
    id: asId('counter-01'),
    title: '',
    story: '',
    kind: 'found',
    claimed: null,
    claimedMaker: null,
    observations,
    unseen: [{ slot, feature: asId('cw-hub'), why: 'could not see' }],
    absent: [],
    chosen: {},
  });
  const named = {
    id: asId<never>('strange'),
    name: 'Strange wheel',
    maker: null,
    numbers: ['OAR 7'],
    source: asId<never>('case-2026-0001-00000000'),
  };
  const says = (feature: FeatureId) => (feature === asId('cw-serial') ? { says: 'serial number' as const } : {});

  test('[M6] what was seen is so, a measure is what was read ±2u; what was told, unseen, of the unit alone or said twice over makes no fact', () => {
    const sheet = sheetOf(
      entry('o1', 'cw-blades', { kind: 'count', from: 7, to: 7 }),
      entry('o2', 'cw-inducer', { kind: 'measure', value: 38.5 }, { kind: 'measured', u: 0.02 }),
      entry('o3', 'cw-exducer', { kind: 'measure', value: 52 }, { kind: 'told' }),
      entry('o4', 'cw-letters', { kind: 'mark', text: null }),
      entry('o5', 'cw-serial', { kind: 'mark', text: '77' }),
      entry('o6', 'cw-finish', { kind: 'choice', option: 'cast' }),
      entry('o7', 'cw-finish', { kind: 'choice', option: 'milled' }),
      entry('o9', 'cw-nose', { kind: 'presence', present: true }, { kind: 'told' }),
      entry('o8', 'bh-water', { kind: 'presence', present: true }, { kind: 'seen' }, asId('bearing-housing')),
    );
    expect(partFromEntries(sheet, slot, named, says)).toEqual({
      part: {
        ...named,
        slot,
        facts: {
          'cw-blades': { kind: 'count', from: 7, to: 7 },
          'cw-inducer': { kind: 'measure', nominal: 38.5, lower: -0.04, upper: 0.04 },
          'cw-letters': { kind: 'mark', anyOf: [], blank: true },
        },
      },
      without: [
        { entries: ['o6', 'o7'], feature: 'cw-finish', why: 'disagree' },
        { entries: ['o3'], feature: 'cw-exducer', why: 'told' },
        { entries: ['o5'], feature: 'cw-serial', why: 'of the unit' },
        { entries: ['o9'], feature: 'cw-nose', why: 'told' },
      ],
    });
    expect(samplesIn(sheet, slot, says).map(({ entry, u }) => [entry, u])).toEqual([
      ['o1', null],
      ['o2', 0.02],
      ['o4', null],
      ['o6', null],
      ['o7', null],
    ]);
  });
});
