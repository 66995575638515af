import { describe, expect, test } from 'vitest';
import type { Era } from '../../../reasoner/atlas/number-pattern.ts';
import { sayEra } from '../../../reasoner/plain/say-era.ts';
import { meet, overlap, spanOf } from '../../../reasoner/plate/era.ts';

const era = (from: number | null, to: number | null): Era => ({ from, to });

describe('[O5] times on a plate', () => {
  test.each<[string, Era, Era, Era | null]>([
    ['one within the other', era(1960, 1990), era(1970, 1980), era(1970, 1980)],
    ['one ends where the other begins', era(1960, 1974), era(1974, 1992), era(1974, 1974)],
    ['a year between them', era(1960, 1973), era(1974, 1992), null],
    ['both open at the end', era(1960, null), era(1980, null), era(1980, null)],
    ['both open at the beginning', era(null, 1990), era(null, 1974), era(null, 1974)],
    ['one open at each end', era(null, 1990), era(1980, null), era(1980, 1990)],
    ['one over before the other begins', era(null, 1979), era(1980, null), null],
    ['one open at both ends', era(null, null), era(1960, 1974), era(1960, 1974)],
    ['neither known', era(null, null), era(null, null), era(null, null)],
  ])('[O5] the years two of them have in common: %s', (_, a, b, common) => {
    expect([overlap(a, b), overlap(b, a)]).toEqual([common, common]);
    expect([meet(a, b), meet(b, a)]).toEqual([common !== null, common !== null]);
  });

  test('[O5] a name used twice was in use from the first year to the last, and without end where one use has none', () => {
    expect(spanOf([era(1960, 1974), era(1951, 1992), era(1970, 1971)])).toEqual(era(1951, 1992));
    expect(spanOf([era(1960, 1974), era(null, 1950)])).toEqual(era(null, 1974));
    expect(spanOf([era(1960, null), era(1951, 1955)])).toEqual(era(1951, null));
  });

  test('[O5] a time is said as far as it is known', () => {
    expect([era(null, null), era(null, 1974), era(2009, null), era(1974, 1992), era(1989, 1989)].map(sayEra)).toEqual([
      'at some time',
      'until 1974',
      'since 2009',
      '1974 to 1992',
      '1989',
    ]);
  });
});
