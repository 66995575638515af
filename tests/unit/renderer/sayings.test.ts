import { expect, test } from 'vitest';
import type { Feature } from '../../../reasoner/index.ts';
import { sayMeasure } from '../../../renderer/values/lengths.ts';
import { sayFact } from '../../../renderer/values/sayFact.ts';
import { saySure, sayValue } from '../../../renderer/values/sayings.ts';

const length = { name: 'inducer diameter', kind: 'measure', unit: 'mm' } as Feature;
const angle = { name: 'cutback', kind: 'measure', unit: 'deg' } as Feature;
const weld = { name: 'weld', kind: 'choice', options: [{ id: 'eb', name: 'electron beam' }] } as unknown as Feature;

test('[O1] values are said as the trade writes them, and a look that found no letters is not a missing one', () => {
  expect(sayValue(length, { kind: 'measure', value: 57.1 }, 'mm')).toBe('57.1 mm');
  expect(sayValue(length, { kind: 'measure', value: 57.15 }, 'inch')).toBe('2.25 in');
  expect(sayValue(angle, { kind: 'measure', value: 12.5 }, 'inch')).toBe('12.5°');
  expect(sayValue(weld, { kind: 'choice', option: 'eb' }, 'mm')).toBe('electron beam');
  expect(sayValue(weld, { kind: 'choice', option: 'unheard-of' }, 'mm')).toBe('unheard-of');
  expect(sayValue(undefined, { kind: 'mark', text: null }, 'mm')).toBe('no letters');
  expect(sayValue(undefined, { kind: 'count', from: 10, to: 11 }, 'mm')).toBe('10 or 11');
  expect(sayValue(undefined, { kind: 'count', from: 9, to: 11 }, 'mm')).toBe('9 to 11');
  expect(saySure(length, { kind: 'measured', u: 0.012 }, 'mm')).toBe('±0.024');
});

test('[A5] a fact that is not known is said to be, and limits keep both deviations', () => {
  expect(sayFact(length, { kind: 'not known' }, 'mm')).toBe('not known');
  expect(sayFact(length, { kind: 'measure', nominal: 50, lower: 0, upper: 0.025, code: 'H7' }, 'mm')).toBe('50 mm H7 (0 / +0.025)');
  expect(sayFact(length, { kind: 'measure', nominal: 50, lower: -0.05, upper: -0.025 }, 'mm')).toBe('50 mm (−0.05 / −0.025)');
  expect(sayFact(length, { kind: 'measure', nominal: 50, lower: 0, upper: 0 }, 'mm'), 'two noughts are no limits').toBe(
    '50 mm, no limits given',
  );
  expect(sayFact(length, { kind: 'measure', nominal: 50, lower: 0, upper: 0.01 }, 'mm')).toBe('50 mm (0 / +0.01)');
  expect(sayFact(length, { kind: 'measure', nominal: 50, lower: -0.01, upper: 0 }, 'mm')).toBe('50 mm (−0.01 / 0)');
  expect(sayFact(undefined, { kind: 'mark', anyOf: ['LISLE', 'MERROWBY'], blank: true }, 'mm')).toBe('“LISLE” or “MERROWBY” or no letters');
});

test('[O2] a length shown in inch and read back is the same length to a hundred-thousandth of an inch', () => {
  for (const mm of [0.01, 6.35, 57.123, 300.4567]) {
    const shown = Number.parseFloat(sayMeasure(mm, 'mm', 'inch'));
    expect(Math.abs(shown * 25.4 - mm)).toBeLessThanOrEqual(25.4e-5);
  }
});
