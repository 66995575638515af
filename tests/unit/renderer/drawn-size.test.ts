import { afterEach, expect, test } from 'vitest';
import { figuresOf, sayFinished } from '../../../renderer/build/sayBuild.ts';
import { writeDecimalsWith } from '../../../renderer/values/figures.ts';

afterEach(() => writeDecimalsWith('.'));

test('[F2] a size is set like a drawing’s: signed deviations of as many places as the finer has, and nought without a sign', () => {
  expect(figuresOf({ nominal: 62.05, lower: 0, upper: 0.03 }, 'mm')).toEqual({
    nominal: '62.05',
    upper: '+0.03',
    lower: '0',
    alike: false,
  });
  expect(figuresOf({ nominal: 62, lower: -0.125, upper: -0.1 }, 'mm')).toEqual({
    nominal: '62',
    upper: '−0.100',
    lower: '−0.125',
    alike: false,
  });
  expect(figuresOf({ nominal: 57.4, lower: -0.1, upper: 0.1 }, 'mm')).toMatchObject({ upper: '0.1', alike: true });
});

test('[P10] a size with its deviations is said in the unit that was chosen, with the shop’s decimal sign', () => {
  const size = { nominal: 62.05, lower: 0, upper: 0.03 };
  expect(sayFinished(size, 'mm')).toBe('62.05 +0.03/0');
  expect(sayFinished({ nominal: 57.4, lower: -0.1, upper: 0.1 }, 'mm')).toBe('57.4 ±0.1');
  expect(sayFinished(size, 'inch')).toBe('2.44291 +0.00118/0');
  writeDecimalsWith(',');
  expect(sayFinished({ nominal: 18.2, lower: -0.021, upper: 0 }, 'mm')).toBe('18,2 0/−0,021');
});
