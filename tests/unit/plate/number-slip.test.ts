import { describe, expect, test } from 'vitest';
import { asId, numberSlipOf, type Observation, type Slip } from '../../../reasoner/index.ts';
import { chose, sheetOf } from '../reasoner/little-atlas.ts';
import { number, quay, serial, tradeName, year } from './quay-atlas.ts';

/** What is asked of an entry while the rest of the sheet stands. */
const asked = (entry: Observation, ...others: Observation[]): Slip => numberSlipOf(quay, sheetOf(others), entry);
const plausible = { kind: 'plausible' };

describe('[O5] [O7] a number on the plate is asked about where it may have been misread', () => {
  test('[O7] its check digit is wrong', () => {
    expect(asked(number('P 777-4/1'))).toEqual({
      kind: 'implausible',
      sentence:
        '“P 777-4/1” is made as Quayside makes its part numbers, but for its check digit: 4 stands where the figures before it give 5. One of them may have been misread.',
      likely: [],
    });
  });

  test('[O7] the maker of the trade name makes none so', () => {
    expect(asked(number('ZZ 9'), tradeName('Harbour'))).toEqual({
      kind: 'implausible',
      sentence: 'Harbour makes no part numbers like “ZZ 9”. A sign may have been misread.',
      likely: [],
    });
    expect(asked(serial('T 1999 123'), tradeName('Quayside'))).toEqual({
      kind: 'implausible',
      sentence: 'Quayside makes no serial numbers like “T 1999 123”. A sign may have been misread.',
      likely: [],
    });
  });

  test('[O7] not one that is made so, listed or not, nor a place left blank', () => {
    expect(asked(number('P 777-5/1'), tradeName('Quayside'))).toEqual(plausible);
    expect(asked(number('P 100-9/1'), tradeName('Quayside'))).toEqual(plausible);
    expect(asked(serial('S 1999 123'), tradeName('Quayside'))).toEqual(plausible);
    expect(asked({ ...number('P 777-5/1'), value: { kind: 'mark', text: null } })).toEqual(plausible);
  });

  test('[O7] nor for what else is wrong with the plate, or with another number on it', () => {
    expect(asked(number('P 100-9/1'), tradeName('Quayside'), serial('T 1999 123'))).toEqual(plausible);
    expect(asked(serial('S 1999 123'), number('P 777-4/1'))).toEqual(plausible);
    // The wrong years, and a number of a wheel, are no misreading.
    expect(asked(serial('S 1999 123'), tradeName('Quay Air'))).toEqual(plausible);
    expect(asked(number('turbine-wheel mole'))).toEqual(plausible);
  });

  test('[O7] the entry that stood there before is not asked', () => {
    expect(asked(number('P 777-5/1'), number('P 777-4/1'))).toEqual(plausible);
    expect(asked(number('P 777-4/1'), number('P 777-5/1'))).toMatchObject({ kind: 'implausible' });
  });

  test('[O7] nothing but a number is asked about so: a trade name or a year that disagrees is no slip', () => {
    expect(asked(tradeName('Harbour'), number('P 100-9/1'))).toEqual(plausible);
    expect(asked(year(1999), tradeName('Quay Air'))).toEqual(plausible);
    expect(asked(chose('plate.holes', 'two'), number('P 777-4/1'))).toEqual(plausible);
    expect(asked({ ...number('P 777-4/1'), feature: asId('plate.nobody-knows-it') })).toEqual(plausible);
  });
});
