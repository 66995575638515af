import { existsSync, truncateSync } from 'node:fs';
import { beforeEach, describe, expect, test } from 'vitest';
import { Connection } from '../../../../db/driver/connection.ts';
import type { Gathered } from '../../../../db/mend/gather.ts';
import { rowInserted } from '../../../../db/mend/rows.ts';
import { verifyMended } from '../../../../db/mend/verify-mended.ts';
import type { SalvagedRow } from '../../../../db/salvage/salvage.ts';
import { photoIdOf } from '../../../../db/shop/case-photos.ts';
import { TroubleError } from '../../../../db/trouble.ts';
import { jpeg } from '../photos/pictures.ts';
import { gathered } from './gathered.ts';
import { at, editPage, emptyStoreFirst, fileOf, photoRow, sheetOf, sheetRow, writeRows } from './small-file.ts';

const empty = emptyStoreFirst();
const sample = { ...sheetRow('found-01'), origin: 'sample', pack: 'small', saved_at: null };
const pack: SalvagedRow = { id: 'small', title: 'Small', edition: '2026-03-02', invented: 1, note: '', hash: 'a', loaded_at: at };
const entry = (n: number): SalvagedRow => ({
  sheet: 'own-1',
  n,
  at,
  who: '',
  edition: 'small 1',
  body: JSON.stringify(sheetOf('own-1')),
  verdict: '{"edition":"small 1"}',
  claim_status: null,
});
const shown: SalvagedRow = {
  sheet: 'own-1',
  photo: photoIdOf(jpeg),
  added_at: at,
  caption: '',
  about_slot: null,
  about_observation: null,
  n: 1,
};
const whole = {
  case_counts: [{ letter: 'B', year: 2026, last: 2 }],
  sheets: [sheetRow('own-1'), sheetRow('own-2')],
  cases: [{ sheet: 'own-1', year: 2026, number: 1, opened_on: '2026-03-04', letter: 'B' }],
  case_details: [{ sheet: 'own-1', n: 1, at, customer: '', looked_by: '', notes: '', who: '' }],
  case_entries: [entry(1), entry(2)],
  photos: [photoRow()],
  case_photos: [shown],
};
const wanted: Gathered = gathered({
  sheets: new Map(whole.sheets.map((row) => [String(row.id), row])),
  rows: new Map(Object.entries(whole)),
});
const with_ = (table: keyof typeof whole, rows: readonly SalvagedRow[]): Gathered =>
  gathered({ ...wanted, rows: new Map(Object.entries({ ...whole, [table]: rows })) });

let file: string;
beforeEach(async () => {
  file = await fileOf(empty, whole);
});

describe('the new atlas', () => {
  test('[P3] one that is sound and holds what was put into it is good, and stands in its file alone', async () => {
    const connection = await Connection.open(file, { mode: 'write', busyMs: 200 });
    await connection.script('pragma journal_mode = wal');
    await connection.close();
    await verifyMended(file, wanted);
    expect(['-wal', '-shm', '-journal'].filter((suffix) => existsSync(file + suffix))).toEqual([]);
  });

  test('[P3] a verdict more than was put in is one that was given anew; one fewer is a loss', async () => {
    await verifyMended(file, with_('case_entries', [entry(1)]));
    await verifyMended(file, with_('case_entries', []));
    const nothingSaid = new Map(wanted.rows);
    nothingSaid.delete('case_entries');
    await verifyMended(file, gathered({ ...wanted, rows: nothingSaid }));
    await expect(verifyMended(file, with_('case_entries', [entry(1), entry(2), entry(3)]))).rejects.toThrow(TroubleError);
  });

  test.each<[string, () => Gathered]>([
    ['a sheet is missing in it', () => gathered({ ...wanted, sheets: new Map(wanted.sheets).set('own-3', sheetRow('own-3')) })],
    ['a sheet too many is in it', () => gathered({ ...wanted, sheets: new Map([...wanted.sheets].slice(1)) })],
    ['a photograph is missing in it', () => with_('case_photos', [shown, shown])],
    ['a photograph too many is in it', () => with_('case_photos', [])],
  ])('[P3] where %s it is not', async (_, of) => {
    await expect(verifyMended(file, of())).rejects.toThrow(
      `The new atlas did not turn out whole (rows are missing in it), so nothing was changed. Check the disk, then mend again: ${file}`,
    );
  });

  test('[P3] samples of packs are not counted', async () => {
    await writeRows(file, [rowInserted('packs', pack), rowInserted('sheets', sample)]);
    await verifyMended(file, wanted);
  });

  test('[P3] where its file does not hold together the fault is told', async () => {
    editPage(file, 'JFIF', (page) => page.replaceAll('JFIF', 'JFIX'));
    const refused = await verifyMended(file, wanted).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(TroubleError);
    expect((refused as TroubleError).trouble.code).toBe('database-io');
    expect(String((refused as Error).message)).toContain(`(the photograph ${photoIdOf(jpeg)} is not the one that was saved)`);
    truncateSync(file, 0);
    await expect(verifyMended(file, wanted)).rejects.toThrow('(the file is empty)');
  });

  test('[P3] where it is not there that is told, as opening it does', async () => {
    const refused = await verifyMended(`${file}-none`, wanted).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(TroubleError);
    expect((refused as Error).message).not.toContain('did not turn out whole');
  });
});
