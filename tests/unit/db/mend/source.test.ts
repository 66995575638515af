import { copyFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { Connection } from '../../../../db/driver/connection.ts';
import { numbersIndex, photosIndex } from '../../../../db/mend/layouts.ts';
import { openSource } from '../../../../db/mend/source.ts';
import type { SalvagedRow } from '../../../../db/salvage/salvage.ts';
import { photoIdOf } from '../../../../db/shop/case-photos.ts';
import { freshFolder } from '../kit.ts';
import { jpeg, png } from '../photos/pictures.ts';
import { at, editPage, emptyStoreFirst, fileOf, photoRow, sheetRow, sourcesOf } from './small-file.ts';

const empty = emptyStoreFirst();
const sourceOf = sourcesOf(empty);

const words = (n: number, notes: string, when = at): SalvagedRow => ({
  sheet: 'own-1',
  n,
  at: when,
  customer: 'Aalis',
  looked_by: 'Osk',
  notes,
  who: '',
});
const course = (id: string, name: string): SalvagedRow => ({ id, name, families: null, kinds: null, new_per_day: 4 });
const later = '2026-03-05T12:00:00.000Z';
const to =
  (from: string, into: string) =>
  (page: string): string =>
    page.replaceAll(from, into);

describe('tables of a file', () => {
  test('[P3] of a sound one every row is taken by its key, and nothing else is there', async () => {
    const file = await fileOf(empty, {
      sheets: [sheetRow('own-1'), sheetRow('own-2')],
      case_details: [words(1, 'Oil.'), words(2, 'Soot.')],
    });
    const source = sourceOf(file, at);
    expect([source.file, source.at, sourceOf(file).at]).toEqual([file, at, null]);
    expect(source.table('sheets')).toEqual({
      rows: new Map([
        ['["own-1","own"]', { row: sheetRow('own-1'), loose: false }],
        ['["own-2","own"]', { row: sheetRow('own-2'), loose: false }],
      ]),
      torn: [],
      complete: true,
    });
    expect([...source.table('case_details').rows]).toEqual([
      ['["own-1",1]', { row: words(1, 'Oil.'), loose: false }],
      ['["own-1",2]', { row: words(2, 'Soot.'), loose: false }],
    ]);
    expect(source.table('courses')).toEqual({ rows: new Map(), torn: [], complete: true });
    // Read once: an atlas may be large.
    expect(source.table('sheets')).toBe(source.table('sheets'));
    expect(source.photos).toBe(source.photos);
  });

  test('[P3] samples come with their packs: they are neither rows of the shop’s own nor torn ones', async () => {
    const sample = { ...sheetRow('found-01'), origin: 'sample', pack: 'small', saved_at: null };
    const source = sourceOf(await fileOf(empty, { sheets: [sample, sheetRow('own-1')] }));
    const { rows, torn, complete } = source.table('sheets');
    expect([[...rows.keys()], torn, complete]).toEqual([['["own-1","own"]'], [], true]);
    // A course of that word is a course.
    const learner = { id: 'wenna', name: 'Wenna', course: null, since: at, n: 1 };
    expect([
      ...sourceOf(await fileOf(empty, { learners: [learner] }))
        .table('learners')
        .rows.values(),
    ]).toEqual([{ row: { ...learner, level: 'measured' }, loose: false }]);
  });

  test('[P3] a row that can be read and is none is torn, and its table is not complete though its pages are', async () => {
    const none = { ...sheetRow('own-2'), title: 'Another unit' };
    const source = sourceOf(await fileOf(empty, { sheets: [sheetRow('own-1'), none] }));
    const { rows, torn, complete } = source.table('sheets');
    expect([[...rows.keys()], torn, complete]).toEqual([['["own-1","own"]'], [none], false]);
    expect(source.isComplete('sheets')).toBe(true);
    expect(source.table('case_details').complete).toBe(true);
  });

  test('[P3] a row that cannot be read whole is torn, with what can be read of it', async () => {
    const file = await fileOf(empty, { case_details: [words(1, 'Oil at the seal.'), words(2, 'Soot.')] });
    editPage(file, 'Oil at the seal.', to('Oil at the seal.', 'Oil at\0the seal.'));
    const source = sourceOf(file);
    const { rows, torn, complete } = source.table('case_details');
    expect([...rows.keys()]).toEqual(['["own-1",2]']);
    expect(torn).toEqual([{ ...words(1, ''), notes: undefined }]);
    expect([complete, source.isComplete('case_details')]).toEqual([false, false]);
    expect([...source.rowsOf('case_details')]).toEqual([words(2, 'Soot.')]);
  });

  test('[P3] a table whose pages are gone is not complete, though nothing of it is torn', async () => {
    const file = await fileOf(empty, { case_details: [words(1, 'Oil at the seal.')] });
    editPage(file, 'Oil at the seal.', 'wipe');
    expect(sourceOf(file).table('case_details')).toEqual({ rows: new Map(), torn: [], complete: false });
  });
});

describe('rows on pages nothing leads to', () => {
  test('[P3] they are taken where their table is not whole, and a row that is led to goes before one that is not', async () => {
    const file = await fileOf(empty, { case_details: [words(1, 'Oil at the seal.'), words(2, 'Soot.'), words(3, 'Cleaned.')] });
    editPage(file, 'Soot.', to('Oil at the seal.', 'Oil at\0the seal.'), [to(at, later)]);
    const { rows, torn } = sourceOf(file).table('case_details');
    expect([...rows]).toEqual([
      ['["own-1",2]', { row: words(2, 'Soot.'), loose: false }],
      ['["own-1",3]', { row: words(3, 'Cleaned.'), loose: false }],
      ['["own-1",1]', { row: words(1, 'Oil at the seal.', later), loose: true }],
    ]);
    expect(torn.length).toBe(1);
  });

  test('[P3] where the table is whole they were removed, and are not taken', async () => {
    const file = await fileOf(empty, { case_details: [words(1, 'Oil at the seal.')] });
    editPage(file, 'Oil at the seal.', null, [to('Oil at the seal.', 'Soot everywhere!')]);
    expect([...sourceOf(file).table('case_details').rows.values()]).toEqual([{ row: words(1, 'Oil at the seal.'), loose: false }]);
  });

  test.each([
    ['the older first', [at, later]],
    ['the newer first', [later, at]],
  ])('[P3] of two of one key the newer is taken, %s', async (_, [first = '', second = '']) => {
    const file = await fileOf(empty, { sheets: [sheetRow('own-1')] });
    editPage(file, 'Unit own-1', 'wipe', [to(at, first), to(at, second)]);
    expect([...sourceOf(file).table('sheets').rows.values()]).toEqual([{ row: sheetRow('own-1', undefined, later), loose: true }]);
  });

  test('[P3] of two written at one time, or of which no time is kept, the first is taken', async () => {
    const file = await fileOf(empty, { sheets: [sheetRow('own-1')], courses: [course('first-week', 'First week')] });
    editPage(file, 'Unit own-1', 'wipe', [to('Unit own-1', 'Unit own-a'), to('Unit own-1', 'Unit own-b')]);
    editPage(file, 'First week', 'wipe', [to('First week', 'A week one'), to('First week', 'Week alone')]);
    const source = sourceOf(file);
    expect([...source.table('sheets').rows.values()].map(({ row }) => row.title)).toEqual(['Unit own-a']);
    expect([...source.table('courses').rows.values()].map(({ row }) => row.name)).toEqual(['A week one']);
  });

  test('[P3] only rows of the shop are told by what they look like: packs are taken as their tree leads to them', async () => {
    const pack = { id: 'small', position: 1, edition: '2026-03-02', title: 'Small', hash: 'a'.repeat(64), loaded_at: at };
    const layout = empty.layouts.find(({ name }) => name === 'packs');
    const row = Object.fromEntries((layout?.columns ?? []).map((column) => [column, (pack as SalvagedRow)[column] ?? 'none']));
    const file = await fileOf(empty, { packs: [row], sheets: [sheetRow('own-1')] });
    expect([...sourceOf(file).rowsOf('packs')]).toEqual([row]);
    editPage(file, '2026-03-02', 'wipe', [to('2026-03-02', '2026-03-03')]);
    editPage(file, 'Unit own-1', 'wipe', [to('Unit own-1', 'Unit own-a')]);
    const source = sourceOf(file);
    expect([[...source.rowsOf('packs')], source.isComplete('packs')]).toEqual([[], false]);
    // A row that may have been removed is none of a table that is put back as a whole.
    expect([[...source.rowsOf('sheets')], source.table('sheets').rows.size]).toEqual([[], 1]);
  });
});

describe('indexes', () => {
  const head = (sheet: string, number: number): SalvagedRow => ({ sheet, year: 2026, number, opened_on: '2026-03-04', letter: 'B' });
  const shownIn = (sheet: string, photo: string): SalvagedRow => ({
    sheet,
    photo,
    added_at: at,
    caption: '',
    about_slot: null,
    about_observation: null,
    n: 1,
  });

  test('[P3] they say of a case its number with its letter, and of a photograph its case, but for rows that say neither', async () => {
    const photo = photoIdOf(jpeg);
    const file = await fileOf(empty, {
      cases: [head('own-1', 1), head('own-2', 0), { ...head('own-3', 3), letter: 'I' }],
      case_photos: [
        shownIn('own-1', photo),
        shownIn('own-2', photo.toUpperCase()),
        shownIn('own-3', `${photo}0`),
        shownIn('own-4', `0${photo}`),
      ],
    });
    const source = sourceOf(file);
    expect(source.index(numbersIndex)).toEqual([{ letter: 'B', year: 2026, number: 1, sheet: 'own-1' }]);
    expect(source.index(photosIndex)).toEqual([{ photo, sheet: 'own-1' }]);
    expect([source.isComplete(numbersIndex), source.isComplete(photosIndex)]).toEqual([true, true]);
  });

  test('[P3] a photograph or a sheet that stands in one as bytes is none', async () => {
    const photo = photoIdOf(jpeg);
    const file = await fileOf(empty, {
      case_photos: [
        { ...shownIn('own-1', photo), photo: Buffer.from(photo) },
        { ...shownIn('own-2', photo), sheet: Buffer.from('own-2') },
      ],
    });
    expect(sourceOf(file).index(photosIndex)).toEqual([]);
  });

  test('[P3] a row of one that cannot be read whole is not taken', async () => {
    const file = await fileOf(empty, { cases: [head('own-1', 1), head('own-2', 2)] });
    // The index holds no day; the table does.
    for (const _ of ['table', 'index'])
      editPage(file, 'own-2', (page) => (page.includes('2026-03-04') ? to('own-2', 'own-x')(page) : to('own-2', 'own\0-')(page)));
    const source = sourceOf(file);
    expect(source.index(numbersIndex)).toEqual([{ letter: 'B', year: 2026, number: 1, sheet: 'own-1' }]);
    expect(source.isComplete(numbersIndex)).toBe(false);
  });

  test('[P3] rows of a wiped one are found on pages nothing leads to, by what they look like', async () => {
    const photo = photoIdOf(jpeg);
    const file = await fileOf(empty, { case_photos: [shownIn('own-1', photo), shownIn('own-2', 'a picture')] });
    // The index holds no caption and no day of it: it is the page on which the photograph stands before its sheet.
    editPage(file, `${photo}own-1`, 'wipe', [(page) => page]);
    const source = sourceOf(file);
    expect(source.index(photosIndex)).toEqual([{ photo, sheet: 'own-1' }]);
    expect(source.isComplete(photosIndex)).toBe(false);
  });
});

describe('photographs of a file', () => {
  const id = photoIdOf(jpeg);

  test('[P3] each is had with both pictures, read when it is asked for', async () => {
    const source = sourceOf(await fileOf(empty, { photos: [photoRow(), photoRow(png)] }));
    expect([...source.photos.keys()].sort()).toEqual([id, photoIdOf(png)].sort());
    const photo = source.photos.get(id);
    expect([photo?.id, photo?.small, photo?.from, photo?.read()]).toEqual([id, true, undefined, photoRow()]);
  });

  test.each([
    ['is no picture', photoRow(jpeg, Buffer.from('no picture'))],
    ['is cut short', photoRow(jpeg, png.subarray(0, png.length - 12))],
    ['is a text', photoRow(jpeg, 'a text')],
    ['is of no sort', { ...photoRow(), thumbnail_type: 'image/gif' }],
  ])('[P3] one whose small picture %s is had without it', async (_, row) => {
    const photo = sourceOf(await fileOf(empty, { photos: [row] })).photos.get(id);
    expect([photo?.small, photo?.read()]).toEqual([false, { ...photoRow(), thumbnail: null, thumbnail_type: null }]);
  });

  test('[P3] one whose bytes are not those that were saved is none', async () => {
    const file = await fileOf(empty, { photos: [photoRow(), photoRow(png)] });
    editPage(file, 'JFIF', to('JFIF', 'JFIX'));
    expect([...sourceOf(file).photos.keys()]).toEqual([photoIdOf(png)]);
  });

  test('[P3] one whose row is torn beside its bytes is had', async () => {
    const file = await fileOf(empty, { photos: [photoRow()] });
    // The sort of the small picture; that of the photograph is another.
    editPage(file, 'JFIF', to('image/png', 'image\0png'));
    const photo = sourceOf(file).photos.get(id);
    expect([photo?.small, photo?.read()?.bytes]).toEqual([false, jpeg]);
  });

  test('[P3] one on a page nothing leads to is had, though the sort of its small picture is lost', async () => {
    const file = await fileOf(empty, { photos: [{ ...photoRow(), thumbnail_type: 'image/gif' }] });
    editPage(file, 'JFIF', 'wipe', [(page) => page]);
    const photo = sourceOf(file).photos.get(id);
    expect([photo?.small, photo?.read()]).toEqual([false, { ...photoRow(), thumbnail: null, thumbnail_type: null }]);
  });

  test('[P3] of two with one hash the one that is led to is taken', async () => {
    const file = await fileOf(empty, { photos: [photoRow(), photoRow(png, jpeg)] });
    // The other photograph is torn, so that pages nothing leads to are looked through; there this one has no small picture.
    editPage(file, 'JFIF', to(photoIdOf(png), `\0${photoIdOf(png).slice(1)}`), [to(png.toString('latin1'), 'x'.repeat(png.length))]);
    const { photos } = sourceOf(file);
    expect(photos.get(id)?.small).toBe(true);
  });
});

describe('the file itself', () => {
  test('[P3] what is committed in its log counts as what stands in it', async () => {
    const file = await fileOf(empty, { case_details: [words(1, 'Oil.')] });
    const connection = await Connection.open(file, { mode: 'write', busyMs: 200 });
    await connection.script('pragma journal_mode = wal; pragma foreign_keys = off');
    await connection.run('update case_details set notes = ?', ['Soot in the log.']);
    const copy = join(freshFolder(), 'copy.sqlite');
    copyFileSync(file, copy);
    copyFileSync(`${file}-wal`, `${copy}-wal`);
    await connection.close();
    expect([...sourceOf(copy).table('case_details').rows.values()].map(({ row }) => row.notes)).toEqual(['Soot in the log.']);
  });

  test('[P3] a log that cannot be read is said, and not taken for none; so is a file that is not there', async () => {
    const file = await fileOf(empty, { case_details: [words(1, 'Oil.')] });
    mkdirSync(`${file}-wal`);
    expect(() => sourceOf(file)).toThrow(/EISDIR/);
    expect(() => sourceOf(`${file}-none`)).toThrow(/ENOENT/);
  });

  test('[P3] larger than is read at a time, and than ends with a page', async () => {
    const many = Array.from({ length: 300 }, (_, n) => words(n + 1, `${n} ${'Oil at the seal. '.repeat(300)}`));
    const file = await fileOf(empty, { case_details: many });
    const source = sourceOf(file);
    const found = [...source.table('case_details').rows.values()].map(({ row }) => row);
    expect(found.sort((a, b) => Number(a.n) - Number(b.n))).toEqual(many);
    expect(source.table('case_details').complete).toBe(true);
  });

  test('[P3] it is let go of once', async () => {
    const source = openSource(await fileOf(empty, { sheets: [sheetRow('own-1')] }), null, empty.layouts);
    source.close();
    expect(() => source.close()).toThrow(/EBADF/);
  });
});
