import { expect, test } from 'vitest';
import { expandCode } from '../../../reasoner/index.ts';

test('[F3] a code becomes deviations in millimetres', () => {
  expect(expandCode(25, 'p6')).toEqual({ ok: true, value: { lower: 0.022, upper: 0.035, code: 'p6' } });
  expect(expandCode(70, ' H7 ')).toEqual({ ok: true, value: { lower: 0, upper: 0.03, code: 'H7' } });
});

test('[F3] a range is over its lower end, up to and including its upper end', () => {
  expect(expandCode(30, 'H7')).toMatchObject({ value: { upper: 0.021 } });
  expect(expandCode(30.001, 'H7')).toMatchObject({ value: { upper: 0.025 } });
});

test('[F3] the one cell the standard sets by hand: M6 over 250 up to 315 mm', () => {
  expect(expandCode(280, 'M6')).toMatchObject({ value: { upper: -0.009 } });
  expect(expandCode(320, 'M6')).toMatchObject({ value: { upper: -0.01 } });
});

test.each([
  [25, 'Q7', /Q7 is not in the ISO 286 tables for 25 mm/],
  [20, 't6', /t6 is not in the ISO 286 tables for 20 mm/],
  [25, 'cd7', /cd7 is not in/],
  [25, 'K9', /K9 is not in/],
  [25, 'N2', /N2 is not in/],
  [25, 'j9', /j9 is not in/],
  [1, 'a9', /a9 is not in/],
  [25, 'H19', /from IT1 to IT18; found IT19/],
  [25, 'H0', /found IT0/],
  [1, 'H14', /not used up to 1 mm/],
  [0.5, 'H7', /from 1 to 500 mm; found 0.5/],
  [500.1, 'H7', /found 500.1/],
  [Number.NaN, 'H7', /found NaN/],
  [25, 'Hh7', /"Hh7" is no ISO 286 code/],
  [25, '25H7', /"25H7" is no ISO 286 code/],
  [25, 'H', /expected a letter or two and a grade/],
  [25, '', /is no ISO 286 code/],
])('[F3] outside the tables there is no guess: %d %s', (nominal, code, sentence) => {
  const read = expandCode(nominal, code);
  expect(read.ok).toBe(false);
  expect(!read.ok && read.sentence).toMatch(sentence);
});

test('[F3] every code of every letter either expands to limits an IT grade apart or is refused', () => {
  const letters = 'a b c d e f g h j js k m n p r s t u v x y z za zb zc'.split(' ').flatMap((letter) => [letter, letter.toUpperCase()]);
  for (const letter of letters) {
    for (let grade = 1; grade <= 18; grade += 1) {
      for (const nominal of [1, 2, 3, 7, 16, 44, 115, 199, 290, 500]) {
        const read = expandCode(nominal, `${letter}${grade}`);
        const it = expandCode(nominal, `H${grade}`);
        if (read.ok) expect(read.value.upper - read.value.lower).toBeCloseTo(it.ok ? it.value.upper : Number.NaN, 9);
      }
    }
  }
});
