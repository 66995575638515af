import { describe, expect, test } from 'vitest';
import * as tables from '../../../reasoner/fits/iso286-tables.ts';
import { expandCode } from '../../../reasoner/index.ts';

/** Deviations in micrometres, [lower, upper]. */
const micrometres = (nominal: number, code: string): readonly [number, number] => {
  const read = expandCode(nominal, code);
  if (!read.ok) throw new Error(read.sentence);
  return [Math.round(read.value.lower * 1e4) / 10, Math.round(read.value.upper * 1e4) / 10];
};

/** A size well inside each range of the collected table, and each range's upper end ("up to and including"). */
const sizes = [
  [4, 6],
  [8, 10],
  [12, 18],
  [25, 30],
  [35, 50],
  [60, 80],
  [100, 120],
  [150, 180],
] as const;

describe('ISO 286-1/-2, several agreeing copies of the tables (C; the standard itself was not read)', () => {
  const grades = {
    5: [5, 6, 8, 9, 11, 13, 15, 18],
    6: [8, 9, 11, 13, 16, 19, 22, 25],
    7: [12, 15, 18, 21, 25, 30, 35, 40],
    8: [18, 22, 27, 33, 39, 46, 54, 63],
    9: [30, 36, 43, 52, 62, 74, 87, 100],
    11: [75, 90, 110, 130, 160, 190, 220, 250],
  };
  test.each(Object.entries(grades))('[F3] standard tolerance IT%s over eight ranges, as hole H and shaft h', (grade, row) => {
    sizes.forEach((range, i) => {
      for (const size of range) {
        expect(micrometres(size, `H${grade}`)).toEqual([0, row[i]]);
        expect(micrometres(size, `h${grade}`)).toEqual([-(row[i] as number), 0]);
      }
    });
  });

  const upper = {
    d: [-30, -40, -50, -65, -80, -100, -120, -145],
    e: [-20, -25, -32, -40, -50, -60, -72, -85],
    f: [-10, -13, -16, -20, -25, -30, -36, -43],
    g: [-4, -5, -6, -7, -9, -10, -12, -14],
  };
  test.each(Object.entries(upper))('[F3] shaft letter %s over eight ranges: its upper deviation, and the mirrored hole', (letter, row) => {
    sizes.forEach((range, i) => {
      for (const size of range) {
        expect(micrometres(size, `${letter}7`)[1]).toBe(row[i]);
        expect(micrometres(size, `${letter.toUpperCase()}7`)[0]).toBe(-(row[i] as number));
      }
    });
  });

  const lower = {
    k: [1, 1, 1, 2, 2, 2, 3, 3],
    m: [4, 6, 7, 8, 9, 11, 13, 15],
    n: [8, 10, 12, 15, 17, 20, 23, 27],
    p: [12, 15, 18, 22, 26, 32, 37, 43],
  };
  test.each(Object.entries(lower))('[F3] shaft letter %s over eight ranges: its lower deviation', (letter, row) => {
    sizes.forEach((range, i) => {
      for (const size of range) expect(micrometres(size, `${letter}6`)[0]).toBe(row[i]);
    });
  });

  test('[F3] k has its deviation in IT4 to IT7 only', () => {
    expect(micrometres(25, 'k7')[0]).toBe(2);
    expect(micrometres(25, 'k8')[0]).toBe(0);
    expect(micrometres(25, 'k3')[0]).toBe(0);
  });

  test.each([
    ['G7', 5, 20],
    ['F7', 13, 28],
    ['H7', 0, 15],
    ['JS7', -7.5, 7.5],
    ['J7', -7, 8],
    ['K7', -10, 5],
    ['M7', -15, 0],
    ['N7', -19, -4],
    ['P7', -24, -9],
  ])('[F3] hole 10 %s', (code, low, high) => {
    expect(micrometres(10, code)).toEqual([low, high]);
  });

  test('[F3] hole 30 S7, and 20 h7 which some pages print wrong', () => {
    expect(micrometres(30, 'S7')).toEqual([-48, -27]);
    expect(micrometres(20, 'h7')).toEqual([-21, 0]);
  });
});

describe('Worked fits: clearance, least to greatest, in micrometres', () => {
  test.each([
    [30, 'H7', 'g6', 7, 41, 'several agreeing copies, C'],
    [25, 'H7', 'g6', 7, 41, 'several agreeing copies, C'],
    [25, 'H7', 'p6', -35, -1, 'several agreeing copies, C'],
    [25, 'H7', 's6', -48, -14, 's6 from memory, M'],
    [50, 'H8', 'f7', 25, 89, 'several agreeing copies, C'],
    [25, 'H7', 'h6', 0, 34, 'several agreeing copies, C'],
    [34, 'H11', 'c11', 120, 440, 'Shigley, Mechanical Engineering Design, 9th ed., Example 7-7, C'],
    [50, 'H7', 'k6', -18, 23, 'from the tables, K'],
    [50, 'H7', 'p6', -42, -1, 'from the tables, K'],
    [100, 'H7', 'g6', 12, 69, 'from the tables, K'],
    [25, 'H9', 'd9', 65, 169, 'from the tables, K'],
  ] as const)('[F3] %d %s/%s: %d..%d (%s)', (nominal, hole, shaft, least, greatest, _source) => {
    const [holeLow, holeHigh] = micrometres(nominal, hole);
    const [shaftLow, shaftHigh] = micrometres(nominal, shaft);
    expect([holeLow - shaftHigh, holeHigh - shaftLow]).toEqual([least, greatest]);
  });
});

/**
 * ISO 286-2 hole limits recalled as printed rows, upper deviation ES over the thirteen main ranges (M). The tables held are those of shafts;
 * holes are made by the Δ rule, so these rows test the rule against a second memory.
 */
describe('ISO 286-2 hole rows, from memory (M), against the Δ rule', () => {
  const ends = tables.mainRanges;
  test.each([
    ['K6', [0, 2, 2, 2, 2, 3, 4, 4, 4, 5, 5, 7, 8]],
    ['K7', [0, 3, 5, 6, 6, 7, 9, 10, 12, 13, 16, 17, 18]],
    ['M7', [-2, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]],
    ['N7', [-4, -4, -4, -5, -7, -8, -9, -10, -12, -14, -14, -16, -17]],
    ['P7', [-6, -8, -9, -11, -14, -17, -21, -24, -28, -33, -36, -41, -45]],
    ['N9', [-4, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]],
    ['P9', [-6, -12, -15, -18, -22, -26, -32, -37, -43, -50, -56, -62, -68]],
  ])('[F3] %s', (code, row) => {
    expect(ends.map((end) => micrometres(end, code)[1])).toEqual(row);
  });

  test('[F3] H7/p6 and P7/h6 give one fit at every size above 3 mm: what Δ is for', () => {
    for (const end of ends.slice(1)) {
      const [shaftLow, shaftHigh] = micrometres(end, 'p6');
      const [holeLow, holeHigh] = micrometres(end, 'P7');
      const it7 = micrometres(end, 'H7')[1];
      const it6 = -micrometres(end, 'h6')[0];
      expect([0 - shaftHigh, it7 - shaftLow]).toEqual([holeLow, holeHigh + it6]);
    }
  });
});

/**
 * The formulae behind the tables (ISO 286-1:1988 annex A and ISO 286-1:2010 annex; formulae from memory, M; i for IT5 and coarser C). D is the
 * geometric mean of a range in mm, the first range counted from 1. A cell passes within `share` of the formula or within `micrometre`. Cells no
 * formula gives are named, so that a change of any other is noticed; they rest on memory alone.
 */
describe('Every cell of the tables against the formulae of ISO 286-1 (M)', () => {
  const means = (ends: readonly number[]) => ends.map((end, i) => Math.sqrt((i === 0 ? 1 : (ends[i - 1] as number)) * end));
  const main = means(tables.mainRanges);
  const fine = means(tables.fineRanges);
  const mainOf = (i: number) => tables.mainRanges.findIndex((end) => (tables.fineRanges[i] as number) <= end);
  const it = (grade: number, i: number) => tables.standardTolerances[grade]?.[i] as number;
  const unit = (d: number) => 0.45 * Math.cbrt(d) + 0.001 * d;
  const D = (ranges: readonly number[], i: number) => ranges[i] as number;

  /** Indices where the table and the formula differ by more than the allowance. */
  const strangers = (row: readonly (number | null)[], formula: (i: number) => number, share: number, micrometre: number) =>
    row.flatMap((cell, i) => {
      if (cell === null) return [];
      const off = Math.abs(Math.abs(cell) - formula(i));
      return off <= micrometre || off <= share * formula(i) ? [] : [i];
    });

  const multipliers = {
    5: 7,
    6: 10,
    7: 16,
    8: 25,
    9: 40,
    10: 64,
    11: 100,
    12: 160,
    13: 250,
    14: 400,
    15: 640,
    16: 1000,
    17: 1600,
    18: 2500,
  };
  test.each(Object.entries(multipliers))('[F3] IT%s is %d i', (grade, times) => {
    const row = tables.standardTolerances[Number(grade)] as readonly number[];
    // Up to 3 mm the table stands above the formula; 6–10 mm is rounded up to a preferred number in some grades.
    expect(strangers(row.slice(1), (i) => times * unit(D(main, i + 1)), 0.045, 0.7)).toEqual([]);
    expect(row[0]).toBeGreaterThan(times * unit(D(main, 0)) * 0.95);
  });

  test('[F3] IT1 is 0.8 + 0.020 D, and IT2 to IT4 climb to IT5 in equal ratios', () => {
    const one = (i: number) => 0.8 + 0.02 * D(main, i);
    expect(strangers(tables.standardTolerances[1] as number[], one, 0.1, 0.6)).toEqual([11, 12]);
    for (const grade of [2, 3, 4]) {
      const formula = (i: number) => one(i) * ((7 * unit(D(main, i))) / one(i)) ** ((grade - 1) / 4);
      // The coarse end of the fine grades is rounded down in the table by up to 2.6 µm: IT2 over 315 mm.
      expect(strangers(tables.standardTolerances[grade] as number[], formula, 0.1, 1.0)).toEqual(grade === 2 ? [11, 12] : []);
    }
  });

  test.each([
    ['d', (i: number) => 16 * D(main, i) ** 0.44, []],
    ['e', (i: number) => 11 * D(main, i) ** 0.41, []],
    ['f', (i: number) => 5.5 * D(main, i) ** 0.41, []],
    ['g', (i: number) => 2.5 * D(main, i) ** 0.34, []],
  ] as const)('[F3] shaft %s', (letter, formula, named) => {
    expect(strangers(tables.shaftUpper[letter] as number[], formula, 0.035, 1.02)).toEqual(named);
  });

  test.each([
    ['a', (i: number) => (D(fine, i) <= 120 ? 265 + 1.3 * D(fine, i) : 3.5 * D(fine, i)), []],
    ['b', (i: number) => (D(fine, i) <= 160 ? 140 + 0.85 * D(fine, i) : 1.8 * D(fine, i)), []],
    // Over 10 up to 40 mm the table has round numbers 5 to 15 µm above the formula; c at 34 mm is confirmed by the worked fit 34 H11/c11.
    ['c', (i: number) => (D(fine, i) <= 40 ? 52 * D(fine, i) ** 0.2 : 95 + 0.8 * D(fine, i)), [3, 4, 5, 6, 7]],
  ] as const)('[F3] shaft %s', (letter, formula, named) => {
    expect(strangers(tables.shaftUpperFine[letter] as number[], formula, 0.05, 4)).toEqual(named);
  });

  test.each([
    ['k', (i: number) => 0.6 * Math.cbrt(D(main, i)), 1],
    ['m', (i: number) => it(7, i) - it(6, i), 2],
    ['n', (i: number) => 5 * D(main, i) ** 0.34, 2.05],
    // IT7 plus 0 to 5 µm, but for the first range, which stands below.
    ['p', (i: number) => Math.max(it(7, i) + (i === 0 ? -4 : 2.5), 0), 3.5],
  ] as const)('[F3] shaft %s', (letter, formula, micrometre) => {
    expect(strangers(tables.shaftLower[letter] as number[], formula, 0, micrometre)).toEqual([]);
  });

  test('[F3] shaft r is the geometric mean of p and s', () => {
    const p = tables.shaftLower.p as number[];
    const s = tables.shaftLowerFine.s as number[];
    expect(strangers(tables.shaftLowerFine.r as number[], (i) => Math.sqrt((p[mainOf(i)] as number) * (s[i] as number)), 0, 1.2)).toEqual(
      [],
    );
  });

  test.each([
    ['s', (i: number) => (D(fine, i) <= 50 ? it(8, mainOf(i)) + 2.5 : it(7, mainOf(i)) + 0.4 * D(fine, i)), []],
    ['t', (i: number) => it(7, mainOf(i)) + 0.63 * D(fine, i), []],
    // Small sizes stand above the formulae of u to zc, the more so the smaller.
    ['u', (i: number) => it(7, mainOf(i)) + D(fine, i), [0, 1, 2]],
    ['v', (i: number) => it(7, mainOf(i)) + 1.25 * D(fine, i), []],
    ['x', (i: number) => it(7, mainOf(i)) + 1.6 * D(fine, i), [0, 1, 2]],
    ['y', (i: number) => it(7, mainOf(i)) + 2 * D(fine, i), []],
    ['z', (i: number) => it(7, mainOf(i)) + 2.5 * D(fine, i), [0, 1, 2]],
    ['za', (i: number) => it(8, mainOf(i)) + 3.15 * D(fine, i), [0, 1, 2]],
    ['zb', (i: number) => it(9, mainOf(i)) + 4 * D(fine, i), [0]],
    ['zc', (i: number) => it(10, mainOf(i)) + 5 * D(fine, i), [0, 1]],
  ] as const)('[F3] shaft %s', (letter, formula, named) => {
    expect(strangers(tables.shaftLowerFine[letter] as (number | null)[], formula, 0.055, 3.5)).toEqual(named);
  });

  test('[F3] at every size the letters stand in order, a lowest to zc highest', () => {
    tables.fineRanges.forEach((end, i) => {
      const column = [
        ...['a', 'b', 'c'].map((letter) => tables.shaftUpperFine[letter]?.[i]),
        ...['d', 'e', 'f', 'g', 'h'].map((letter) => tables.shaftUpper[letter]?.[mainOf(i)]),
        ...['k', 'm', 'n', 'p'].map((letter) => tables.shaftLower[letter]?.[mainOf(i)]),
        ...['r', 's', 't', 'u', 'v', 'x', 'y', 'z', 'za', 'zb', 'zc'].map((letter) => tables.shaftLowerFine[letter]?.[i]),
      ].filter((cell): cell is number => typeof cell === 'number');
      expect(
        [...column].sort((x, y) => x - y),
        `up to ${end} mm`,
      ).toEqual(column);
    });
  });
});
