import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { casesCsv } from '../../../db/shop/cases-csv.ts';
import { csvOf, guarded } from '../../../db/shop/csv.ts';
import { listingsCsv } from '../../../db/shop/listings-csv.ts';
import { growthOf, mostGrowth, workOf } from './work-of.ts';

const work = await workOf(() => import('../../../db/shop/csv.ts'));

const signs = ['=', '+', '-', '@', '＝', '＋', '－', '＠', '|', '%'];
const before = ['', ' ', '\t', '\r', '\n', '\r\n', '\u00a0', '\u200b', '\ufeff', '"', ' "', '\u0000'];
const delimiters = [';', '\t', '\n', '\r', '\r\n'];

/** Whether a program that passes over blanks and quotes takes this for a formula. */
const isFormula = (cell: string): boolean => /^[\s\p{Cc}\p{Cf}"]*[=+\-@＝＋－＠|%]/u.test(cell);
/** Every cell a program makes of the text that takes one of these for the end of a cell, and quotes for what they are only where a cell begins with one. */
const cellsIn = (csv: string, delimiter: string): string[] => [
  ...Papa.parse<string[]>(csv, { delimiter }).data.flat(),
  // And one that knows of no quotes at all.
  ...csv.split(new RegExp(`[\r\n${delimiter}]`)),
];

describe('a CSV for a spreadsheet', () => {
  test.each(signs.flatMap((sign) => before.map((blank) => [sign, blank] as const)))(
    '[R6] a cell that begins with %j after %j is text, read with commas, semicolons or tabs between cells',
    (sign, blank) => {
      for (const text of [
        `${blank}${sign}1`,
        ...delimiters.flatMap((end) => [`a${end}${blank}${sign}1`, `${blank}${end}${sign}1`, `${end}${end}${blank}${sign}1${end}${sign}2`]),
      ]) {
        const csv = csvOf(['n', 'title', 'notes'], [[-3, text, 'end']]);
        for (const delimiter of [',', ';', '\t'])
          for (const cell of cellsIn(csv, delimiter).filter((each) => !/^-3(,|$)/.test(each)))
            expect(isFormula(cell), JSON.stringify([text, csv, cell])).toBe(false);
      }
    },
  );

  test.each([
    ['plain', 'plain'],
    ['57.15 - 57.20 mm; two of them', '57.15 - 57.20 mm; two of them'],
    ['a=1', 'a=1'],
    ['a;b=1', 'a;b=1'],
    ['=1', "'=1"],
    [' =1', "' =1"],
    ['a; =1', "a; '=1"],
    ['a;"=1"', `a;"'=1"`],
    ['\tx', "'\tx"],
    ['first\n- second', "first\n'- second"],
    ['\n=1', "'\n'=1"],
    ["'=1", "'=1"],
  ])('[R6] %j is written as %j: no more of it is touched than has to be', (text, written) => {
    expect(guarded(text)).toBe(written);
  });

  test('[R6] a figure stays a figure', () => expect(guarded(-3)).toBe(-3));

  test('[R6] it is read again as it was written, but for the apostrophes', () => {
    const rows = [
      ['a "quoted" word', 'x,y', 'one\r\ntwo'],
      ['', ' ', 'é 𝒳'],
    ];
    expect(Papa.parse<string[]>(csvOf(['a', 'b', 'c'], rows), { skipEmptyLines: true }).data).toEqual([['a', 'b', 'c'], ...rows]);
  });

  test('[R6] cases and listings are written by it', () => {
    const hostile = 'a;=1';
    const one = {
      number: '2026-1',
      openedOn: '',
      savedAt: '',
      title: hostile,
      kind: 'found',
      customer: hostile,
      lookedBy: hostile,
      claimed: hostile,
    };
    const rest = {
      numbers: [],
      word: null,
      status: null,
      honest: [hostile],
      open: [hostile],
      edition: hostile,
      observations: 0,
      photos: 0,
      notes: hostile,
    };
    const row = {
      source: hostile,
      standing: 'stands',
      title: hostile,
      claimed: hostile,
      plainness: null,
      sentences: [hostile],
      may: hostile,
    };
    for (const csv of [casesCsv([{ ...one, ...rest }] as never), listingsCsv({ rows: [row], cautions: [hostile] } as never)]) {
      expect(csv.match(/a;'=1/g)?.length).toBeGreaterThanOrEqual(6);
      expect(csv).not.toContain('a;=1');
    }
  });

  test.each(['\n', ';', ' ', '"', '=', ';=', 'a;'])('[R6] %j over and over: twice the text takes at most 2.3 times the work', (piece) => {
    const of = (many: number) => work(({ guarded: guard }) => void guard(piece.repeat(many)));
    expect(growthOf(of, 1000)).toBeLessThan(mostGrowth);
  });
});
