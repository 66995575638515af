import { expect, it } from 'vitest';
import { exponentOf, logOf } from '../../../reasoner/odds/log-of.ts';
import { Dice } from '../../oracle/dice.ts';

it('[Q1] the quick logarithm is that of the language to 1e−15 of it or of one, and times its chance nothing of nothing', () => {
  const dice = new Dice(3);
  const some = Array.from({ length: 20_000 }, () => (1 + dice.whole(0, 1e9) / 1e9) * 2 ** dice.whole(-1022, 20));
  for (const x of [...some, 1, 0.5, 2, 1 - 2 ** -53, 1 + 2 ** -52, 2.2250738585072014e-308, 1 + 1 / 512, 2 - 2 ** -52]) {
    const plain = Math.log(x);
    expect(Math.abs(logOf(x) - plain), `log ${x}`).toBeLessThanOrEqual(1e-15 * Math.max(1, Math.abs(plain)));
  }
  expect(Math.abs(0 * logOf(0))).toBe(0);
});

it('[Q1] a number lies between the power of two of its exponent and the next', () => {
  for (const x of [1, 1.5, 0.75, -3, 1e-17, -1e-300]) {
    expect(2 ** (exponentOf(x) - 1023)).toBeLessThanOrEqual(Math.abs(x));
    expect(2 ** (exponentOf(x) - 1022)).toBeGreaterThan(Math.abs(x));
  }
  expect(exponentOf(0)).toBe(0);
});
