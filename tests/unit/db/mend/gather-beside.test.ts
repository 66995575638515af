import { describe, expect, test } from 'vitest';
import type { Gathered } from '../../../../db/mend/gather.ts';
import {
  backupOf,
  but,
  caseOf,
  damagedOf,
  decision,
  entry,
  gathered,
  head,
  inBackup,
  kept,
  loose,
  origin,
  photo,
  sheet,
  shown,
  stamped,
  time,
  torn,
  without,
  words,
} from './sources-of.ts';

const [older, newer] = ['2026-02-20T20:00:00.000Z', '2026-02-27T20:00:00.000Z'] as const;
const [nose, wheel, side] = [photo(1), photo(2), photo(3)];
const of = ({ rows }: Gathered, table: string) => rows.get(table) ?? [];
const a = caseOf('a', 1, '2026-02-01');
const b = caseOf('b', 2, '2026-02-02');

describe('what stands beside a sheet', () => {
  test('[P3] every sort of row is taken with its case, in its place or on a loose page, and nothing is said of those', () => {
    const rows = [
      ...kept('case_words', decision('a', 1, '2026-02-03')),
      ...loose('case_words', decision('a', 2, '2026-02-04')),
      ...loose('case_details', words('a', 2, '2026-02-04', 'Customer 1')),
      ...loose('case_entries', entry('a', 2, '2026-02-04')),
      ...kept('unit_numbers', stamped('a', 1, 'K27-1')),
      ...kept('case_origins', origin('a', 1, '2026-02-03')),
      ...kept('case_photos', shown('a', nose, '2026-02-03')),
    ];
    const found = gathered(damagedOf([...a, ...rows], { photos: [nose] }));
    expect(of(found, 'case_words')).toEqual([decision('a', 1, '2026-02-03'), decision('a', 2, '2026-02-04')]);
    expect(of(found, 'case_details')).toEqual([words('a', 1, '2026-02-01'), words('a', 2, '2026-02-04', 'Customer 1')]);
    expect(of(found, 'case_entries')).toEqual([entry('a', 1, '2026-02-01'), entry('a', 2, '2026-02-04')]);
    expect(of(found, 'unit_numbers')).toEqual([stamped('a', 1, 'K27-1')]);
    expect(of(found, 'case_origins')).toEqual([origin('a', 1, '2026-02-03')]);
    expect(of(found, 'case_photos')).toEqual([shown('a', nose, '2026-02-03')]);
    expect([...found.rows.keys()].sort(), 'each once, and sheets apart').toEqual([
      'case_counts',
      'case_details',
      'case_entries',
      'case_origins',
      'case_photos',
      'case_words',
      'cases',
      'unit_numbers',
    ]);
    expect(found).toMatchObject({ from: [], lost: [], strayRows: [], incomplete: ['case_details', 'case_entries', 'case_words'] });
  });

  test('[P3] what its table no longer gives comes from a backup, row by row, the newest that has it, and each is told as what it is', () => {
    const all = [
      ...a,
      ...kept('case_words', decision('a', 1, '2026-02-03')),
      ...kept('unit_numbers', stamped('a', 1, 'K27-1')),
      ...kept('case_origins', origin('a', 1, '2026-02-03')),
      ...kept('case_photos', shown('a', nose, '2026-02-03')),
    ];
    const beside = ['case_details', 'case_entries', 'case_words', 'unit_numbers', 'case_origins', 'case_photos'];
    const damaged = damagedOf([...but(all, 'gone', ...beside), ...kept('case_details', words('a', 3, '2026-02-09'))], { photos: [nose] });
    const two = kept('case_details', words('a', 2, '2026-02-04'));
    const again = kept('case_details', words('a', 3, '2026-02-08', 'not as it is now'));
    const found = gathered(damaged, { backups: [backupOf(newer, [...all, ...again]), backupOf(older, [...all, ...two])] });
    expect(of(found, 'case_details')).toEqual([words('a', 3, '2026-02-09'), words('a', 1, '2026-02-01'), words('a', 2, '2026-02-04')]);
    expect(of(found, 'case_photos')).toEqual([shown('a', nose, '2026-02-03')]);
    const source = inBackup(newer);
    expect(found.from).toEqual([
      { what: 'words', of: 'a', source, saved: time('2026-02-01') },
      { what: 'words', of: 'a', source: inBackup(older), saved: time('2026-02-04') },
      { what: 'entry', of: 'a', source, saved: time('2026-02-01') },
      { what: 'decision', of: 'a', source, saved: time('2026-02-03') },
      { what: 'row', of: 'a', source, saved: null },
      { what: 'row', of: 'a', source, saved: time('2026-02-03') },
      { what: 'place of a photograph', of: 'a', source, saved: time('2026-02-03') },
    ]);
    expect(found).toMatchObject({ lost: [], numberless: [], strayRows: [], strayPhotos: [] });
  });

  test.each([
    ['case_words', decision('a', 1, '2026-02-03')],
    ['unit_numbers', stamped('a', 1, 'K27-1')],
    ['case_origins', origin('a', 1, '2026-02-03')],
  ])(
    '[P3] where %s alone is damaged, and sheets, cases, words and history are whole, its rows come from a backup all the same',
    (table, row) => {
      const found = gathered(damagedOf(a, { broken: [table] }), { backups: [backupOf(newer, [...a, ...kept(table, row)])] });
      expect(of(found, table)).toEqual([row]);
      expect(found.from).toMatchObject([{ of: 'a', source: inBackup(newer) }]);
      expect(found.incomplete).toEqual([table]);
    },
  );

  test('[P3] what a whole table no longer has was taken away, and does not come back, whichever other table is damaged', () => {
    const more = [
      ...kept('case_details', words('a', 2, '2026-02-04')),
      ...kept('case_words', decision('a', 1, '2026-02-03')),
      ...kept('case_photos', shown('a', nose, '2026-02-03')),
    ];
    const found = gathered(damagedOf(a, { broken: ['sheets', 'case_entries'], shown: [{ photo: nose.id, sheet: 'a' }] }), {
      backups: [backupOf(newer, [...a, ...more], { photos: [nose] })],
    });
    expect([of(found, 'case_details').length, of(found, 'case_words'), of(found, 'case_photos')]).toEqual([1, [], []]);
    expect(found).toMatchObject({ from: [], lost: [] });
  });

  test('[P3] a backup’s case of the same id under another number is of a sheet that was removed: nothing of it goes with this one', () => {
    const damaged = damagedOf(a, { broken: ['case_details'] });
    const more = kept('case_details', words('a', 2, '2026-01-04', 'Customer 9'));
    const from = (rows: typeof a) => gathered(damaged, { backups: [backupOf(newer, rows)] }).from.length;
    expect(from([...a, ...more])).toBe(1);
    const another = [...without(a, 'cases'), ...kept('cases', head('a', 7, '2026-02-01')), ...more];
    expect(from(another)).toBe(0);
    const otherYear = [...without(a, 'cases'), ...kept('cases', head('a', 1, '2025-02-01')), ...more];
    expect(from(otherYear)).toBe(0);
    // Where either number is not known, nothing says that it is another.
    expect(from([...but(a, 'gone', 'cases'), ...more])).toBe(1);
    const numberless = damagedOf([...but(a, 'gone', 'cases')], { broken: ['case_details'], numbers: [] });
    expect(gathered(numberless, { backups: [backupOf(newer, more)] }).from).toMatchObject([{ what: 'words' }]);
  });

  test('[P3] a backup gives nothing of a sheet that is not there, nor of one without a case', () => {
    const damaged = damagedOf([...a, ...kept('sheets', sheet('bare', '2026-02-01'))], { broken: ['case_details'] });
    const found = gathered(damaged, { backups: [backupOf(newer, [...a, ...b, ...kept('case_details', words('bare', 1, '2026-02-01'))])] });
    expect(of(found, 'case_details')).toEqual([words('a', 1, '2026-02-01')]);
    expect(found).toMatchObject({ from: [], lost: [], strayRows: [], numberless: [] });
  });

  test('[P3] a case of which a decision alone can be read is a case, and keeps it', () => {
    const rows = [...kept('sheets', sheet('a', '2026-02-01')), ...kept('case_words', decision('a', 1, '2026-02-03'))];
    const found = gathered(damagedOf(rows, { broken: ['cases', 'case_details', 'case_entries'], numbers: [] }));
    expect(of(found, 'case_words')).toEqual([decision('a', 1, '2026-02-03')]);
    expect(found).toMatchObject({ numberless: ['a'], strayRows: [], lost: [{ what: 'case number', id: 'a' }] });
  });

  test('[P3] rows of a sheet of which no state can be read are kept apart, and told by their table', () => {
    const rows = [...b, ...kept('case_details', words('a', 1, '2026-02-01')), ...loose('case_words', decision('a', 1, '2026-02-03'))];
    const found = gathered(damagedOf([...rows, ...kept('case_photos', shown('a', nose, '2026-02-03'))], { broken: ['sheets'] }));
    expect(found.strayRows).toEqual([
      { table: 'case_details', row: words('a', 1, '2026-02-01') },
      { table: 'case_words', row: decision('a', 1, '2026-02-03') },
      { table: 'case_photos', row: shown('a', nose, '2026-02-03') },
    ]);
    expect(found.lost).toEqual([{ what: 'sheet', id: 'a', known: '' }]);
    expect([of(found, 'case_details'), of(found, 'case_words'), of(found, 'case_photos')]).toEqual([[words('b', 1, '2026-02-02')], [], []]);
  });
});

describe('words that are torn', () => {
  const half = torn('case_details', { sheet: 'a', n: 2 }, { sheet: 'a', n: 3 }, { sheet: 'gone', n: 1 });

  test('[P3] they are lost, which is said once of a case, and of no other', () => {
    const found = gathered(damagedOf([...a, ...b, ...half], { broken: ['sheets'] }));
    expect(found.lost).toEqual([
      { what: 'sheet', id: 'gone', known: '' },
      { what: 'words', id: 'a', known: 'some of what was written on the case' },
    ]);
  });

  test('[P3] they are not lost where a copy has all of them; where it has only some, they are', () => {
    const damaged = damagedOf([...a, ...half.slice(0, 2)]);
    const copy = (...n: readonly number[]) => [
      backupOf(newer, [...a, ...n.flatMap((one) => kept('case_details', words('a', one, '2026-02-05')))]),
    ];
    expect(gathered(damaged, { backups: copy(2, 3) }).lost).toEqual([]);
    expect(gathered(damaged, { backups: copy(2) }).lost).toMatchObject([{ what: 'words', id: 'a' }]);
  });
});

describe('which photographs a case shows', () => {
  const places = kept('case_photos', shown('a', nose, '2026-02-03'), shown('b', wheel, '2026-02-03', 'the wheel'));

  test('[P3] a place that is gone is named by the index: only its caption is lost', () => {
    const savedLater = [...without(b, 'sheets'), ...kept('sheets', sheet('b', '2026-02-20'))];
    const damaged = damagedOf([...a, ...savedLater, ...but(places, 'gone', 'case_photos')], { photos: [nose, wheel] });
    const found = gathered(damaged);
    const place = { caption: '', about_slot: null, about_observation: null };
    expect(of(found, 'case_photos')).toEqual([
      { sheet: 'a', photo: nose.id, added_at: '2026-02-01T00:00:00.000Z', ...place },
      { sheet: 'b', photo: wheel.id, added_at: '2026-02-02T00:00:00.000Z', ...place },
    ]);
    expect(found.from).toEqual([
      { what: 'place of a photograph', of: 'a', source: 'index', saved: null },
      { what: 'place of a photograph', of: 'b', source: 'index', saved: null },
    ]);
    expect(found.lost).toEqual([
      { what: 'place of a photograph', id: nose.id, known: 'its caption, in the case of sheet a' },
      { what: 'place of a photograph', id: wheel.id, known: 'its caption, in the case of sheet b' },
    ]);
    expect([...found.photos.keys()]).toEqual([nose.id, wheel.id]);
  });

  test('[P3] a place with its caption, in the table or in a copy, goes before what the index says of it', () => {
    const damaged = damagedOf([...a, ...b, ...but(places.slice(0, 1), 'gone', 'case_photos'), ...places.slice(1)], {
      photos: [nose, wheel],
    });
    const found = gathered(damaged, { backups: [backupOf(newer, [...a, ...b, ...places])] });
    expect(of(found, 'case_photos')).toEqual([shown('b', wheel, '2026-02-03', 'the wheel'), shown('a', nose, '2026-02-03')]);
    expect(found.from).toEqual([{ what: 'place of a photograph', of: 'a', source: inBackup(newer), saved: time('2026-02-03') }]);
    expect(found.lost).toEqual([]);
  });

  test('[P3] a place the whole index does not name was taken away: it comes back from no loose page, and from no copy', () => {
    const rows = [...a, ...b, ...loose('case_photos', shown('a', nose, '2026-02-03')), ...places.slice(1)];
    const backups = [backupOf(newer, [...a, ...kept('case_photos', shown('a', side, '2026-02-03'))])];
    const photos = [nose, wheel, side];
    const found = gathered(damagedOf(rows, { photos }), { backups });
    expect(of(found, 'case_photos')).toEqual([shown('b', wheel, '2026-02-03', 'the wheel')]);
    expect(found.from).toEqual([]);
    expect(found.strayPhotos, 'kept as files all the same').toEqual([nose, side]);
    // Nothing says so where the index is not whole.
    const without = gathered(damagedOf(rows, { photos, shown: [] }), { backups });
    expect(of(without, 'case_photos').map((row) => row.photo)).toEqual([nose.id, wheel.id, side.id]);
    // A loose page with what the index names is as good as any.
    const named = damagedOf(
      [...a, ...but(places.slice(0, 1), 'gone', 'case_photos'), ...loose('case_photos', shown('a', nose, '2026-02-03'))],
      {
        photos,
      },
    );
    expect(of(gathered(named), 'case_photos')).toEqual([shown('a', nose, '2026-02-03')]);
    expect(gathered(named).lost).toEqual([]);
  });

  test('[P3] what an index that is not whole leaves out is no reason to drop a row in its place', () => {
    const found = gathered(damagedOf([...a, ...places.slice(0, 1)], { photos: [nose], shown: [] }));
    expect(of(found, 'case_photos')).toEqual([shown('a', nose, '2026-02-03')]);
    const stale = gathered(damagedOf([...a, ...places.slice(0, 1)], { photos: [nose], shown: [], stale: true, broken: ['case_photos'] }));
    expect(of(stale, 'case_photos'), 'nor one that is older than its table').toEqual([shown('a', nose, '2026-02-03')]);
  });

  test('[P3] of the words and decisions of a case the index of photographs says nothing', () => {
    const rows = [...a, ...loose('case_details', words('a', 2, '2026-02-04')), ...loose('case_words', decision('a', 1, '2026-02-03'))];
    const found = gathered(damagedOf(rows), { backups: [backupOf(newer, [...a, ...kept('case_details', words('a', 3, '2026-02-05'))])] });
    expect(of(found, 'case_details').map(({ n }) => n)).toEqual([1, 2, 3]);
    expect(of(found, 'case_words')).toHaveLength(1);
  });

  test('[P3] the index gives no place to a sheet that is lost: its photographs are kept as files', () => {
    const rows = [...but(without(a, 'case_entries'), 'gone', 'sheets'), ...b, ...but(places, 'gone', 'case_photos')];
    const found = gathered(damagedOf(rows, { photos: [nose, wheel] }));
    expect(of(found, 'case_photos').map(({ sheet: id }) => id)).toEqual(['b']);
    expect(found.lost.filter(({ what }) => what === 'place of a photograph')).toMatchObject([{ id: wheel.id }]);
    expect(found.strayPhotos).toEqual([nose]);
  });

  test('[P3] a case of which the index of photographs alone is left is one, from the day its sheet was saved', () => {
    const rows = [...kept('sheets', sheet('a', '2026-02-09')), ...but(places.slice(0, 1), 'gone', 'case_photos')];
    const found = gathered(damagedOf(rows, { broken: ['cases', 'case_details', 'case_entries'], numbers: [], photos: [nose] }));
    expect(of(found, 'case_photos')).toMatchObject([{ sheet: 'a', photo: nose.id, added_at: '2026-02-09T00:00:00.000Z' }]);
    expect(found.numberless).toEqual(['a']);
  });
});
