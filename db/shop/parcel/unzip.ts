import { crc32, inflateRawSync } from 'node:zlib';
import { limits } from '../../../reasoner/plain/limits.ts';
import { type DatabaseTroubleCode, done, failed, type Outcome, TroubleError, trouble } from '../../trouble.ts';

/** A file within a ZIP, its bytes not yet made. */
export interface Zipped {
  readonly name: string;
  /** How many bytes it holds, as the directory says. */
  readonly size: number;
  /** Inflates it, and no further than it said. Throws a trouble where it holds another number of bytes, or others than it was written with. */
  bytes(): Buffer;
}

/** The most bytes a file of this name may hold; null for a name that has no place there. */
export type MostOf = (name: string) => number | null;

/** What an archive is read for: the most it may be, and how that is said where it cannot be. */
export interface ZipFor {
  readonly most: { readonly bytes: number; readonly files: number; readonly unpacked: number };
  readonly codes: Readonly<Record<'unreadable' | 'tooLarge' | 'invalid', DatabaseTroubleCode>>;
  /** `as a case`; what was not done; what files have a place in it. */
  readonly words: { readonly as: string; readonly nothing: string; readonly names: string };
}

const forCase: ZipFor = {
  most: { bytes: limits.parcelBytes, files: limits.parcelFiles, unpacked: limits.parcelBytes },
  codes: { unreadable: 'case-file-unreadable', tooLarge: 'case-file-too-large', invalid: 'case-file-invalid' },
  words: { as: 'as a case', nothing: 'Nothing was taken in.', names: 'case.json, and photographs and thumbnails by their numbers' },
};

/** PKWARE's APPNOTE.TXT 6.3.10: the end of the directory (4.3.16), its entries (4.3.12), and the head of each file (4.3.7). */
const endSignature = 0x06054b50;
const entrySignature = 0x02014b50;
const fileSignature = 0x04034b50;
const endSize = 22;
const entrySize = 46;
const fileSize = 30;
const mostComment = 0xffff;

/**
 * What is in a ZIP, by its directory alone: nothing is inflated before every name, number and size was looked at. Of archives only what holds a case is read: no passwords, no
 * several disks, no files past 4 GiB.
 * Troubles: `case-file-unreadable` for no ZIP or a damaged one, `case-file-too-large`, and `case-file-invalid` for a name that has no place there; or those of what else it is read for.
 */
export const unzip = (zip: Buffer, file: string, mostOf: MostOf, purpose: ZipFor = forCase): Outcome<ReadonlyMap<string, Zipped>> => {
  const refusals = refusalsFor(purpose);
  try {
    const { bytes } = purpose.most;
    if (zip.length > bytes) throw refusals.tooLarge(file, `it is ${sizeText(zip.length)}`, sizeText(bytes));
    return done(filesIn(zip, file, mostOf, purpose, refusals));
  } catch (error) {
    if (error instanceof TroubleError) return failed(error.trouble);
    // A place past the end of the file.
    if (error instanceof RangeError) return failed(refusals.damaged(file, 'it is cut short').trouble);
    throw error;
  }
};

type Refusals = ReturnType<typeof refusalsFor>;

const filesIn = (
  zip: Buffer,
  file: string,
  mostOf: MostOf,
  { most: mostOfAll, words }: ZipFor,
  refusals: Refusals,
): ReadonlyMap<string, Zipped> => {
  const { damaged, tooLarge, invalid } = refusals;
  const end = endOf(zip, file, refusals);
  const [disk, first, here, count] = [4, 6, 8, 10].map((at) => zip.readUInt16LE(end + at)) as [number, number, number, number];
  const [length, start] = [zip.readUInt32LE(end + 12), zip.readUInt32LE(end + 16)];
  if (disk !== 0 || first !== 0 || here !== count) throw damaged(file, 'it is one piece of several');
  if (count > mostOfAll.files) throw tooLarge(file, `it holds ${count} files`, `${mostOfAll.files}`);
  if (start + length !== end) throw damaged(file, 'its directory is not where it says');
  const files = new Map<string, Zipped>();
  let [at, all] = [start, 0];
  for (let n = 0; n < count; n += 1) {
    if (zip.readUInt32LE(at) !== entrySignature) throw damaged(file, 'its directory breaks off');
    const [flags, method] = [zip.readUInt16LE(at + 8), zip.readUInt16LE(at + 10)];
    const [crc, packed, size] = [16, 20, 24].map((place) => zip.readUInt32LE(at + place)) as [number, number, number];
    const [nameLength, extra, comment] = [28, 30, 32].map((place) => zip.readUInt16LE(at + place)) as [number, number, number];
    const name = zip.toString('utf8', at + entrySize, at + entrySize + nameLength);
    const head = zip.readUInt32LE(at + 42);
    at += entrySize + nameLength + extra + comment;
    if (at > end) throw damaged(file, 'its directory breaks off');
    // Programs that pack anew write folders as empty files.
    if (name.endsWith('/') && size === 0) continue;
    const most = mostOf(name);
    if (most === null) throw invalid(file, `the file “${name}”`, words.names);
    if (files.has(name)) throw invalid(file, `“${name}” twice`, 'each file once');
    if ((flags & 1) !== 0) throw damaged(file, `${name} is behind a password`);
    if (method !== 0 && method !== 8) throw damaged(file, `${name} is packed in a way that is not read here (${method})`);
    if (size > most) throw tooLarge(file, `${name} says it holds ${sizeText(size)}`, sizeText(most));
    all += size;
    if (all > mostOfAll.unpacked)
      throw tooLarge(file, `what is in it holds more than ${sizeText(mostOfAll.unpacked)}`, sizeText(mostOfAll.unpacked));
    files.set(name, { name, size, bytes: () => bytesOf(zip, file, { name, head, packed, size, crc, method, start }, refusals) });
  }
  if (at !== end) throw damaged(file, 'its directory is longer than it says');
  return files;
};

/** The last place that could be the end of a directory, and whose comment runs to the end of the file. */
const endOf = (zip: Buffer, file: string, { damaged }: Refusals): number => {
  for (let at = zip.length - endSize; at >= Math.max(0, zip.length - endSize - mostComment); at -= 1)
    if (zip.readUInt32LE(at) === endSignature && at + endSize + zip.readUInt16LE(at + 20) === zip.length) return at;
  throw damaged(file, 'it is no ZIP, or its end is missing');
};

interface Place {
  readonly name: string;
  readonly head: number;
  readonly packed: number;
  readonly size: number;
  readonly crc: number;
  readonly method: number;
  /** Where the directory begins, and so the files end. */
  readonly start: number;
}

const bytesOf = (zip: Buffer, file: string, { name, head, packed, size, crc, method, start }: Place, { damaged }: Refusals): Buffer => {
  if (head + fileSize > start || zip.readUInt32LE(head) !== fileSignature) throw damaged(file, `${name} is not where it says`);
  const from = head + fileSize + zip.readUInt16LE(head + 26) + zip.readUInt16LE(head + 28);
  if (from + packed > start) throw damaged(file, `${name} breaks off`);
  const held = zip.subarray(from, from + packed);
  const bytes =
    method === 0 ? held : inflated(held, size, () => damaged(file, `${name} holds more than the ${size} bytes it says, or is torn`));
  if (bytes.length !== size) throw damaged(file, `${name} holds ${bytes.length} bytes and says ${size}`);
  if (crc32(bytes) !== crc) throw damaged(file, `${name} is not as it was written`);
  return bytes;
};

/** Stops as soon as there is more than was said. */
const inflated = (held: Buffer, size: number, refusal: () => TroubleError): Buffer => {
  try {
    return inflateRawSync(held, { maxOutputLength: Math.max(1, size) });
  } catch {
    throw refusal();
  }
};

const sizeText = (bytes: number): string => (bytes < 1024 * 1024 ? `${bytes} bytes` : `${(bytes / 1024 / 1024).toFixed(1)} MiB`);

const refusalsFor = ({ codes, words }: ZipFor) => ({
  damaged: (file: string, what: string): TroubleError =>
    new TroubleError(trouble(codes.unreadable, file, `${file} cannot be read ${words.as}: ${what}. ${words.nothing}`)),
  tooLarge: (file: string, found: string, most: string): TroubleError =>
    new TroubleError(trouble(codes.tooLarge, file, `${file} is too large: ${found}; the most is ${most}. ${words.nothing}`)),
  invalid: (file: string, found: string, expected: string): TroubleError =>
    new TroubleError(trouble(codes.invalid, file, `${file}: found ${found}, expected ${expected}. ${words.nothing}`)),
});
