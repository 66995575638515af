import { describe, expect, test } from 'vitest';
import { asId, type Feature, type LikelySlip, type Seen, type Slip, type Sure, slipOf } from '../../../reasoner/index.ts';

const feature = (of: Partial<Feature>): Feature => ({
  id: asId('f'),
  slot: asId('s'),
  name: 'exducer diameter',
  kind: 'measure',
  unit: 'mm',
  stage: asId('st'),
  minutes: 1,
  ...of,
});
const diameter = feature({ plausible: { from: 20, to: 200 } });
const offset = feature({ name: 'offset of the plate', plausible: { from: -4, to: 4 } });
const angle = feature({ name: 'cutback angle', unit: 'deg', plausible: { from: 0, to: 60 } });
const blades = feature({ name: 'blade count', kind: 'count', unit: 'blades', plausible: { from: 3, to: 24 } });
const year = feature({ name: 'year of make', kind: 'count', unit: 'year', plausible: { from: 1910, to: 2100 } });

const measure = (value: number): Seen => ({ kind: 'measure', value });
const count = (from: number, to = from): Seen => ({ kind: 'count', from, to });
const measured = (u: number): Sure => ({ kind: 'measured', u });
const likelyOf = (slip: Slip): readonly (readonly [LikelySlip['how'], number | readonly [number, number]])[] =>
  slip.kind !== 'implausible'
    ? []
    : slip.likely.map(({ how, value }) => {
        if (value.kind === 'measure') return [how, value.value];
        if (value.kind === 'count') return [how, value.from === value.to ? value.from : [value.from, value.to]];
        throw new Error('a slip of figures gives figures');
      });
const kindOf = (of: Feature, value: Seen, sure?: Sure) => slipOf(of, value, sure).kind;

describe('[O7] what lies in the feature’s range is plausible, its ends included', () => {
  test.each([20, 20.0001, 57.2, 200])('[O7] %d mm', (value) =>
    expect(slipOf(diameter, measure(value), measured(0.02))).toEqual({ kind: 'plausible' }),
  );
  test.each([19.9999, 200.0001, 5720, 2.25])('[O7] not %d mm', (value) =>
    expect(kindOf(diameter, measure(value), measured(0.02))).toBe('implausible'),
  );
  test.each([3, 11, 24])('[O7] %d blades', (value) => expect(kindOf(blades, count(value))).toBe('plausible'));
  test.each([2, 25, 111, 0])('[O7] not %d blades', (value) => expect(kindOf(blades, count(value))).toBe('implausible'));
  test('[O7] of a count with a doubt, both ends are asked', () => {
    expect(kindOf(blades, count(10, 11))).toBe('plausible');
    expect(kindOf(blades, count(2, 4))).toBe('implausible');
    expect(kindOf(blades, count(23, 25))).toBe('implausible');
  });
  test('[O7] a range that reaches below zero lets nothing and less be', () => {
    for (const value of [-4, -0.02, 0, 4]) expect(kindOf(offset, measure(value), measured(0.01))).toBe('plausible');
    expect(kindOf(offset, measure(-4.5), measured(0.01))).toBe('implausible');
  });
  test('[O7] a range that begins at zero lets nothing be, and less than nothing is asked about', () => {
    const dish = feature({ name: 'dish depth', plausible: { from: 0, to: 40 } });
    expect(kindOf(dish, measure(0), measured(0.01))).toBe('plausible');
    expect(kindOf(dish, measure(-1), measured(0.01))).toBe('implausible');
  });
  test('[O7] nothing but figures is ever a slip of figures', () => {
    const other = feature({ kind: 'mark', unit: undefined as never });
    expect(kindOf(other, { kind: 'mark', text: '5720' })).toBe('plausible');
    expect(kindOf(feature({ kind: 'presence' }), { kind: 'presence', present: false })).toBe('plausible');
  });
});

describe('[O7] what cannot be is an error, whoever confirms it', () => {
  test.each([0, -0, -3, -57.2])('[O7] a length of %d mm, with a range or without', (value) => {
    expect(kindOf(diameter, measure(value), measured(0.02))).toBe('impossible');
    expect(kindOf(feature({}), measure(value), measured(0.02))).toBe('impossible');
  });
  test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1_000_001, -1_000_001])('[O7] a size of %d', (value) => {
    expect(kindOf(diameter, measure(value), measured(0.02))).toBe('impossible');
    expect(kindOf(offset, measure(value), measured(0.02))).toBe('impossible');
    expect(kindOf(angle, measure(value), { kind: 'told' })).toBe('impossible');
  });
  test('[O7] an angle of more than a full turn', () => {
    expect(kindOf(angle, measure(360), measured(0.5))).toBe('implausible');
    expect(kindOf(angle, measure(360.5), measured(0.5))).toBe('impossible');
    expect(kindOf(angle, measure(-360.5), measured(0.5))).toBe('impossible');
    expect(kindOf(feature({ unit: 'deg' }), measure(-3), measured(0.5))).toBe('plausible');
  });
  test.each([-1, 2.5, Number.NaN, Number.POSITIVE_INFINITY, 1_000_001])('[O7] a count of %d', (value) => {
    expect(kindOf(blades, count(value))).toBe('impossible');
    expect(kindOf(blades, count(3, value))).toBe('impossible');
  });
  test('[O7] a million of anything is asked about, and no more is', () => expect(kindOf(blades, count(1_000_000))).toBe('implausible'));
  test('[O7] a count that runs down', () => expect(kindOf(blades, count(11, 10))).toBe('impossible'));
  test.each([0, -0.02, Number.NaN, Number.POSITIVE_INFINITY])('[O7] an uncertainty of %d', (u) => {
    const slip = slipOf(diameter, measure(57.2), measured(u));
    expect(slip.kind).toBe('impossible');
    expect(slip).toMatchObject({ of: 'uncertainty', sentence: expect.stringMatching(/uncertainty/) });
    expect(kindOf(feature({}), measure(57.2), measured(u))).toBe('impossible');
  });
  test('[O7] an uncertainty so wide that the reading says nothing', () => {
    expect(kindOf(diameter, measure(57.2), measured(180))).toBe('plausible');
    expect(kindOf(diameter, measure(57.2), measured(180.1))).toBe('impossible');
    expect(kindOf(feature({}), measure(57.2), measured(1_000_001))).toBe('impossible');
  });
  test('[O7] it says what is wrong', () => {
    const slip = slipOf(diameter, measure(-3), measured(0.02));
    expect(slip).toEqual({
      kind: 'impossible',
      of: 'figure',
      sentence: 'An exducer diameter of -3 mm cannot be: a length is greater than zero.',
    });
  });
});

describe('[O7] without a range nothing possible is asked about', () => {
  test.each([0.001, 5720, 1_000_000])('[O7] %d mm', (value) =>
    expect(kindOf(feature({}), measure(value), measured(0.02))).toBe('plausible'),
  );
  test('[O7] 111 blades', () => expect(kindOf(feature({ kind: 'count', unit: 'blades' }), count(111))).toBe('plausible'));
});

describe('[O7] the likely slip is one that would have been plausible', () => {
  test.each<[string, Feature, number, ReturnType<typeof likelyOf>]>([
    [
      'inches taken for millimetres',
      diameter,
      2.25,
      [
        ['inches', 57.15],
        ['decimal point', 22.5],
      ],
    ],
    [
      'millimetres taken for inches',
      diameter,
      1452.88,
      [
        ['millimetres', 57.2],
        ['decimal point', 145.288],
      ],
    ],
    [
      'millimetres taken for inches, to a hundredth and a half',
      diameter,
      1453.769,
      [
        ['millimetres', 57.235],
        ['decimal point', 145.3769],
      ],
    ],
    ['the decimal point three places early', diameter, 0.0572, [['decimal point', 57.2]]],
    ['two figures swapped across the point', feature({ plausible: { from: 20, to: 25 } }), 26.1, [['swapped', 21.6]]],
    ['the decimal point left out', diameter, 5720, [['decimal point', 57.2]]],
    [
      'the decimal point left out, three figures behind it',
      feature({ plausible: { from: 5, to: 20 } }),
      14423,
      [['decimal point', 14.423]],
    ],
    ['the decimal point too early', diameter, 0.572, [['decimal point', 57.2]]],
    [
      'a figure written twice',
      diameter,
      577.2,
      [
        ['decimal point', 57.72],
        ['figure twice', 57.2],
      ],
    ],
    ['a radius', feature({ name: 'bore diameter', plausible: { from: 10, to: 20 } }), 7.1, [['radius', 14.2]]],
    ['a diameter where a radius is wanted', feature({ name: 'fillet radius', plausible: { from: 1, to: 4 } }), 6, [['diameter', 3]]],
    ['two figures swapped', feature({ plausible: { from: 20, to: 60 } }), 75.2, [['swapped', 57.2]]],
    [
      'an angle with its point left out',
      angle,
      245,
      [
        ['decimal point', 24.5],
        ['decimal point', 2.45],
      ],
    ],
  ])('[O7] %s', (_, of, value, likely) => {
    expect(likelyOf(slipOf(of, measure(value), measured(0.02)))).toEqual(likely);
  });

  test('[O7] an angle is in no inches and has no radius', () => {
    expect(
      likelyOf(
        slipOf(feature({ unit: 'deg', name: 'angle at the diameter', plausible: { from: 40, to: 60 } }), measure(2.1), measured(0.5)),
      ),
    ).toEqual([]);
  });

  test.each<[string, Feature, Seen, ReturnType<typeof likelyOf>]>([
    ['a figure written twice', blades, count(111), [['figure twice', 11]]],
    [
      'a figure too many',
      blades,
      count(120),
      [
        ['figure too many', 12],
        ['figure too many', 10],
      ],
    ],
    [
      'two figures swapped',
      blades,
      count(31),
      [
        ['swapped', 13],
        ['figure too many', 3],
      ],
    ],
    ['only the end that is out', blades, count(10, 111), [['figure twice', [10, 11]]]],
    [
      'a year without its century',
      year,
      count(87),
      [
        ['century', 1987],
        ['century', 2087],
      ],
    ],
    ['a year with two figures swapped', year, count(1897), [['swapped', 1987]]],
    [
      'both ends out',
      blades,
      count(120, 121),
      [
        ['figure too many', 12],
        ['figure too many', [12, 21]],
      ],
    ],
    ['a hundred, which is no year of a century', year, count(100), []],
    ['nothing likely', blades, count(2), []],
  ])('[O7] of a count: %s', (_, of, value, likely) => {
    expect(likelyOf(slipOf(of, value))).toEqual(likely);
  });

  test('[O7] what is likely is plausible itself, whatever was written', () => {
    for (const of of [diameter, angle, offset, feature({ name: 'bore diameter', plausible: { from: 5, to: 7 } })]) {
      for (let value = 0.01; value < 100_000; value *= 1.37) {
        const slip = slipOf(of, measure(Number(value.toPrecision(4))), measured(0.01));
        if (slip.kind !== 'implausible') continue;
        expect(slip.likely.length).toBeLessThanOrEqual(2);
        for (const one of slip.likely) expect(slipOf(of, one.value, measured(0.01))).toEqual({ kind: 'plausible' });
      }
    }
    for (let value = 0; value < 3000; value += 1) {
      const slip = slipOf(blades, count(value));
      for (const one of slip.kind === 'implausible' ? slip.likely : []) expect(kindOf(blades, one.value)).toBe('plausible');
    }
  });
});

describe('[O7] it is said as one would say it at the counter', () => {
  const said = (of: Feature, value: Seen) => {
    const slip = slipOf(of, value, value.kind === 'measure' ? measured(0.02) : undefined);
    return slip.kind === 'implausible' ? [slip.sentence, ...slip.likely.map(({ sentence }) => sentence)] : [];
  };
  test('[O7] sizes', () => {
    expect(said(diameter, measure(5720))).toEqual([
      'An exducer diameter of 5720 mm lies outside what is usual, 20 to 200 mm.',
      '57.2 mm, if the decimal point slipped',
    ]);
    expect(said(diameter, measure(2.25))[1]).toBe('57.15 mm, if it was read in inches');
    expect(said(diameter, measure(1452.88))[1]).toBe('57.2 mm, if it was read in millimetres and entered in inches');
    expect(said(feature({ name: 'bore diameter', plausible: { from: 10, to: 20 } }), measure(7.1))[1]).toBe(
      '14.2 mm, if 7.1 mm is the radius',
    );
  });
  test('[O7] counts and years', () => {
    expect(said(blades, count(111))).toEqual([
      'A count of 111 blades lies outside what is usual, 3 to 24.',
      '11 blades, if a figure was written twice',
    ]);
    expect(said(blades, count(10, 111))[1]).toBe('10 to 11 blades, if a figure was written twice');
    expect(said(year, count(87))).toEqual([
      'A year of make of 87 lies outside what is usual, 1910 to 2100.',
      '1987, if the century was left out',
      '2087, if the century was left out',
    ]);
  });
});

describe('[O7] where lengths are shown in inches', () => {
  test('[O7] the question, what is usual and what may have been meant are said in them; an angle and a count as ever', () => {
    const slip = slipOf(diameter, measure(5720), measured(0.02), 'inch');
    expect(slip).toMatchObject({
      kind: 'implausible',
      sentence: 'An exducer diameter of 225.1969 in lies outside what is usual, 0.7874 to 7.874 in.',
    });
    expect(slip.kind === 'implausible' && slip.likely[0]?.sentence).toBe('2.252 in, if the decimal point slipped');
    expect(slipOf(diameter, measure(57.15), measured(254), 'inch')).toMatchObject({
      sentence: expect.stringContaining('An uncertainty u of 10 in'),
    });
    for (const [of, value] of [
      [angle, measure(90)],
      [blades, count(111)],
    ] as const)
      expect(slipOf(of, value, undefined, 'inch')).toEqual(slipOf(of, value));
  });
});
