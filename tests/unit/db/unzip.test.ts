import { crc32, deflateRawSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { unzip } from '../../../db/shop/parcel/unzip.ts';
import { limits } from '../../../reasoner/plain/limits.ts';
import { troubleIn, valueIn } from './kit.ts';

interface Entry {
  readonly name: string;
  readonly body: Buffer;
  /** What the directory says of it, where that is not so. */
  readonly says?: Partial<Record<'flags' | 'method' | 'crc' | 'packed' | 'size' | 'head', number>>;
  readonly packs?: boolean;
  /** Bytes of extra fields, in the directory and before the file, and of a comment. */
  readonly extra?: number;
  readonly before?: number;
  readonly comment?: number;
}
interface End {
  readonly disk?: number;
  readonly first?: number;
  readonly here?: number;
  readonly count?: number;
  readonly length?: number;
  readonly start?: number;
  readonly comment?: Buffer;
}

/** A ZIP as PKWARE's APPNOTE.TXT 6.3.10 has it (4.3.7, 4.3.12, 4.3.16), which may say what is not so. */
const zipOf = (entries: readonly Entry[], said: End = {}, directory: (made: Buffer) => Buffer = (made) => made): Buffer => {
  const files: Buffer[] = [];
  const listed: Buffer[] = [];
  let at = 0;
  for (const { name, body, says = {}, packs = false, extra = 0, before = 0, comment = 0 } of entries) {
    const held = packs ? deflateRawSync(body) : body;
    const head = Buffer.alloc(30);
    head.writeUInt32LE(0x04034b50);
    head.writeUInt16LE(Buffer.byteLength(name), 26);
    head.writeUInt16LE(before, 28);
    const entry = Buffer.alloc(46);
    entry.writeUInt32LE(0x02014b50);
    entry.writeUInt16LE(says.flags ?? 0, 8);
    entry.writeUInt16LE(says.method ?? (packs ? 8 : 0), 10);
    entry.writeUInt32LE(says.crc ?? crc32(body), 16);
    entry.writeUInt32LE(says.packed ?? held.length, 20);
    entry.writeUInt32LE(says.size ?? body.length, 24);
    entry.writeUInt16LE(Buffer.byteLength(name), 28);
    entry.writeUInt16LE(extra, 30);
    entry.writeUInt16LE(comment, 32);
    entry.writeUInt32LE(says.head ?? at, 42);
    files.push(head, Buffer.from(name), Buffer.alloc(before, 7), held);
    listed.push(entry, Buffer.from(name), Buffer.alloc(extra + comment, 7));
    at += 30 + Buffer.byteLength(name) + before + held.length;
  }
  const whole = directory(Buffer.concat(listed));
  const end = Buffer.alloc(22);
  const { disk = 0, first = 0, count = entries.length, here = count, length = whole.length, start = at, comment = Buffer.alloc(0) } = said;
  end.writeUInt32LE(0x06054b50);
  for (const [index, value] of [disk, first, here, count].entries()) end.writeUInt16LE(value, 4 + 2 * index);
  end.writeUInt32LE(length, 12);
  end.writeUInt32LE(start, 16);
  end.writeUInt16LE(comment.length, 20);
  return Buffer.concat([...files, whole, end, comment]);
};

const letter = Buffer.from('Shaft is blue. Shaft is blue. Shaft is blue.');
const other = Buffer.from('Nose is chipped.');
const anything = () => 1000;
const read = (zip: Buffer, mostOf: (name: string) => number | null = anything) =>
  [...valueIn(unzip(zip, 'case.zip', mostOf)).values()].map(({ name, size, bytes }) => [name, size, bytes().toString()]);
const both = [
  ['a', letter.length, `${letter}`],
  ['b', other.length, `${other}`],
];
/** Told of the archive, or of the file in it that is asked for. */
const refusal = (zip: Buffer, mostOf: (name: string) => number | null = anything) => {
  const unzipped = unzip(zip, 'case.zip', mostOf);
  if (!unzipped.ok) return unzipped.trouble;
  try {
    return [...unzipped.value.values()].map(({ bytes }) => bytes().toString());
  } catch (error) {
    return (error as { trouble: unknown }).trouble;
  }
};

describe('[P9] what is in a ZIP', () => {
  test.each<[string, Buffer]>([
    [
      'stored, and packed',
      zipOf([
        { name: 'a', body: letter },
        { name: 'b', body: other, packs: true },
      ]),
    ],
    [
      'with extra fields and comments',
      zipOf([
        { name: 'a', body: letter, extra: 9, before: 5, comment: 3 },
        { name: 'b', body: other, before: 2 },
      ]),
    ],
    [
      'with a comment at its end',
      zipOf(
        [
          { name: 'a', body: letter },
          { name: 'b', body: other },
        ],
        { comment: Buffer.from('from the counter') },
      ),
    ],
    [
      'with the longest comment there can be',
      zipOf(
        [
          { name: 'a', body: letter },
          { name: 'b', body: other },
        ],
        { comment: Buffer.alloc(0xffff, 0x20) },
      ),
    ],
    [
      'with a comment that looks like an end',
      zipOf(
        [
          { name: 'a', body: letter },
          { name: 'b', body: other },
        ],
        { comment: Buffer.concat([Buffer.from('PK\u0005\u0006'), Buffer.alloc(30, 1)]) },
      ),
    ],
    [
      'with folders, which are files of nothing',
      zipOf([
        { name: 'photographs/', body: Buffer.alloc(0) },
        { name: 'a', body: letter },
        { name: 'b', body: other },
      ]),
    ],
  ])('[P9] is read: %s', (_, zip) => {
    expect(read(zip)).toEqual(both);
  });

  test('[P9] an empty file is a file, and one whose name ends as a folder’s is none', () => {
    expect(read(zipOf([{ name: 'a', body: Buffer.alloc(0) }]))).toEqual([['a', 0, '']]);
    expect(read(zipOf([{ name: 'a', body: Buffer.alloc(0), packs: true }]))).toEqual([['a', 0, '']]);
    expect(refusal(zipOf([{ name: 'a/', body: letter }]), (name) => (name === 'a/' ? null : 1000))).toMatchObject({
      code: 'case-file-invalid',
    });
  });

  const two: readonly Entry[] = [
    { name: 'a', body: letter },
    { name: 'b', body: other },
  ];
  test.each<[string, Buffer, string]>([
    ['the end is missing', zipOf(two).subarray(0, -1), 'it is no ZIP, or its end is missing'],
    ['something follows its end', Buffer.concat([zipOf(two), Buffer.from('x')]), 'it is no ZIP, or its end is missing'],
    ['it begins on another disk', zipOf(two, { disk: 1 }), 'it is one piece of several'],
    ['its directory is on another disk', zipOf(two, { first: 1 }), 'it is one piece of several'],
    ['some of its files are on another disk', zipOf(two, { here: 1 }), 'it is one piece of several'],
    ['its directory is said to stand before where it does', zipOf(two, { start: 0 }), 'its directory is not where it says'],
    ['its directory is said to be shorter', zipOf(two, { length: 47 }), 'its directory is not where it says'],
    ['it says one file less than it lists', zipOf(two, { count: 1 }), 'its directory is longer than it says'],
    ['it says one file more than it lists', zipOf(two, { count: 3 }), 'its directory breaks off'],
    [
      'an entry of its directory is none',
      zipOf(two, {}, (made) => Buffer.concat([Buffer.from('x'), made.subarray(1)])),
      'its directory breaks off',
    ],
    [
      'the last entry runs past its end',
      zipOf([{ name: 'a', body: letter, comment: 4 }], {}, (made) => made.subarray(0, -4)),
      'its directory breaks off',
    ],
    ['a file is behind a password', zipOf([{ name: 'a', body: letter, says: { flags: 1 } }]), 'a is behind a password'],
    [
      'a file is packed in another way',
      zipOf([{ name: 'a', body: letter, says: { method: 9 } }]),
      'packed in a way that is not read here (9)',
    ],
    [
      'a file does not stand where it is said to',
      zipOf([two[0] as Entry, { name: 'b', body: other, says: { head: 1 } }]),
      'b is not where it says',
    ],
    [
      'a file is said to stand in the directory',
      zipOf([{ name: 'a', body: letter, says: { head: 31 + letter.length } }]),
      'a is not where it says',
    ],
    [
      'a file runs into the directory',
      zipOf([{ name: 'a', body: letter, says: { packed: letter.length + 1, size: letter.length + 1 } }]),
      'a breaks off',
    ],
    [
      'a file holds less than it says',
      zipOf([{ name: 'a', body: letter, packs: true, says: { size: letter.length + 1 } }]),
      `holds ${letter.length} bytes and says ${letter.length + 1}`,
    ],
    [
      'a file holds more than it says',
      zipOf([{ name: 'a', body: letter, packs: true, says: { size: letter.length - 1 } }]),
      `holds more than the ${letter.length - 1} bytes it says`,
    ],
    ['a file is another than was written', zipOf([{ name: 'a', body: letter, says: { crc: crc32(other) } }]), 'a is not as it was written'],
  ])('[P9] is refused where %s', (_, zip, said) => {
    expect(refusal(zip)).toMatchObject({ code: 'case-file-unreadable', place: 'case.zip', sentence: expect.stringContaining(said) });
  });

  test('[P9] a file twice, and one that has no place there, are named', () => {
    expect(refusal(zipOf([two[0] as Entry, { name: 'a', body: other }]))).toMatchObject({
      code: 'case-file-invalid',
      sentence: expect.stringContaining('“a” twice'),
    });
    expect(refusal(zipOf(two), (name) => (name === 'b' ? null : 1000))).toMatchObject({
      code: 'case-file-invalid',
      sentence: expect.stringContaining('“b”'),
    });
  });

  test('[R6] a file may be as large as is said, and no larger; all of them together too; and so many', () => {
    const { length } = letter;
    expect(read(zipOf(two), (name) => (name === 'a' ? length : 1000))).toEqual(both);
    expect(refusal(zipOf(two), (name) => (name === 'a' ? length - 1 : 1000))).toMatchObject({
      code: 'case-file-too-large',
      sentence: expect.stringContaining(`a says it holds ${length} bytes; the most is ${length - 1} bytes`),
    });
    // Nothing of them is inflated: only said.
    const half = limits.parcelBytes / 2;
    const large = (a: number, b: number) =>
      unzip(
        zipOf([
          { name: 'a', body: letter, says: { size: a } },
          { name: 'b', body: other, says: { size: b } },
        ]),
        'case.zip',
        () => limits.parcelBytes,
      );
    expect(valueIn(large(half, half)).size).toBe(2);
    expect(troubleIn(large(half, half + 1))).toMatchObject({
      code: 'case-file-too-large',
      sentence: expect.stringContaining('what is in it holds more than 512.0 MiB'),
    });
    const many = (count: number) =>
      unzip(zipOf(Array.from({ length: count }, (_, n) => ({ name: `${n}`, body: other }))), 'case.zip', anything);
    expect(valueIn(many(limits.parcelFiles)).size).toBe(limits.parcelFiles);
    expect(troubleIn(many(limits.parcelFiles + 1))).toMatchObject({
      code: 'case-file-too-large',
      sentence: expect.stringContaining('it holds 211 files; the most is 210'),
    });
  });
});
