import { describe, expect, test } from 'vitest';
import { fromRoman, toRoman } from '../../../reasoner/plain/roman.ts';

/** Units, tens, hundreds and thousands by the signs each takes: another way to write the same than the one it is held against. */
const byFigures = (number: number): string => {
  const one = (figure: number, i: string, v: string, x: string) =>
    ['', i, i + i, i + i + i, i + v, v, v + i, v + i + i, v + i + i + i, i + x][figure] as string;
  const figure = (place: number) => Math.floor(number / place) % 10;
  return 'M'.repeat(figure(1000)) + one(figure(100), 'C', 'D', 'M') + one(figure(10), 'X', 'L', 'C') + one(figure(1), 'I', 'V', 'X');
};

describe('sizes in Roman numerals (N6)', () => {
  test('[N6] every number from 1 to 3999 is written figure by figure, and read back', () => {
    for (let number = 1; number < 4000; number += 1) {
      const text = byFigures(number);
      expect(toRoman(number)).toBe(text);
      expect(fromRoman(text)).toBe(number);
    }
    expect(fromRoman('xiv')).toBe(14);
  });

  test('[N6] what is not written the usual way, or is past 3999, is no numeral', () => {
    for (const text of ['', 'IIII', 'VX', 'IC', 'VV', 'IVI', 'XIVQ', 'Q', 'MMMM', 'MMMMI']) expect(fromRoman(text), text).toBeNull();
  });
});
