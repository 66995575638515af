import { asc, eq } from 'drizzle-orm';
import { strToU8, type Zippable, zipSync } from 'fflate';
import type { SheetId } from '../../../reasoner/index.ts';
import { limits } from '../../../reasoner/plain/limits.ts';
import type { Reader } from '../../driver/driver.ts';
import * as t from '../../schema.ts';
import { type Parcel, parcelSchema } from '../../sheets/parcel-schema.ts';
import { TroubleError, trouble } from '../../trouble.ts';
import type { PhotoType } from '../case.ts';
import { photoBytes, photosOf } from '../case-photos.ts';
import { sayingsOf } from '../case-words.ts';
import { openCaseFile } from '../kept-cases.ts';
import { openSheet } from '../kept-sheets.ts';

/** A ZIP's times have no zone and begin here; that of the writing would make the same case other bytes. */
const noTime = new Date(1980, 0, 1);

const endings: Readonly<Record<PhotoType, string>> = { 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp' };

/**
 * The one file that holds a whole case (P9): `case.json`, and the photographs with their small pictures as they are stored. The same case is the same bytes, wherever and
 * whenever it is written. Throws `not-found`, `photo-altered`, and `case-file-too-large` for a case that no reader would take in again.
 */
export const writeParcel = async (reader: Reader, sheet: SheetId): Promise<Buffer> => {
  const { orm } = reader;
  const { number, openedOn, history, origins } = await openCaseFile(reader, sheet, null);
  const shown = await photosOf(reader, sheet);
  const size = shown.reduce((sum, { bytes }) => sum + bytes, 0);
  if (size > limits.parcelBytes - limits.parcelCaseBytes - 16 * 1024 * 1024) throw tooLarge(number, 'its photographs', size);
  const files: Zippable = {};
  const photographs: Parcel['photographs'] = [];
  for (const [index, { id, addedAt, caption, about, type }] of shown.entries()) {
    const [whole, small] = [await photoBytes(reader, id, 'whole'), await photoBytes(reader, id, 'thumbnail')];
    const file = `photographs/${index + 1}.${endings[type]}`;
    const thumbnail = `thumbnails/${index + 1}.${endings[small.type]}`;
    // Pictures are packed as they are: deflating them once more takes long and gains nothing.
    files[file] = [whole.bytes, { level: 0 }];
    files[thumbnail] = [small.bytes, { level: 0 }];
    photographs.push({ file, thumbnail, sha256: id, addedAt, caption, about });
  }
  const parcel: Parcel = {
    kinplate: 'case',
    version: 1,
    number,
    openedOn,
    origins: origins.map(({ number: had, at, who }) => ({ number: had, at, who })),
    sheet: await openSheet(reader, sheet),
    details: await orm
      .select({
        at: t.caseDetails.at,
        who: t.caseDetails.who,
        customer: t.caseDetails.customer,
        lookedBy: t.caseDetails.lookedBy,
        notes: t.caseDetails.notes,
      })
      .from(t.caseDetails)
      .where(eq(t.caseDetails.sheet, sheet))
      .orderBy(asc(t.caseDetails.n)),
    history: history.map(({ at, who, sheet: saved, verdict }) => ({
      at,
      who,
      sheet: saved,
      verdict: verdict as Parcel['history'][number]['verdict'],
    })),
    words: (await sayingsOf(reader, sheet)).map(({ at, who, word }) => ({ at, who, word })),
    left: await orm
      .select({
        at: t.casesLeft.at,
        who: t.casesLeft.who,
        reason: t.casesLeft.reason,
        entry: t.casesLeft.entry,
        otherwise: t.casesLeft.otherwise,
      })
      .from(t.casesLeft)
      .where(eq(t.casesLeft.sheet, sheet))
      .orderBy(asc(t.casesLeft.n)),
    photographs,
  };
  // Read by the schema before it is written: its fields come in one order, and nothing is written that would be refused.
  const text = strToU8(`${JSON.stringify(parcelSchema.parse(parcel), null, 2)}\n`);
  if (text.length > limits.parcelCaseBytes) throw tooLarge(number, 'its history', text.length);
  const zip = zipSync({ 'case.json': [text, { level: 9 }], ...files }, { mtime: noTime });
  return Buffer.from(zip.buffer, zip.byteOffset, zip.length);
};

const tooLarge = (number: string, what: string, size: number): TroubleError =>
  new TroubleError(
    trouble(
      'case-file-too-large',
      `case ${number}`,
      `The case ${number} is too large for one file: ${what} would take ${Math.ceil(size / 1024 / 1024)} MiB. Nothing was written.`,
    ),
  );
