import { describe, expect, test } from 'vitest';
import { gather } from '../../../../db/mend/gather.ts';
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
  sheetAgain,
  time,
  torn,
  without,
  words,
} from './sources-of.ts';

const [older, newer] = ['2026-02-20T20:00:00.000Z', '2026-02-27T20:00:00.000Z'] as const;
const titles = (of: ReturnType<typeof gathered>) => [...of.sheets.values()].map(({ title }) => title);

test('[P3] an atlas that gives every row it has: all of it is taken, nothing is said of it, and no copy is asked', () => {
  const rows = [
    ...caseOf('b', 2, '2026-02-02'),
    ...caseOf('a', 1, '2026-02-01'),
    ...kept('case_counts', { letter: 'A', year: 2026, last: 2 }),
  ];
  const damaged = damagedOf(rows);
  const newest = backupOf(newer, [...caseOf('a', 1, '2026-02-26', 'newer'), ...caseOf('c', 3, '2026-02-26')]);
  const found = gathered(damaged, { backups: [newest], sheetFiles: [{ file: '0001.json', at: newer, id: 'd', body: bodyOf('d') }] });
  const notAsked = () => {
    throw new Error('a copy is asked');
  };
  expect(gather({ damaged, backups: notAsked, sheetFiles: notAsked, photoFile: notAsked })).toEqual(found);
  expect(found.sheets).toEqual(
    new Map([
      ['a', sheet('a', '2026-02-01')],
      ['b', sheet('b', '2026-02-02')],
    ]),
  );
  expect([...found.sheets.keys()], 'in order of their ids').toEqual(['a', 'b']);
  const of = (table: string) => found.rows.get(table);
  expect(of('cases')).toEqual([head('b', 2, '2026-02-02'), head('a', 1, '2026-02-01')]);
  expect(of('case_details')).toEqual([words('b', 1, '2026-02-02'), words('a', 1, '2026-02-01')]);
  expect(of('case_entries')).toEqual([entry('b', 1, '2026-02-02'), entry('a', 1, '2026-02-01')]);
  expect(of('case_counts')).toEqual([{ letter: 'A', year: 2026, last: 2 }]);
  expect(found).toMatchObject({ from: [], lost: [], numberless: [], strayRows: [], strayPhotos: [], incomplete: [] });
});

test('[P3] a sheet whose own row stands in its place is as that says, whatever its history or a copy has', () => {
  const damaged = damagedOf([...caseOf('a', 1, '2026-02-01'), ...kept('case_entries', entry('a', 2, '2026-03-01', 'told later'))], {
    broken: ['sheets'],
  });
  const found = gathered(damaged, { backups: [backupOf(newer, caseOf('a', 1, '2026-02-26', 'in a copy'))] });
  expect(found.sheets.get('a')).toEqual(sheet('a', '2026-02-01'));
  expect(found).toMatchObject({ from: [], lost: [], incomplete: ['sheets'] });
});

test('[P3] a sheet whose row is gone is as the last entry of its case, whichever entry stands first in the file', () => {
  const damaged = damagedOf([
    ...but(caseOf('a', 1, '2026-02-01', 'first'), 'gone', 'sheets'),
    ...kept('case_entries', entry('a', 10, '2026-02-10', 'tenth'), entry('a', 9, '2026-02-09', 'ninth')),
    ...caseOf('b', 2, '2026-02-28'),
  ]);
  const found = gathered(damaged);
  expect(found.sheets.get('a')).toEqual(sheetAgain('a', time('2026-02-10'), 'tenth'));
  expect(found.from).toEqual([{ what: 'sheet', of: 'a', source: 'history', saved: time('2026-02-10') }]);
  expect(found.lost).toEqual([]);
});

test.each([
  ['the history', '2026-02-09', '2026-02-08', '2026-02-07', 'as told', 'history'],
  ['the page nothing leads to', '2026-02-07', '2026-02-09', '2026-02-08', 'on a loose page', null],
  ['the copy', '2026-02-07', '2026-02-08', '2026-02-09', 'in the copy', inBackup(newer)],
  ['its own row, of those of one time', '2026-02-09', '2026-02-09', '2026-02-09', 'on a loose page', null],
  ['the history before a copy, of those of one time', '2026-02-09', '2026-02-08', '2026-02-09', 'as told', 'history'],
  ['its own row before a copy, of those of one time', '2026-02-07', '2026-02-09', '2026-02-09', 'on a loose page', null],
])('[P3] of a sheet nothing leads to, the newest state is taken: %s', (_, told, onPage, inCopy, title, source) => {
  const damaged = damagedOf([
    ...kept('cases', head('a', 1, '2026-02-01')),
    ...kept('case_details', words('a', 1, '2026-02-01')),
    ...kept('case_entries', entry('a', 1, told, 'as told')),
    ...loose('sheets', sheet('a', onPage, 'on a loose page')),
  ]);
  const found = gathered(damaged, { backups: [backupOf(newer, caseOf('a', 1, inCopy, 'in the copy'))] });
  expect(titles(found)).toEqual([title]);
  const saved = [told, onPage, inCopy].sort().at(-1) ?? '';
  expect(found.from).toEqual(source === null ? [] : [{ what: 'sheet', of: 'a', source, saved: time(saved) }]);
});

test('[P3] of two backups that have a sheet in the same state the newer one is named; of two states the newer is taken, wherever it is', () => {
  const damaged = damagedOf([], { broken: ['sheets', 'cases', 'case_details', 'case_entries'], numbers: [] });
  const backups = [
    backupOf(newer, [...caseOf('a', 1, '2026-02-10'), ...caseOf('b', 2, '2026-02-10', 'before')]),
    backupOf(older, [...caseOf('a', 1, '2026-02-10'), ...caseOf('b', 2, '2026-02-11', 'after a restore')]),
  ];
  const found = gathered(damaged, { backups });
  expect(titles(found)).toEqual(['Unit a', 'after a restore']);
  expect(found.from.filter(({ what }) => what === 'sheet')).toEqual([
    { what: 'sheet', of: 'a', source: inBackup(newer), saved: time('2026-02-10') },
    { what: 'sheet', of: 'b', source: inBackup(older), saved: time('2026-02-11') },
  ]);
});

test('[P3] a backup whose own row of a sheet is gone has it still as the last entry of its case; one that has the row is not asked for more', () => {
  const rows = [
    ...but(caseOf('a', 1, '2026-02-01', 'first'), 'gone', 'sheets'),
    ...kept('case_entries', entry('a', 2, '2026-02-12', 'second')),
  ];
  const damaged = damagedOf(without(but(caseOf('a', 1, '2026-02-01'), 'gone', 'sheets'), 'case_entries'), { broken: ['case_entries'] });
  const fromEntry = gathered(damaged, { backups: [backupOf(newer, rows)] });
  expect(fromEntry.sheets.get('a')).toEqual(sheetAgain('a', time('2026-02-12'), 'second'));
  expect(fromEntry.from[0]).toEqual({ what: 'sheet', of: 'a', source: inBackup(newer), saved: time('2026-02-12') });
  const withRow = [...caseOf('a', 1, '2026-02-11', 'its row'), ...kept('case_entries', entry('a', 2, '2026-02-12', 'second'))];
  expect(titles(gathered(damaged, { backups: [backupOf(newer, withRow)] }))).toEqual(['its row']);
});

test('[P3] all that is left of a sheet is the history of its case in a backup that is damaged too: it is taken from there', () => {
  const damaged = damagedOf([], { broken: ['sheets', 'cases', 'case_details', 'case_entries'], numbers: [] });
  const copy = backupOf(newer, but(caseOf('a', 1, '2026-02-01'), 'gone', 'sheets'));
  const found = gathered(damaged, { backups: [copy] });
  expect(found.sheets.get('a')).toEqual(sheetAgain('a', time('2026-02-01')));
  expect(found.from[0]).toEqual({ what: 'sheet', of: 'a', source: inBackup(newer), saved: time('2026-02-01') });
  expect(found.lost).toEqual([]);
  // What a page of a whole backup holds beside its sheets is no sheet of it.
  const whole = backupOf(newer, without(caseOf('a', 1, '2026-02-01'), 'sheets'));
  expect(gathered(damaged, { backups: [whole] }).sheets.size).toBe(0);
});

test('[P3] a sheet written aside by an earlier mending is a state of the time it was written', () => {
  const damaged = damagedOf(
    [
      ...without(but(caseOf('a', 1, '2026-02-01'), 'gone', 'sheets'), 'case_entries'),
      ...but(caseOf('b', 2, '2026-02-25', 'told'), 'gone', 'sheets'),
    ],
    { broken: ['case_entries'] },
  );
  const sheetFiles = [
    { file: 'recovered-2/0001.json', at: newer, id: 'a', body: bodyOf('a', 'written second') },
    { file: 'recovered-1/0001.json', at: older, id: 'a', body: bodyOf('a', 'written first') },
    { file: 'recovered-1/0002.json', at: older, id: 'b', body: bodyOf('b', 'before it was told') },
  ];
  const found = gathered(damaged, { sheetFiles });
  expect([found.sheets.get('a'), found.sheets.get('b')]).toEqual([
    sheetAgain('a', newer, 'written second'),
    sheetAgain('b', time('2026-02-25'), 'told'),
  ]);
  expect(found.from).toEqual([
    { what: 'sheet', of: 'a', source: { file: 'recovered-2/0001.json', at: newer }, saved: newer },
    { what: 'sheet', of: 'b', source: 'history', saved: time('2026-02-25') },
  ]);
});

test('[P3] a file written aside later than the newest copy there is of a sheet is the newer state', () => {
  const damaged = damagedOf(but(caseOf('a', 1, '2026-02-01'), 'gone', 'sheets'));
  const sheetFiles = [{ file: 'recovered-2/0001.json', at: newer, id: 'a', body: bodyOf('a', 'written later') }];
  expect(gathered(damaged, { sheetFiles, backups: [backupOf(older, caseOf('a', 1, '2026-02-20'))] }).sheets.get('a')).toEqual(
    sheetAgain('a', newer, 'written later'),
  );
});

test('[P3] a file that says what another copy says does not make that newer than it is; one without a time goes behind all others', () => {
  const damaged = damagedOf(but(caseOf('a', 1, '2026-02-01'), 'gone', 'sheets'));
  const same = gathered(damaged, { sheetFiles: [{ file: 'recovered-2/0001.json', at: newer, id: 'a', body: bodyOf('a') }] });
  expect(same.from).toEqual([{ what: 'sheet', of: 'a', source: 'history', saved: time('2026-02-01') }]);
  const timeless = { file: 'recovered-x/0001.json', at: null, id: 'a', body: bodyOf('a', 'of no time') };
  expect(gathered(damaged, { sheetFiles: [timeless] }).from).toEqual(same.from);
  const alone = damagedOf([], { broken: ['sheets', 'cases', 'case_details', 'case_entries'], numbers: [] });
  const found = gathered(alone, { sheetFiles: [timeless] });
  expect(found.sheets.get('a')).toEqual(sheetAgain('a', '', 'of no time'));
  expect(found.from).toEqual([{ what: 'sheet', of: 'a', source: { file: 'recovered-x/0001.json', at: null }, saved: '' }]);
});

test('[P3] a sheet of which nothing gives a state is lost, and told by its title, its number and whose it is, as far as any can be read', () => {
  const damaged = damagedOf([
    ...torn('sheets', { id: 'a', origin: 'own', title: 'Unit a' }, { id: 'b', origin: 'own' }, { id: null, origin: null }),
    ...kept('cases', head('a', 12, '2026-02-01'), head('c', 3, '2026-02-01')),
    ...kept(
      'case_details',
      words('a', 1, '2026-02-01', 'Customer 1'),
      words('a', 2, '2026-02-03', 'Customer 2'),
      words('c', 1, '2026-02-01'),
    ),
  ]);
  const found = gathered(damaged);
  expect(found.sheets.size).toBe(0);
  expect(found.from).toEqual([]);
  expect(found.lost).toEqual([
    { what: 'sheet', id: 'a', known: 'Unit a, case A-2026-0012, for Customer 2' },
    { what: 'sheet', id: 'b', known: '' },
    { what: 'sheet', id: 'c', known: 'case A-2026-0003' },
  ]);
});

test.each([
  ['the list of cases', kept('cases', head('a', 1, '2026-02-01'))],
  ['a row of its words', kept('case_details', words('a', 1, '2026-02-01'))],
  ['what is left of a row of its words', torn('case_details', { sheet: 'a', n: 1 })],
  ['what is left of an entry', torn('case_entries', { sheet: 'a', n: 1 })],
])('[P3] a sheet told only by %s is lost, and is not passed over', (_, rows) => {
  const damaged = damagedOf(rows, { broken: ['sheets'], numbers: [] });
  expect(gathered(damaged).lost.filter(({ what }) => what === 'sheet')).toMatchObject([{ id: 'a' }]);
});

test('[P3] a sheet only the index of case numbers still names is lost, and is not passed over', () => {
  const damaged = damagedOf([], {
    broken: ['sheets', 'cases', 'case_details', 'case_entries', 'case_photos'],
    numbers: [{ year: 2026, number: 5, sheet: 'a' }],
  });
  expect(gathered(damaged).lost).toEqual([{ what: 'sheet', id: 'a', known: '' }]);
  // It may be from before entries were kept: that a whole history has none of it says nothing.
  const entryless = damagedOf([], { broken: ['sheets', 'cases', 'case_details'], numbers: [{ year: 2026, number: 5, sheet: 'a' }] });
  expect(gathered(entryless).lost).toEqual([{ what: 'sheet', id: 'a', known: '' }]);
  // A whole index says no less of it.
  const rows = caseOf('a', 5, '2026-02-01');
  const indexWhole = damagedOf(but(rows, 'gone', 'sheets', 'cases', 'case_details', 'case_entries'));
  expect(gathered(indexWhole).lost).toEqual([{ what: 'sheet', id: 'a', known: '' }]);
  expect([...gathered(indexWhole, { backups: [backupOf(newer, rows)] }).sheets.keys()]).toEqual(['a']);
});

test('[P3] what is left of the index of case numbers does not bring back a sheet that a whole list of cases no longer names', () => {
  const gone = { year: 2026, number: 5, sheet: 'gone' };
  const damaged = damagedOf(caseOf('a', 1, '2026-02-01'), { broken: ['sheets'], numbers: [gone, { year: 2026, number: 1, sheet: 'a' }] });
  const found = gathered(damaged, { backups: [backupOf(newer, caseOf('gone', 5, '2026-02-01'))] });
  expect([...found.sheets.keys()]).toEqual(['a']);
  expect(found.lost).toEqual([]);
});

const broken = (...whole: readonly string[]) => ({
  broken: ['sheets', 'cases', 'case_details', 'case_entries', 'case_photos'].filter((table) => !whole.includes(table)),
});
test.each([
  ['the list of sheets', broken('sheets'), true, true],
  ['the list of cases', broken('cases'), true, false],
  ['the words of cases, as every case has some', broken('case_details'), true, false],
  ['the history of cases', broken('case_entries'), false, false],
])('[P3] what %s, being whole, no longer has was removed, and does not come back from a copy', (_, further, fileToo, bare) => {
  const damaged = damagedOf(caseOf('a', 1, '2026-02-01'), { ...further, numbers: [] });
  const rows = caseOf('b', 2, '2026-02-01');
  const backups = [backupOf(newer, rows)];
  expect([...gathered(damaged, { backups }).sheets.keys()]).toEqual(['a']);
  const file = { file: 'recovered-1/0001.json', at: newer, id: 'b', body: bodyOf('b') };
  expect([...gathered(damaged, { sheetFiles: [file] }).sheets.keys()]).toEqual(['a']);
  // Saved before there were cases, or before entries were kept: their not being there says nothing of it.
  const entryless = backupOf(newer, without(rows, 'case_entries'));
  expect([...gathered(damaged, { backups: [entryless] }).sheets.keys()]).toEqual(fileToo ? ['a'] : ['a', 'b']);
  const caseless = backupOf(newer, kept('sheets', sheet('b', '2026-02-01')));
  expect([...gathered(damaged, { backups: [caseless] }).sheets.keys()]).toEqual(bare ? ['a'] : ['a', 'b']);
});

test('[P3] what no whole index of case numbers has was removed; where that is not whole either, it comes back', () => {
  const rows = caseOf('a', 1, '2026-02-01');
  const backups = [backupOf(newer, caseOf('b', 2, '2026-02-01'))];
  expect([...gathered(damagedOf(rows, broken()), { backups }).sheets.keys()]).toEqual(['a']);
  expect([...gathered(damagedOf(rows, { ...broken(), numbers: [] }), { backups }).sheets.keys()]).toEqual(['a', 'b']);
});

test('[P3] a sheet that is not removed comes back from a copy, though every row of it in the damaged file is only half there', () => {
  const b = caseOf('b', 2, '2026-02-01');
  const halves = [
    ...torn('sheets', { id: 'b', origin: 'own' }),
    ...torn('cases', { sheet: 'b', year: 2026, number: 2 }),
    ...torn('case_details', { sheet: 'b', n: 1 }),
    ...torn('case_entries', { sheet: 'b', n: 1 }),
  ];
  const found = gathered(damagedOf(halves), { backups: [backupOf(newer, b)] });
  expect(found.sheets.get('b')).toEqual(sheet('b', '2026-02-01'));
  expect(found.from.map(({ what }) => what)).toEqual(['sheet', 'case number', 'words', 'entry']);
  expect(found).toMatchObject({ lost: [], numberless: [], strayRows: [] });
});

describe('rows on pages nothing leads to', () => {
  const a = caseOf('a', 1, '2026-02-01');

  test('[P3] they are taken where no whole table, and no whole index, says they were removed', () => {
    const found = gathered(damagedOf(but(a, 'loose', 'sheets', 'cases', 'case_details', 'case_entries'), { numbers: [] }));
    expect(found.sheets.get('a')).toEqual(sheet('a', '2026-02-01'));
    expect(found.lost).toEqual([]);
  });

  test.each(['cases', 'case_details', 'case_entries'])(
    '[P3] one of %s brings back no sheet that a whole list of sheets does not have',
    (table) => {
      const rows = [...caseOf('b', 2, '2026-02-01'), ...but(a, 'loose', table).filter((one) => one.table === table)];
      const found = gathered(damagedOf(rows, { numbers: [] }));
      expect([...found.sheets.keys()]).toEqual(['b']);
      expect(found.lost).toEqual([]);
    },
  );

  test('[P3] one of the history brings back no sheet of which a whole list of cases has nothing, nor one of the words', () => {
    for (const table of ['case_details', 'case_entries']) {
      const rows = [...caseOf('b', 2, '2026-02-01'), ...but(a, 'loose', table).filter((one) => one.table === table)];
      const found = gathered(damagedOf(rows, { broken: ['sheets'], numbers: [] }));
      expect([...found.sheets.keys()], table).toEqual(['b']);
      expect(found.lost).toEqual([]);
      // Nor where the last case of the shop was removed.
      const none = rows.filter(({ row }) => row.sheet === 'a');
      expect([...gathered(damagedOf(none, { broken: ['sheets'], numbers: [] })).sheets.keys()], table).toEqual([]);
    }
  });

  test('[P3] one of sheets is none of the shop’s any more where a whole list of cases does not have it', () => {
    const rows = [...caseOf('b', 2, '2026-02-01'), ...loose('sheets', sheet('a', '2026-02-01'))];
    const found = gathered(damagedOf(rows));
    expect([...found.sheets.keys()]).toEqual(['b']);
    // In an atlas from before there were cases nothing says so.
    const before = gathered(damagedOf(loose('sheets', sheet('a', '2026-02-01')), { numbers: [] }));
    expect([...before.sheets.keys()]).toEqual(['a']);
  });

  test('[P3] the words of a case of which a whole history has nothing count: it may be from before there were any', () => {
    const rows = but(a, 'loose', 'sheets', 'cases', 'case_details').filter(({ table }) => table !== 'case_entries');
    expect([...gathered(damagedOf(rows, { numbers: [] })).sheets.keys()]).toEqual(['a']);
  });
});
