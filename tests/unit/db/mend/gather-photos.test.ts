import { expect, test } from 'vitest';
import { backupOf, but, caseOf, damagedOf, gathered, inBackup, kept, photo, shown } from './sources-of.ts';

const [older, newer] = ['2026-02-20T20:00:00.000Z', '2026-02-27T20:00:00.000Z'] as const;
const a = caseOf('a', 1, '2026-02-01');
const b = caseOf('b', 2, '2026-02-01');
const nose = photo(1);
const noseOnly = photo(1, false);
const place = kept('case_photos', shown('a', nose, '2026-02-03'));
const rows = [...a, ...place];
const copy = (at: string, ...photos: readonly ReturnType<typeof photo>[]) => backupOf(at, rows, { photos });
const smallLost = { what: 'small picture', id: nose.id, known: 'the nose' };

test('[P3] a photograph that is whole with its small picture is taken, whatever copies have, and one no case shows is not', () => {
  const other = photo(2);
  const found = gathered(damagedOf(rows, { photos: [nose, other] }), { backups: [copy(newer, photo(1))] });
  expect([...found.photos.keys()]).toEqual([nose.id]);
  expect(found.photos.get(nose.id)).toBe(nose);
  // A whole list of which photographs cases show says that it was taken away.
  expect(found).toMatchObject({ from: [], lost: [], strayPhotos: [] });
});

test('[P3] one that two cases show is taken once, and where it is lost that is said once', () => {
  const both = [...rows, ...b, ...kept('case_photos', shown('b', nose, '2026-02-04', 'again'))];
  const held = gathered(damagedOf(both), { backups: [copy(newer, nose)] });
  expect(held.from).toEqual([{ what: 'photograph', of: nose.id, source: inBackup(newer), saved: null }]);
  expect(held.rows.get('case_photos')).toHaveLength(2);
  const lost = gathered(damagedOf(both));
  expect(lost.lost).toEqual([{ what: 'photograph', id: nose.id, known: 'the nose, in the case of sheet a' }]);
  expect(lost.rows.get('case_photos'), 'and no case shows what is not there').toEqual([]);
  expect(lost.photos.size).toBe(0);
});

test('[P3] one of two is lost: the other is shown still; without a caption the case says which it was', () => {
  const wheel = photo(2);
  const damaged = damagedOf([...a, ...kept('case_photos', shown('a', nose, '2026-02-03', ''), shown('a', wheel, '2026-02-03'))], {
    photos: [wheel],
  });
  const found = gathered(damaged);
  expect(found.lost).toEqual([{ what: 'photograph', id: nose.id, known: 'in the case of sheet a' }]);
  expect(found.rows.get('case_photos')).toEqual([shown('a', wheel, '2026-02-03')]);
  expect(found.photos).toEqual(new Map([[wheel.id, wheel]]));
});

test('[P3] a photograph that is gone comes from the newest backup that has it with its small picture, else from one without', () => {
  const [second, third, without] = [photo(1), photo(1), photo(1, false)];
  const from = (backups: Parameters<typeof gathered>[1]) => gathered(damagedOf(rows), backups);
  const found = from({ backups: [copy(newer, without), copy('2026-02-25T20:00:00.000Z', second), copy(older, third)] });
  expect(found.photos.get(nose.id)).toBe(second);
  expect(found.from).toEqual([{ what: 'photograph', of: nose.id, source: inBackup('2026-02-25T20:00:00.000Z'), saved: null }]);
  expect(found.lost).toEqual([]);
  const poor = from({ backups: [copy(newer), copy('2026-02-25T20:00:00.000Z', without), copy(older, photo(1, false))] });
  expect(poor.photos.get(nose.id)).toBe(without);
  expect(poor.from).toEqual([{ what: 'photograph', of: nose.id, source: inBackup('2026-02-25T20:00:00.000Z'), saved: null }]);
  expect(poor.lost).toEqual([smallLost]);
});

test('[P3] a photograph without its small picture is taken from a backup that has both; from one that has not either, it is not', () => {
  const damaged = damagedOf(rows, { photos: [noseOnly] });
  const both = gathered(damaged, { backups: [copy(newer, photo(1, false)), copy(older, nose)] });
  expect(both.photos.get(nose.id)).toBe(nose);
  expect(both.from).toEqual([{ what: 'photograph', of: nose.id, source: inBackup(older), saved: null }]);
  expect(both.lost).toEqual([]);
  const neither = gathered(damaged, {
    backups: [copy(newer, photo(1, false))],
    photoFiles: [photo(1, false, { file: 'x.jpg', at: null })],
  });
  expect(neither.photos.get(nose.id)).toBe(noseOnly);
  expect(neither).toMatchObject({ from: [], lost: [smallLost] });
});

test('[P3] a photograph is asked of backups though every table is whole but its own', () => {
  const found = gathered(damagedOf(rows, { broken: ['photos'] }), { backups: [copy(newer, nose)] });
  expect(found.rows.has('photos'), 'but not with the rows: its pictures are read when they are wanted').toBe(false);
  expect(found.photos.get(nose.id)).toBe(nose);
  expect(found.incomplete).toEqual(['photos']);
});

test('[P3] one that was written aside by an earlier mending is taken from there where no atlas has it, and told so', () => {
  const source = { file: 'photographs/nose.jpg', at: older };
  const written = photo(1, false, source);
  const found = gathered(damagedOf(rows), { photoFiles: [written] });
  expect(found.photos.get(nose.id)).toBe(written);
  expect(found.from).toEqual([{ what: 'photograph', of: nose.id, source, saved: null }]);
  expect(found.lost).toEqual([smallLost]);
  const inCopy = gathered(damagedOf(rows), { backups: [copy(newer, noseOnly)], photoFiles: [written] });
  expect(inCopy.from).toMatchObject([{ source: inBackup(newer) }]);
});

test('[P3] where it cannot be told which photographs cases show, those nobody’s case shows any more are kept as files', () => {
  const other = photo(2);
  const found = gathered(damagedOf(rows, { photos: [nose, other], broken: ['case_photos'], shown: [] }));
  expect(found.strayPhotos).toEqual([other]);
  expect([...found.photos.keys()]).toEqual([nose.id]);
});

test('[P3] the photograph of a sheet that is lost is kept as a file with what else was of it, though it can be told whose it was', () => {
  const wheel = photo(2);
  const lost = but(caseOf('gone', 3, '2026-02-01'), 'gone', 'sheets', 'case_entries');
  const damaged = damagedOf([...rows, ...lost, ...kept('case_photos', shown('gone', wheel, '2026-02-03'))], {
    photos: [nose, wheel, photo(3)],
  });
  const found = gathered(damaged);
  expect(found.lost).toMatchObject([{ what: 'sheet', id: 'gone' }]);
  expect(found.strayPhotos).toEqual([wheel]);
  // Shown by another case too, it has its place there.
  const both = damagedOf([...rows, ...lost, ...kept('case_photos', shown('gone', nose, '2026-02-03'))], { photos: [nose] });
  expect(gathered(both).strayPhotos).toEqual([]);
});
