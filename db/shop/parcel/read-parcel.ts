import { isUtf8 } from 'node:buffer';
import { limits } from '../../../reasoner/plain/limits.ts';
import { sameValue } from '../../../reasoner/plain/same-value.ts';
import { mostPhotoBytes } from '../../photos/clean-photo.ts';
import { parseJson } from '../../read/parse-json.ts';
import { type Parcel, parcelSchema } from '../../sheets/parcel-schema.ts';
import { done, failed, type Outcome, TroubleError, trouble } from '../../trouble.ts';
import { photoIdOf, type ReadPhoto, readPhoto } from '../case-photos.ts';
import { unzip, type Zipped } from './unzip.ts';

/** A case out of its file, all of it verified against itself. */
export interface ReadParcel {
  readonly parcel: Parcel;
  /** In the order of `parcel.photographs`. */
  readonly pictures: readonly ReadPhoto[];
}

const mostOf = (name: string): number | null =>
  name === 'case.json'
    ? limits.parcelCaseBytes
    : /^photographs\/[^/]+$/.test(name)
      ? mostPhotoBytes
      : /^thumbnails\/[^/]+$/.test(name)
        ? limits.thumbnailBytes
        : null;

/**
 * Reads and verifies the one file that holds a case: sizes before anything is inflated, the shape of `case.json`, that it hangs together, and that every photograph is there, is
 * the one it says, and holds nothing but the picture (P2). What the atlas knows of its sheet is asked afterwards. Between two photographs others have their turn.
 * Troubles: `case-file-unreadable`, `case-file-invalid` with row and place, `case-file-too-large`, and those of photographs.
 */
export const readParcel = async (zip: Buffer, file: string): Promise<Outcome<ReadParcel>> => {
  const unzipped = unzip(zip, file, mostOf);
  if (!unzipped.ok) return unzipped;
  const files = unzipped.value;
  const invalid = (place: string, found: string, expected: string) =>
    failed(
      trouble('case-file-invalid', `${file}, ${place}`, `${file}, ${place}: found ${found}, expected ${expected}. Nothing was taken in.`),
    );
  const held = files.get('case.json');
  if (held === undefined) return invalid('case.json', 'no such file in it', 'case.json, which says what case it is');
  const read = bytesOf(held);
  if (!read.ok) return read;
  if (!isUtf8(read.value)) return invalid('case.json', 'bytes that are not UTF-8', 'a text in UTF-8');
  const parsed = parseJson(read.value.toString('utf8'), parcelSchema);
  if (!parsed.ok) {
    const [fault] = parsed.faults;
    return invalid(
      `case.json, row ${fault?.row ?? 1}${fault?.column == null ? '' : `, ${fault.column}`}`,
      fault?.found ?? 'nothing',
      fault?.expected ?? 'a case',
    );
  }
  const parcel = parsed.value;
  const { sheet, history, left, photographs } = parcel;
  for (const [n, entry] of history.entries())
    if (entry.sheet.id !== sheet.id)
      return invalid(`case.json, history[${n}].sheet.id`, `“${entry.sheet.id}”`, `“${sheet.id}”, the id of the case’s sheet`);
  const last = history.at(-1);
  if (last !== undefined && !sameValue(last.sheet, sheet))
    return invalid('case.json, sheet', 'another sheet than the last of its history', 'that one');
  for (const [n, { entry }] of left.entries())
    if (entry > history.length)
      return invalid(`case.json, left[${n}].entry`, `${entry}`, `1 to ${history.length}, the entries of its history`);
  const named = photographs.flatMap(({ file: one, thumbnail }) => [one, thumbnail]);
  if (new Set(named).size !== named.length) return invalid('case.json, photographs', 'one file for two', 'a file for each');
  if (new Set(photographs.map(({ sha256 }) => sha256)).size !== photographs.length)
    return invalid('case.json, photographs', 'one photograph twice', 'each once');
  for (const name of files.keys())
    if (name !== 'case.json' && !named.includes(name)) return invalid(name, 'a file case.json says nothing of', 'only those it names');
  const pictures: ReadPhoto[] = [];
  for (const [n, photograph] of photographs.entries()) {
    await new Promise((turn) => setImmediate(turn));
    const [whole, small] = [files.get(photograph.file), files.get(photograph.thumbnail)];
    if (whole === undefined || small === undefined)
      return invalid(
        `case.json, photographs[${n}]`,
        `no file “${whole === undefined ? photograph.file : photograph.thumbnail}”`,
        'it, beside case.json',
      );
    const [bytes, thumbnail] = [bytesOf(whole), bytesOf(small)];
    if (!bytes.ok) return bytes;
    if (!thumbnail.ok) return thumbnail;
    if (photoIdOf(bytes.value) !== photograph.sha256)
      return invalid(photograph.file, 'another picture than case.json says', `one whose SHA-256 is ${photograph.sha256}`);
    const picture = readPhoto({ name: `${file}, ${photograph.file}`, bytes: bytes.value, thumbnail: thumbnail.value });
    if (!picture.ok) return picture;
    if (!picture.value.photo.bytes.equals(bytes.value) || !picture.value.thumbnail.bytes.equals(thumbnail.value))
      return invalid(photograph.file, 'more than a picture', 'the picture and nothing beside it');
    pictures.push(picture.value);
  }
  return done({ parcel, pictures });
};

const bytesOf = (zipped: Zipped): Outcome<Buffer> => {
  try {
    return done(zipped.bytes());
  } catch (error) {
    if (error instanceof TroubleError) return failed(error.trouble);
    throw error;
  }
};
