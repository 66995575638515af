import { describe, expect, test } from 'vitest';
import type { Gathered } from '../../../../db/mend/gather.ts';
import { gatheredPutBack } from '../../../../db/mend/put-back.ts';
import { shopTables } from '../../../../db/mend/shop-tables.ts';
import { cleanPhoto } from '../../../../db/photos/clean-photo.ts';
import type { SalvagedRow } from '../../../../db/salvage/salvage.ts';
import { limits } from '../../../../reasoner/plain/limits.ts';
import { png } from '../photos/pictures.ts';
import { gathered, keptPhoto } from './gathered.ts';
import { at, photoRow, sheetRow } from './small-file.ts';

/** What would be written: the table, and the row where it is put as it is. */
const put = (of: Partial<Gathered>): readonly (readonly [string, Readonly<Record<string, unknown>>])[] =>
  [...gatheredPutBack(gathered(of), '2026-03-09')].map(({ sql, params }) => {
    const [, table = sql, names] = /^insert +into "?(\w+)"? \(([^)]*)\)/.exec(sql) ?? [];
    const columns = (names ?? '').split(', ').map((name) => name.replaceAll('"', ''));
    return [table, Object.fromEntries(columns.map((name, index) => [name, params[index]]))];
  });
const rowsOf = (rows: Readonly<Record<string, readonly SalvagedRow[]>>) => new Map(Object.entries(rows));

const words = (sheet: string, n = 1): SalvagedRow => ({ sheet, n, at, customer: 'Aalis', looked_by: '', notes: '', who: '' });
const head = (sheet: string, number: number, opened = '2026-03-04'): SalvagedRow => ({
  sheet,
  year: 2026,
  number,
  opened_on: opened,
  letter: 'A',
});

describe('what was gathered, put into an atlas', () => {
  test('[P3] nothing gathered puts nothing', () => {
    expect(put({})).toEqual([]);
  });

  test('[P3] each row of every table goes in once and as it is, what others refer to before them; what was learnt goes its own way', () => {
    const learnt = ['courses', 'learners', 'drill_cards', 'drill_answers'];
    const names = shopTables.map(({ name }) => name).filter((name) => !['sheets', 'photos'].includes(name));
    const rows = rowsOf({
      ...Object.fromEntries(names.map((name) => [name, [{ of: name }]])),
      cases: [head('own-1', 1)],
      case_details: [words('own-1'), words('own-1', 2)],
    });
    const sheets = new Map([['own-1', sheetRow('own-1')]]);
    const photos = new Map([['a', keptPhoto('a', photoRow())]]);
    expect(put({ rows, sheets, photos })).toEqual([
      ['case_counts', { of: 'case_counts' }],
      ['sheets', sheetRow('own-1')],
      ['cases', head('own-1', 1)],
      ['shop_settings', { of: 'shop_settings' }],
      ['case_origins', { of: 'case_origins' }],
      ['case_details', words('own-1')],
      ['case_details', words('own-1', 2)],
      ['case_entries', { of: 'case_entries' }],
      ['photos', photoRow()],
      ['case_photos', { of: 'case_photos' }],
      ...[
        'case_words',
        'unit_numbers',
        'cases_left',
        'keyring',
        'table_templates',
        'kept_files',
        'documents',
        'stock',
        'shop_prices',
        'samples',
      ].map((of) => [of, { of }]),
    ]);
    expect([...rows.keys()].filter((name) => learnt.includes(name)).length).toBe(4);
  });

  test('[P3] a case whose number is nowhere gets the next of the year of mending, after the sheets and before what is said of cases', () => {
    const rows = rowsOf({
      case_counts: [{ letter: 'A', year: 2025, last: 7 }],
      case_entries: [{ sheet: 'own-1' }],
      case_origins: [{ sheet: 'own-1' }],
    });
    const found = put({ rows, sheets: new Map([['own-1', sheetRow('own-1')]]), numberless: ['own-1'] });
    expect(found.map(([table]) => table)).toEqual([
      'case_counts',
      'sheets',
      'case_origins',
      'case_counts',
      'cases',
      'case_details',
      'case_entries',
    ]);
    const statements = [
      ...gatheredPutBack(
        gathered({ rows: rowsOf({ case_counts: [{ letter: 'A', year: 2025, last: 7 }] }), numberless: ['own-1'] }),
        '2026-03-09',
      ),
    ];
    expect(statements[1]?.params).toEqual([2026, 2026, 2026]);
    expect(statements[2]?.params).toEqual(['own-1', '2026-03-09', 2026]);
  });

  test('[P3] a case whose words are lost has empty ones, from the day it was opened', () => {
    const rows = rowsOf({ cases: [head('own-1', 1, '2026-02-03'), head('own-2', 2)], case_details: [words('own-2', 4)] });
    const details = put({ rows, numberless: ['own-3'] }).filter(([table]) => table === 'case_details');
    expect(details.map(([, row]) => row)).toEqual([
      { sheet: 'own-1', n: 1, at: '2026-02-03T00:00:00.000Z', customer: '', looked_by: '', notes: '' },
      { sheet: 'own-3', n: 1, at: '2026-03-09T00:00:00.000Z', customer: '', looked_by: '', notes: '' },
      words('own-2', 4),
    ]);
  });

  test('[P3] a case whose number is nowhere keeps the words it has', () => {
    const details = put({ rows: rowsOf({ case_details: [words('own-1', 2)] }), numberless: ['own-1'] }).filter(
      ([table]) => table === 'case_details',
    );
    expect(details.map(([, row]) => row)).toEqual([words('own-1', 2)]);
  });
});

describe('photographs, put back', () => {
  const photoPut = (row: SalvagedRow | null) => put({ photos: new Map([['a', keptPhoto('a', row)]]) })[0]?.[1];
  const withoutSmall = (bytes: Buffer): SalvagedRow => ({ ...photoRow(bytes, null), thumbnail_type: null });

  test('[P3] one with its small picture goes back as it was', () => {
    expect(photoPut(photoRow())).toEqual(photoRow());
    expect(photoPut(photoRow(Buffer.alloc(limits.thumbnailBytes + 1)))).toEqual(photoRow(Buffer.alloc(limits.thumbnailBytes + 1)));
  });

  test('[P3] one without stands in for it itself up to the size of one; a larger one gets a grey square', () => {
    const fits = Buffer.alloc(limits.thumbnailBytes, 1);
    const larger = Buffer.alloc(limits.thumbnailBytes + 1, 1);
    expect(photoPut(withoutSmall(fits))).toEqual({ ...withoutSmall(fits), thumbnail: fits, thumbnail_type: 'image/jpeg' });
    const grey = photoPut(withoutSmall(larger));
    expect(grey).toEqual({ ...withoutSmall(larger), thumbnail: grey?.thumbnail, thumbnail_type: 'image/png' });
    const read = cleanPhoto(grey?.thumbnail as Buffer, 'the grey square');
    expect(read.ok && [read.value.type, read.value.width, read.value.height]).toEqual(['image/png', 1, 1]);
  });

  test('[P3] a picture of another sort keeps its sort as a small one', () => {
    expect(photoPut(withoutSmall(png))).toMatchObject({ type: 'image/png', thumbnail: png, thumbnail_type: 'image/png' });
  });

  test('[P3] one that changed while it was read stops it, by name', () => {
    expect(() => photoPut(null)).toThrow('the photograph a changed while it was read');
  });

  test('[P3] each is read as its turn comes', () => {
    const read: string[] = [];
    const photo = (id: string) => ({ id, small: true, read: () => photoRow(Buffer.from([read.push(id)])) });
    const statements = gatheredPutBack(
      gathered({
        photos: new Map([
          ['a', photo('a')],
          ['b', photo('b')],
        ]),
      }),
      '2026-03-09',
    );
    statements.next();
    expect(read).toEqual(['a']);
    statements.next();
    expect(read).toEqual(['a', 'b']);
  });
});
