import type { SheetId } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import type { Statement } from '../driver/driver.ts';
import type { SalvagedRow } from '../salvage/salvage.ts';
import { numberTaken } from '../shop/kept-cases.ts';
import type { Gathered } from './gather.ts';
import { rowInserted } from './rows.ts';
import { shopTables } from './shop-tables.ts';

/** A grey square, where the small picture of a photograph is lost and the photograph itself is too large to stand in for it. */
const grey = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGPYAAAAsgCxVQroKgAAAABJRU5ErkJggg==', 'base64');

/** Every row of what was gathered, in an atlas that has none of them yet. Photographs are read as their turn comes. */
export function* gatheredPutBack({ sheets, rows, photos, numberless }: Gathered, today: string): Generator<Statement> {
  const of = (table: string): readonly SalvagedRow[] => rows.get(table) ?? [];
  for (const row of of('case_counts')) yield rowInserted('case_counts', row);
  for (const row of sheets.values()) yield rowInserted('sheets', row);
  for (const row of of('cases')) yield rowInserted('cases', row);
  // Before numbers are given: in them stands the letter of this counter.
  for (const row of of('shop_settings')) yield rowInserted('shop_settings', row);
  // And what is passed over.
  for (const row of of('case_origins')) yield rowInserted('case_origins', row);
  const year = Number(today.slice(0, 4));
  for (const sheet of numberless) yield* numberTaken(sheet as SheetId, year, today);
  const worded = new Set(of('case_details').map(({ sheet }) => sheet));
  // A case is never without its words, even where they could not be read.
  for (const { sheet, opened_on: opened } of [...of('cases'), ...numberless.map((id): SalvagedRow => ({ sheet: id, opened_on: today }))])
    if (!worded.has(sheet))
      yield rowInserted('case_details', { sheet, n: 1, at: `${opened}T00:00:00.000Z`, customer: '', looked_by: '', notes: '' });
  for (const row of of('case_details')) yield rowInserted('case_details', row);
  for (const row of of('case_entries')) yield rowInserted('case_entries', row);
  for (const photo of photos.values()) {
    const row = photo.read();
    if (row === null) throw new Error(`the photograph ${photo.id} changed while it was read`);
    yield rowInserted('photos', withSmall(row));
  }
  for (const row of of('case_photos')) yield rowInserted('case_photos', row);
  for (const { name } of shopTables) if (!apart.has(name)) for (const row of of(name)) yield rowInserted(name, row);
}

/** Put back above, each in its own way, or with what was learnt. */
const apart = new Set([
  'own_words',
  'shop_settings',
  'sheets',
  'case_counts',
  'cases',
  'case_details',
  'case_entries',
  'case_origins',
  'photos',
  'case_photos',
  'courses',
  'learners',
  'drill_cards',
  'drill_answers',
]);

const withSmall = (row: SalvagedRow): SalvagedRow => {
  if (Buffer.isBuffer(row.thumbnail)) return row;
  const { bytes } = row;
  return Buffer.isBuffer(bytes) && bytes.length <= limits.thumbnailBytes
    ? { ...row, thumbnail: bytes, thumbnail_type: row.type }
    : { ...row, thumbnail: grey, thumbnail_type: 'image/png' };
};
