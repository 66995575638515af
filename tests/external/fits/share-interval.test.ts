import { describe, expect, test } from 'vitest';
import { shareInterval } from '../../../reasoner/fits/share-interval.ts';

// E. B. Wilson 1927, J. Am. Stat. Assoc. 22:209, the score interval, 95 %. Figures: R. G. Newcombe 1998, Statistics in Medicine 17:857, table I,
// method 3 (M); the bounds are also held against their definition below.
describe('Share of draws: Wilson’s 95 % interval', () => {
  test.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('[F2] %d of %d: %d to %d', (hits, draws, least, greatest) => {
    const found = shareInterval(hits, draws);
    expect(found.least).toBeCloseTo(least, 4);
    expect(found.greatest).toBeCloseTo(greatest, 4);
  });

  test('[F2] its ends are the shares p from which the one found lies 1.96 standard deviations √(p(1 − p)/n) away', () => {
    for (const [hits, draws] of [
      [3, 10],
      [1, 4000],
      [3999, 4000],
      [200, 4000],
    ] as const) {
      const { least, greatest } = shareInterval(hits, draws);
      for (const p of [least, greatest])
        expect(Math.abs(hits / draws - p) / Math.sqrt((p * (1 - p)) / draws)).toBeCloseTo(1.959963984540054, 8);
    }
  });

  test('[F2] none and all are mirrors, and neither end is ever outside 0 to 1', () => {
    for (const draws of [1, 7, 4000]) {
      const [none, all] = [shareInterval(0, draws), shareInterval(draws, draws)];
      expect(none.least).toBe(0);
      expect(all.greatest).toBe(1);
      expect(all.least).toBeCloseTo(1 - none.greatest, 12);
    }
  });
});
