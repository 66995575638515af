import { afterEach, describe, expect, test } from 'vitest';
import { asId, type Conflict, type Feature, type FeatureId, type ObservationId, type Sheet, type SlotId } from '../../../reasoner/index.ts';
import { blankSheet } from '../../../reasoner/plain/blank-sheet.ts';
import { readRequired } from '../../../renderer/build/constraintsDraft.ts';
import { figuresOf, sayFinished, sayHours, sayMoney, sayShare } from '../../../renderer/build/sayBuild.ts';
import { conflictGraph } from '../../../renderer/graph/conflictGraph.ts';
import { assumed, percentOf, readPercent } from '../../../renderer/odds/assumed.ts';
import { sayAsAmong, sayShare as sayChance, sayMinutes } from '../../../renderer/odds/oddsWords.ts';
import { fixed, plain, sayBytes, sayWhole, withSign, writeDecimalsWith } from '../../../renderer/values/figures.ts';
import { sayLength, sayMeasure, saySpan, unitSign } from '../../../renderer/values/lengths.ts';
import { readMeasure } from '../../../renderer/values/readSeen.ts';
import { sayFact } from '../../../renderer/values/sayFact.ts';
import { smallWords } from './small-vocabulary.ts';

afterEach(() => writeDecimalsWith('.'));

describe('[P10] with a decimal comma', () => {
  test('figures, chances, minutes, hours, money and bytes all have it', () => {
    writeDecimalsWith(',');
    expect([plain(1.5, 2), plain(-0.25, 2), fixed(2, 3), fixed(-0.0004, 3), fixed(-0.5, 1), withSign('12.5')]).toEqual([
      '1,5',
      '−0,25',
      '2,000',
      '0,000',
      '−0,5',
      '12,5',
    ]);
    expect([sayChance(0.024), sayChance(0.0001), sayChance(0.9999), sayMinutes(2.5), sayAsAmong(2)]).toEqual([
      '2,4 %',
      'under 0,1 %',
      'over 99,9 %',
      '2,5 min',
      'as unsure as a pick from 4 equally likely names',
    ]);
    expect([sayShare(0.125), sayShare(0.99999), sayShare(0.00001), sayHours(1.25)]).toEqual([
      '12,5 %',
      'over 99,9 %',
      'under 0,1 %',
      '1,25 h',
    ]);
    const euro = { code: 'EUR', written: '€', before: true, decimals: 2 };
    expect([sayMoney(12.5, 'EUR', euro), sayMoney(12.5, 'USD', euro), sayMoney(3, null, null)]).toEqual(['€12,50', '12,50 USD', '3,00']);
    expect(sayBytes(3.25 * 1024 ** 2)).toBe('3,3 MiB');
    expect(percentOf(0.125)).toBe('12,5');
    const first = assumed[0];
    expect(first && readPercent('95', first)).toMatchObject({ sentence: '“95” was given; 0,1 to 90 percent is wanted.' });
    expect(readMeasure('x', 'mm', 'mm')).toMatchObject({ sentence: '“x” is no measure. Write it like 57,12.' });
  });

  test('thousands are then set apart by a space, never by what would be read as decimals', () => {
    expect([sayWhole(999), sayWhole(1000), sayWhole(1234567)]).toEqual(['999', '1,000', '1,234,567']);
    writeDecimalsWith(',');
    expect(sayWhole(1234567)).toBe('1\u202f234\u202f567');
  });

  test('the places of a deviation are counted behind it', () => {
    writeDecimalsWith(',');
    expect(figuresOf({ nominal: 62, lower: -0.125, upper: -0.1 }, 'mm')).toMatchObject({ upper: '−0,100', lower: '−0,125' });
  });
});

describe('[P10] in inch', () => {
  test('lengths of builds, parts and graphs are said in it, with their sign', () => {
    expect(sayMeasure(57.15, 'mm', 'inch')).toBe('2.25 in');
    expect([unitSign('inch'), unitSign('mm'), sayLength(25.4, 'inch'), sayLength(-0.0001, 'mm')]).toEqual(['in', 'mm', '1.00000', '0.000']);
    expect([saySpan({ least: 25.4, greatest: 50.8 }, 'inch'), saySpan({ least: 1.0001, greatest: 1.0004 }, 'mm')]).toEqual([
      '1.00000 to 2.00000',
      '1.000',
    ]);
    const recess = { nominal: 50.8, lower: 0, upper: 0.0254 };
    expect([sayFinished(recess, 'mm'), sayFinished(recess, 'inch')]).toEqual(['50.8 +0.025/0', '2 +0.001/0']);
    expect(sayFinished({ nominal: 50.8, lower: -0.254, upper: -0.127 }, 'inch')).toBe('2 −0.005/−0.01');
    expect(figuresOf({ nominal: 50.8, lower: -0.254, upper: -0.127 }, 'inch')).toMatchObject({
      nominal: '2',
      upper: '−0.005',
      lower: '−0.010',
    });
    expect(figuresOf({ nominal: 50.8, lower: -0.254, upper: 0.254 }, 'inch')).toMatchObject({ upper: '0.01', alike: true });
  });

  test('a tolerance is not rounded away', () => {
    expect(sayFinished({ nominal: 50.8, lower: 0, upper: 0.005 }, 'inch')).toBe('2 +0.0002/0');
  });

  test('an angle stays one, and a fact says its limits in it', () => {
    expect(sayMeasure(12.5, 'deg', 'inch')).toBe('12.5°');
    const bore = { kind: 'measure', unit: 'mm' } as Feature;
    expect(sayFact(bore, { kind: 'measure', nominal: 25.4, lower: 0, upper: 0.0254 }, 'inch')).toBe('1 in (0 / +0.001)');
  });

  test('what a search of builds asks of a size is read in it', () => {
    const bore = { kind: 'measure', unit: 'mm' } as Feature;
    expect(readRequired(bore, '2', 'inch')).toMatchObject({ value: { value: 50.8 } });
    expect(readRequired(bore, '2 mm', 'inch')).toMatchObject({ value: { value: 2 } });
  });

  test('an entry in the graph of reasons is said in it', () => {
    const slot = smallWords.slots[0]?.id as SlotId;
    const seen = { id: asId<ObservationId>('o1'), slot, feature: asId<FeatureId>(`${slot}.count`) };
    const sheet: Sheet = {
      ...blankSheet(asId('s')),
      observations: [{ ...seen, value: { kind: 'measure', value: 50.8 }, sure: { kind: 'measured', u: 0.01 } }],
    };
    const conflict: Conflict = {
      members: [{ kind: 'observation', observation: seen.id }],
      slots: [slot],
      minutes: 1,
      stage: null,
      sentence: '',
    };
    const drawn = (unit: 'mm' | 'inch') => JSON.stringify(conflictGraph({ ...smallWords, unit }, sheet, [conflict], null));
    expect(drawn('inch')).toContain(' 2 in');
    expect(drawn('mm')).toContain(' 50.8 mm');
  });
});
