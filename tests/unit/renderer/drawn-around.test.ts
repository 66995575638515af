import { expect, test } from 'vitest';
import { drawnAround } from '../../../renderer/look/drawnAround.ts';

test('[A1] of a list of any length at most three hundred entries are drawn, with a hundred on both sides of where one is; a short one whole', () => {
  expect(drawnAround(0, 0)).toEqual({ from: 0, to: 0 });
  expect(drawnAround(299, 300)).toEqual({ from: 0, to: 300 });
  for (const count of [301, 10_000, 200_000])
    for (const at of [0, 1, 99, 100, 101, 250, count - 101, count - 1]) {
      const { from, to } = drawnAround(at, count);
      expect(to - from).toBeLessThanOrEqual(300);
      expect(from).toBeLessThanOrEqual(Math.max(0, at - 100));
      expect(to).toBeGreaterThanOrEqual(Math.min(count, at + 100));
    }
  const moves = Array.from({ length: 1000 }, (_, at) => drawnAround(at, 5000).from);
  expect(new Set(moves).size).toBe(9);
});
