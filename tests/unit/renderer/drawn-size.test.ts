import { expect, test } from 'vitest';
import { figuresOf } from '../../../renderer/build/sayBuild.ts';

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
