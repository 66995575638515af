import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Gathered } from '../../../../db/mend/gather.ts';
import {
  backupOf,
  bodyOf,
  but,
  caseOf,
  damagedOf,
  entry,
  gathered,
  head,
  inBackup,
  kept,
  loose,
  sheet,
  torn,
  without,
  words,
} from './sources-of.ts';

const [older, newer] = ['2026-02-20T20:00:00.000Z', '2026-02-27T20:00:00.000Z'] as const;
const heads = ({ rows }: Gathered) => rows.get('cases') ?? [];
const ofNumbers = ({ from }: Gathered) => from.filter(({ what }) => what === 'case number');

const { TZ } = process.env;
beforeEach(() => {
  process.env.TZ = 'UTC';
});
afterEach(() => {
  if (TZ === undefined) delete process.env.TZ;
  else process.env.TZ = TZ;
});

describe('the number of a case', () => {
  test('[P3] a whole list of cases says all: neither its index nor a copy adds one', () => {
    const rows = [
      ...caseOf('a', 1, '2026-02-01'),
      ...but(caseOf('b', 2, '2026-02-02'), 'gone', 'cases').filter((one) => one.table === 'sheets'),
    ];
    const damaged = damagedOf(rows, { broken: ['sheets'], numbers: [{ letter: 'A', year: 2026, number: 2, sheet: 'b' }] });
    const found = gathered(damaged, { backups: [backupOf(newer, caseOf('b', 2, '2026-02-02'))] });
    expect(heads(found)).toEqual([head('a', 1, '2026-02-01')]);
    expect(ofNumbers(found)).toEqual([]);
    expect(found.numberless, 'nothing says there is a case').toEqual([]);
  });

  test('[P3] a row that is gone has its number from the index, and is of the first day anything was written of the case', () => {
    const damaged = damagedOf([
      ...but(caseOf('a', 3, '2026-02-05'), 'gone', 'cases'),
      ...kept('case_details', words('a', 2, '2026-02-07')),
      ...kept('case_entries', entry('a', 2, '2026-02-04')),
      // Written before, of another case.
      ...caseOf('b', 2, '2026-02-01'),
    ]);
    const found = gathered(damaged);
    expect(heads(found)).toEqual([head('b', 2, '2026-02-01'), head('a', 3, '2026-02-04')]);
    expect(ofNumbers(found)).toEqual([{ what: 'case number', of: 'a', source: 'index', saved: null }]);
    expect(found).toMatchObject({ numberless: [], lost: [], strayRows: [] });
  });

  test('[P3] its words or its history alone give that day too; where neither can be read, it is the day the sheet was saved', () => {
    const rows = but([...caseOf('a', 3, '2026-02-05'), ...kept('case_details', words('a', 2, '2026-02-03'))], 'gone', 'cases');
    const opened = (...tables: readonly string[]) =>
      heads(gathered(damagedOf(without(rows, ...tables), { broken: ['case_details', 'case_entries'] })))[0]?.opened_on;
    expect(opened('case_entries')).toBe('2026-02-03');
    expect(opened('case_details')).toBe('2026-02-05');
    const saved = kept('sheets', sheet('a', '2026-02-09'));
    const alone = [...saved, ...without(rows, 'sheets', 'case_details', 'case_entries')];
    expect(heads(gathered(damagedOf(alone, { broken: ['case_details', 'case_entries'] })))).toEqual([head('a', 3, '2026-02-09')]);
  });

  test('[P3] its letter comes from the index with its number', () => {
    const damaged = damagedOf(but(caseOf('a', 3, '2026-02-05', undefined, 'K'), 'gone', 'cases'));
    const backups = [backupOf(newer, kept('cases', { ...head('a', 3, '2026-01-31'), letter: 'B' }))];
    expect(heads(gathered(damaged, { backups }))).toEqual([{ ...head('a', 3, '2026-02-05'), letter: 'K' }]);
  });

  test('[P3] in a file from before letters counted by themselves its letter comes from the index of letters, else from a backup that has it under this number; where neither has it, the number is told without one', () => {
    const rows = but(caseOf('a', 3, '2026-02-05'), 'gone', 'cases');
    const letter = (letters: readonly { letter: string; sheet: string }[], number: number) =>
      heads(
        gathered(damagedOf(rows, { older: true, letters }), {
          backups: [backupOf(newer, kept('cases', { ...head('a', number, '2026-02-05'), letter: 'K' }))],
        }),
      )[0]?.letter;
    expect(
      letter(
        [
          { letter: 'C', sheet: 'b' },
          { letter: 'B', sheet: 'a' },
        ],
        3,
      ),
    ).toBe('B');
    expect(letter([{ letter: 'C', sheet: 'b' }], 3)).toBe('K');
    expect(letter([], 4), 'of a case that was removed').toBe('');
  });

  test('[P3] cases of one number under two letters are two cases, each of its own', () => {
    const two = [...caseOf('a', 3, '2026-02-05'), ...caseOf('b', 3, '2026-02-06', undefined, 'K')];
    const both = [head('a', 3, '2026-02-05'), { ...head('b', 3, '2026-02-06'), letter: 'K' }];
    expect(heads(gathered(damagedOf(two)))).toEqual(both);
    expect(heads(gathered(damagedOf(but(two, 'gone', 'cases'))))).toEqual(both);
    const backups = [backupOf(newer, two)];
    expect(heads(gathered(damagedOf(but(two, 'gone', 'cases'), { numbers: [] }), { backups }))).toEqual(both);
  });

  test('[P3] a loose row whose letter the index says otherwise is of a case removed before; an index that says no letter speaks of it', () => {
    const rows = (older: boolean) => [
      ...but(caseOf('a', 7, '2026-02-05'), 'gone', 'cases').filter(({ table }) => !older || table !== 'cases'),
      ...loose('cases', { ...head('a', 7, '2026-01-10'), letter: 'K' }),
    ];
    expect(heads(gathered(damagedOf(rows(false))))).toEqual([head('a', 7, '2026-02-05')]);
    const numbers = [{ year: 2026, number: 7, sheet: 'a' }];
    const of = (letters: readonly { letter: string; sheet: string }[]) =>
      heads(gathered(damagedOf(rows(true), { older: true, numbers, letters, stale: true })));
    expect(of([])).toEqual([{ ...head('a', 7, '2026-01-10'), letter: 'K' }]);
    expect(of([{ letter: 'A', sheet: 'a' }])).toEqual([head('a', 7, '2026-02-05')]);
  });

  test('[P3] the day it was opened on comes from a backup that has it under this number', () => {
    const damaged = damagedOf([...but(caseOf('a', 3, '2026-02-05'), 'gone', 'cases', 'case_details')]);
    const of = (number: number) => backupOf(newer, kept('cases', head('a', number, '2026-01-31')));
    expect(heads(gathered(damaged, { backups: [of(3)] }))[0]?.opened_on).toBe('2026-01-31');
    expect(heads(gathered(damaged, { backups: [of(4)] }))[0]?.opened_on, 'of a case that was removed').toBe('2026-02-05');
    expect(ofNumbers(gathered(damaged, { backups: [of(3)] }))).toEqual([{ what: 'case number', of: 'a', source: 'index', saved: null }]);
  });

  test('[P3] the day is that of the shop, which does not end at midnight in Greenwich', () => {
    const late = (id: string, day: string) => ({ ...words(id, 1, day), at: `${day}T23:30:00.000Z` });
    const damaged = damagedOf([
      ...without(but(caseOf('a', 1, '2026-01-02'), 'gone', 'cases'), 'case_details', 'case_entries'),
      ...kept('case_details', late('a', '2025-12-31')),
    ]);
    process.env.TZ = 'Etc/GMT-2';
    expect(heads(gathered(damaged))).toEqual([head('a', 1, '2026-01-01')]);
    process.env.TZ = 'Etc/GMT+8';
    expect(heads(gathered(damaged))[0]?.opened_on).toBe('2025-12-31');
  });

  test('[P3] of a sheet that is left in a file without a time, and a number in the index, no more is known than the year', () => {
    const damaged = damagedOf([], {
      broken: ['sheets', 'cases', 'case_details', 'case_entries'],
      numbers: [{ letter: 'K', year: 2025, number: 4, sheet: 'a' }],
    });
    const found = gathered(damaged, { sheetFiles: [{ file: 'recovered-x/0001.json', at: null, id: 'a', body: bodyOf('a') }] });
    expect(heads(found)).toEqual([{ ...head('a', 4, '2025-01-01'), letter: 'K' }]);
  });

  test('[P3] neither row nor index has it: it comes from the newest backup that does', () => {
    const damaged = damagedOf(but(caseOf('a', 3, '2026-02-05'), 'gone', 'cases'), { numbers: [] });
    const backups = [backupOf(newer, caseOf('b', 9, '2026-02-01')), backupOf(older, caseOf('a', 3, '2026-02-01'))];
    const found = gathered(damaged, { backups });
    expect(heads(found)[0]).toEqual(head('a', 3, '2026-02-01'));
    expect(ofNumbers(found)[0]).toEqual({ what: 'case number', of: 'a', source: inBackup(older), saved: null });
    expect(found.numberless).toEqual([]);
  });

  test('[P3] a backup gives no number to a sheet that has one, nor of a sheet that was removed', () => {
    const damaged = damagedOf(caseOf('a', 3, '2026-02-05'), { broken: ['cases'], numbers: [] });
    const found = gathered(damaged, { backups: [backupOf(newer, [...caseOf('a', 4, '2026-02-01'), ...caseOf('gone', 2, '2026-02-01')])] });
    expect(heads(found)).toEqual([head('a', 3, '2026-02-05')]);
    expect(found.from).toEqual([]);
  });

  test('[P3] of cases of one number the one in its place keeps it before one on a loose page, and that gets a new one', () => {
    const damaged = damagedOf([...but(caseOf('a', 3, '2026-02-05'), 'loose', 'cases'), ...caseOf('b', 3, '2026-02-06')], { numbers: [] });
    const found = gathered(damaged);
    expect(heads(found)).toEqual([head('b', 3, '2026-02-06')]);
    expect(found.numberless).toEqual(['a']);
    expect(found.lost).toEqual([{ what: 'case number', id: 'a', known: '' }]);
    expect(
      found.rows.get('case_details')?.map(({ sheet: of }) => of),
      'its words stay',
    ).toEqual(['a', 'b']);
  });

  test('[P3] a number that a row has is given to nobody by the index or by a backup; one that is free is', () => {
    const rows = [...caseOf('a', 3, '2026-02-05'), ...but(caseOf('b', 4, '2026-02-06'), 'gone', 'cases')];
    const spoilt = damagedOf(rows, {
      numbers: [
        { letter: 'A', year: 2026, number: 3, sheet: 'b' },
        { letter: 'A', year: 2025, number: 3, sheet: 'b' },
      ],
    });
    expect(heads(gathered(spoilt))).toEqual([head('a', 3, '2026-02-05'), { ...head('b', 3, '2026-02-06'), year: 2025 }]);
    const backups = [backupOf(newer, caseOf('b', 3, '2026-02-06')), backupOf(older, caseOf('b', 4, '2026-02-06'))];
    const found = gathered(damagedOf(rows, { numbers: [] }), { backups });
    expect(heads(found)).toEqual([head('a', 3, '2026-02-05'), head('b', 4, '2026-02-06')]);
    expect(ofNumbers(found)).toEqual([{ what: 'case number', of: 'b', source: inBackup(older), saved: null }]);
  });

  test('[P3] a row on a loose page does not stand against what the whole index says: it is of a case removed before', () => {
    const rows = [...but(caseOf('a', 7, '2026-02-05'), 'gone', 'cases'), ...loose('cases', head('a', 2, '2026-01-10'))];
    const found = gathered(damagedOf(rows));
    expect(heads(found)).toEqual([head('a', 7, '2026-02-05')]);
    expect(found.lost).toEqual([]);
    // Where the index is not whole, nothing says so; where it says the same, the row has more.
    expect(heads(gathered(damagedOf(rows, { numbers: [] })))).toEqual([head('a', 2, '2026-01-10')]);
    // Nor where it gives numbers of other cases still, whichever index the file has.
    for (const letters of [{ letter: 'A' }, {}]) {
      const older = 'letter' in letters ? {} : { older: true as const };
      const numbers = [{ ...letters, year: 2026, number: 5, sheet: 'b' }];
      expect(heads(gathered(damagedOf(rows, { ...older, numbers })))).toEqual([head('a', 2, '2026-01-10')]);
    }
    const same = [...but(caseOf('a', 7, '2026-02-05'), 'gone', 'cases'), ...loose('cases', head('a', 7, '2026-01-31'))];
    expect(heads(gathered(damagedOf(same)))).toEqual([head('a', 7, '2026-01-31')]);
    expect(gathered(damagedOf(same)).from).toEqual([]);
  });

  test('[P3] a row in its place stands against an index that is older than it', () => {
    const numbers = [{ letter: 'A', year: 2026, number: 2, sheet: 'a' }];
    const found = gathered(damagedOf(caseOf('a', 7, '2026-02-05'), { broken: ['cases'], numbers, stale: true }));
    expect(heads(found)).toEqual([head('a', 7, '2026-02-05')]);
    expect(found.from).toEqual([]);
  });

  test('[P3] of a sheet that is lost no number is put back, and the index gives none', () => {
    const rows = but(caseOf('a', 3, '2026-02-05'), 'gone', 'sheets', 'case_entries');
    for (const how of ['led to', 'gone'] as const) {
      const found = gathered(damagedOf([...but(rows, how, 'cases'), ...caseOf('b', 4, '2026-02-06')]));
      expect(heads(found)).toEqual([head('b', 4, '2026-02-06')]);
      expect(ofNumbers(found)).toEqual([]);
      expect(found.lost.map(({ what }) => what)).toEqual(['sheet']);
    }
  });
});

describe('a case whose number is nowhere', () => {
  test.each([
    ['what is left of its row', torn('cases', { sheet: 'a' })],
    ['its words', kept('case_details', words('a', 1, '2026-02-05'))],
    ['its history', kept('case_entries', entry('a', 1, '2026-02-05'))],
    ['what is left of the place of a photograph', torn('case_photos', { sheet: 'a' })],
  ])('[P3] is one all the same by %s, and gets a new number', (_, rows) => {
    const damaged = damagedOf([...kept('sheets', sheet('a', '2026-02-05')), ...rows, ...caseOf('b', 2, '2026-02-06')], {
      broken: ['cases'],
      numbers: [],
    });
    const found = gathered(damaged);
    expect(found.numberless).toEqual(['a']);
    expect(found.lost).toEqual([{ what: 'case number', id: 'a', known: '' }]);
    expect(found.strayRows).toEqual([]);
  });

  test('[P3] is one by what a backup has of it too: after an older copy was put back its number may be another’s by now', () => {
    const damaged = damagedOf(caseOf('b', 5, '2026-02-25'), { broken: ['sheets', 'cases', 'case_details', 'case_entries'], numbers: [] });
    const found = gathered(damaged, { backups: [backupOf(newer, caseOf('a', 5, '2026-02-05'))] });
    expect(heads(found)).toEqual([head('b', 5, '2026-02-25')]);
    expect(found.numberless).toEqual(['a']);
    expect(found.lost).toEqual([{ what: 'case number', id: 'a', known: '' }]);
    expect(found.rows.get('case_details'), 'with its words').toEqual([words('b', 1, '2026-02-25'), words('a', 1, '2026-02-05')]);
    expect(found.strayRows).toEqual([]);
  });

  test('[P3] a sheet nothing says a case of has none to be numbered', () => {
    const damaged = damagedOf(kept('sheets', sheet('a', '2026-02-05')), { broken: ['cases'], numbers: [] });
    expect(gathered(damaged)).toMatchObject({ numberless: [], lost: [] });
  });
});

describe('the last number of a year', () => {
  /** What stands under letters; `B 2026` as `B26`. */
  const numbersOf = (found: Gathered) =>
    Object.fromEntries((found.rows.get('case_counts') ?? []).map(({ letter, year, last }) => [`${letter}${Number(year) - 2000}`, last]));
  const rows = [...caseOf('a', 3, '2025-12-05'), ...caseOf('b', 8, '2026-02-05'), ...caseOf('c', 4, '2026-02-06', undefined, 'K')];
  const counts = (...of: readonly (readonly [string, number, number])[]) =>
    kept('case_counts', ...of.map(([letter, year, last]) => ({ letter, year, last })));
  const every = (year: number, last: number) =>
    Object.fromEntries(['', ...'ABCDEFGHJKLMNPQRSTUVWXYZ'].map((letter) => [`${letter}${year}`, last]));

  test('[P3] is under each letter as the file has it, though the case that had it was removed', () => {
    const given = counts(['A', 2025, 30], ['A', 2026, 12], ['K', 2026, 5], ['Z', 2024, 1]);
    expect(numbersOf(gathered(damagedOf([...rows, ...given])))).toEqual({ A25: 30, A26: 12, K26: 5, Z24: 1 });
  });

  test('[P3] is none that a case of this file, its index, or any copy has more than under that letter, be that case lost or removed', () => {
    const whole = { broken: ['case_counts'] };
    expect(numbersOf(gathered(damagedOf(rows, whole)))).toEqual({ A25: 3, A26: 8, K26: 4 });
    const numbers = [
      { letter: 'A', year: 2026, number: 9, sheet: 'gone' },
      { letter: 'K', year: 2025, number: 2, sheet: 'gone too' },
    ];
    expect(numbersOf(gathered(damagedOf(rows, { ...whole, numbers })))).toEqual({ A25: 3, A26: 9, K26: 4, K25: 2 });
    const backups = [
      backupOf(newer, counts(['A', 2026, 20], ['A', 2025, 1], ['K', 2026, 2])),
      backupOf(older, [...counts(['A', 2026, 19], ['K', 2026, 6]), ...kept('cases', head('removed', 40, '2025-03-01'))]),
    ];
    expect(numbersOf(gathered(damagedOf(rows, whole), { backups }))).toEqual({ A25: 40, A26: 20, K26: 6 });
  });

  test('[P3] is asked of copies where the list of cases is not whole, as theirs may be put back, and not where both lists are', () => {
    const given = counts(['A', 2026, 8], ['A', 2025, 3], ['K', 2026, 4]);
    const backups = [backupOf(newer, counts(['A', 2026, 20]))];
    const last = (broken: readonly string[]) => numbersOf(gathered(damagedOf([...rows, ...given], { broken }), { backups })).A26;
    expect(last(['cases'])).toBe(20);
    expect(last(['case_counts'])).toBe(20);
    expect(last(['sheets'])).toBe(8);
  });

  test('[P3] counted by the year alone, in a file from before, is every letter’s: a removed case may have had any', () => {
    const years = kept('case_numbers', { year: 2026, last: 12 });
    expect(numbersOf(gathered(damagedOf([...rows, ...years], { older: true })))).toEqual({ ...every(26, 12), A25: 3 });
    const copy = backupOf(newer, [...years, ...caseOf('d', 14, '2026-02-20')], { older: true });
    const broken = { broken: ['case_counts'] };
    expect(numbersOf(gathered(damagedOf(rows, broken), { backups: [copy] }))).toEqual({ ...every(26, 12), A26: 14, A25: 3 });
    expect(numbersOf(gathered(damagedOf([...rows, ...counts(['A', 2026, 8])]), { backups: [copy] })), 'not asked').toEqual({
      A26: 8,
      A25: 3,
      K26: 4,
    });
    const own = damagedOf([...rows, ...counts(['A', 2026, 8]), ...years]);
    expect(numbersOf(gathered(own)), 'what looks like it in a file that counts by letters').toEqual({ A26: 8, A25: 3, K26: 4 });
  });

  test('[P3] of a file from before is asked of copies too where its count by years cannot be read', () => {
    const backups = [backupOf(newer, kept('case_numbers', { year: 2026, last: 20 }), { older: true })];
    const last = (broken: readonly string[]) => numbersOf(gathered(damagedOf(rows, { older: true, broken }), { backups }));
    expect(last(['case_numbers'])).toEqual({ ...every(26, 20), A25: 3 });
    expect(last([])).toEqual({ A26: 8, A25: 3, K26: 4 });
  });

  test('[P3] a number whose letter nothing says was given under any of them', () => {
    const numbers = [
      { year: 2026, number: 9, sheet: 'gone' },
      { year: 2026, number: 10, sheet: 'gone too' },
    ];
    const letters = [{ letter: 'K', sheet: 'gone too' }];
    expect(numbersOf(gathered(damagedOf(rows, { older: true, numbers, letters })))).toEqual({ ...every(26, 9), K26: 10, A25: 3 });
  });
});
