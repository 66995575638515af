/**
 * What a photograph may keep beside its pixels: which way up it is, and when it was taken. Everything else a camera or a program wrote
 * into the file goes, because a position hides in more places than its own directory: maker's notes, embedded previews, place names,
 * captions, and a second copy of it all in XMP. So what is kept is listed here, and nothing is looked for in order to be removed.
 *
 * Layout of Exif: CIPA DC-008-2019 (Exif 2.32) §4.5–4.6, in a TIFF 6.0 structure.
 */
export interface KeptData {
  /** 1 to 8 as Exif numbers them, or null where nothing is said. */
  readonly orientation: number | null;
  /** By Exif tag; only texts of the form a date, a fraction of a second or a time zone has. */
  readonly times: ReadonlyMap<number, string>;
}

export const nothingKept: KeptData = { orientation: null, times: new Map() };

const orientationTag = 0x0112;
const dateTag = 0x0132;
const exifPointer = 0x8769;
const versionTag = 0x9000;
const takenTag = 0x9003;

const date = /^\d{4}:\d\d:\d\d \d\d:\d\d:\d\d$/;
const zone = /^[+-]\d\d:\d\d$/;
const fraction = /^\d{1,9}$/;
/** Tags of the Exif directory that are kept, with the form their text must have. */
const timeForms: ReadonlyMap<number, RegExp> = new Map([
  [takenTag, date],
  [0x9004, date],
  [0x9010, zone],
  [0x9011, zone],
  [0x9012, zone],
  [0x9290, fraction],
  [0x9291, fraction],
  [0x9292, fraction],
]);

/** Reads what is kept out of an Exif block (TIFF header first). A block that cannot be followed keeps nothing: it is not part of the picture. */
export const keptOfExif = (exif: Buffer): KeptData => {
  const order = exif.toString('latin1', 0, 2);
  if (exif.length < 8 || (order !== 'II' && order !== 'MM')) return nothingKept;
  const u16 = (at: number) => (order === 'II' ? exif.readUInt16LE(at) : exif.readUInt16BE(at));
  const u32 = (at: number) => (order === 'II' ? exif.readUInt32LE(at) : exif.readUInt32BE(at));
  if (u16(2) !== 42) return nothingKept;

  const times = new Map<number, string>();
  let orientation: number | null = null;
  let pointer: number | null = null;
  const walk = (directory: number, take: (tag: number, type: number, count: number, at: number) => void): void => {
    if (directory < 8 || directory + 2 > exif.length) return;
    const entries = u16(directory);
    for (let entry = 0, at = directory + 2; entry < entries && at + 12 <= exif.length; entry += 1, at += 12)
      take(u16(at), u16(at + 2), u32(at + 4), at + 8);
  };
  /** An ASCII value: within the entry up to four bytes, elsewhere beyond. */
  const ascii = (type: number, count: number, at: number): string | null => {
    const from = count <= 4 ? at : u32(at);
    if (type !== 2 || count > 64 || from + count > exif.length) return null;
    return exif.toString('latin1', from, from + count).replace(/[\0 ]+$/, '');
  };
  const keep = (tag: number, form: RegExp, text: string | null): void => {
    if (text !== null && form.test(text)) times.set(tag, text);
  };
  walk(u32(4), (tag, type, count, at) => {
    if (tag === orientationTag && type === 3 && count === 1) orientation = inRange(u16(at));
    else if (tag === dateTag) keep(tag, date, ascii(type, count, at));
    else if (tag === exifPointer && type === 4) pointer = u32(at);
  });
  if (pointer !== null)
    walk(pointer, (tag, type, count, at) => {
      const form = timeForms.get(tag);
      if (form !== undefined) keep(tag, form, ascii(type, count, at));
    });
  return { orientation, times };
};

/** The same out of an XMP packet, where some programs write it and nowhere else. */
export const keptOfXmp = (xmp: string): KeptData => {
  const valueNamed = (name: string): string | null =>
    new RegExp(`(?:${name}\\s*=\\s*["']|<${name}>\\s*)([^"'<]{1,64})`).exec(xmp)?.[1]?.trim() ?? null;
  const times = new Map<number, string>();
  for (const name of ['exif:DateTimeOriginal', 'photoshop:DateCreated', 'xmp:CreateDate']) {
    const found = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d)(?::(\d\d))?/.exec(valueNamed(name) ?? '');
    if (found === null) continue;
    const [, year, month, day, hour, minute, second = '00'] = found;
    times.set(takenTag, `${year}:${month}:${day} ${hour}:${minute}:${second}`);
    break;
  }
  const orientation = valueNamed('tiff:Orientation');
  return { orientation: orientation === null ? null : inRange(Number(orientation)), times };
};

const inRange = (value: number): number | null => (Number.isInteger(value) && value >= 1 && value <= 8 ? value : null);

/** Exif first: it is what cameras write. XMP fills in what it leaves open. */
export const together = (exif: KeptData, xmp: KeptData): KeptData => ({
  orientation: exif.orientation ?? xmp.orientation,
  times: new Map([...xmp.times, ...exif.times]),
});

/** A new Exif block that holds what is kept and nothing else; null where nothing is. */
export const exifOf = ({ orientation, times }: KeptData): Buffer | null => {
  if (orientation === null && times.size === 0) return null;
  const first: Entry[] = [];
  if (orientation !== null) first.push({ tag: orientationTag, type: 3, count: 1, value: u16Bytes(orientation) });
  const changed = times.get(dateTag);
  if (changed !== undefined) first.push(asciiEntry(dateTag, changed));
  const second: Entry[] = [
    { tag: versionTag, type: 7, count: 4, value: Buffer.from('0232', 'latin1') },
    ...[...times].filter(([tag]) => timeForms.has(tag)).map(([tag, text]) => asciiEntry(tag, text)),
  ].sort((a, b) => a.tag - b.tag);

  const start = 8;
  const secondAt = start + sizeOf([...first, { tag: exifPointer, type: 4, count: 1, value: Buffer.alloc(4) }]);
  const pointer: Entry = { tag: exifPointer, type: 4, count: 1, value: u32Bytes(secondAt) };
  const header = Buffer.concat([Buffer.from('MM', 'latin1'), u16Bytes(42), u32Bytes(start)]);
  return Buffer.concat([header, directory([...first, pointer], start), directory(second, secondAt)]);
};

interface Entry {
  readonly tag: number;
  readonly type: number;
  readonly count: number;
  readonly value: Buffer;
}

const u16Bytes = (value: number): Buffer => {
  const bytes = Buffer.alloc(2);
  bytes.writeUInt16BE(value);
  return bytes;
};
const u32Bytes = (value: number): Buffer => {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value);
  return bytes;
};
const asciiEntry = (tag: number, text: string): Entry => ({
  tag,
  type: 2,
  count: text.length + 1,
  value: Buffer.from(`${text}\0`, 'latin1'),
});

/** Bytes of a directory with the values that lie behind it, each on an even place. */
const sizeOf = (entries: readonly Entry[]): number =>
  2 + 12 * entries.length + 4 + entries.reduce((sum, { value }) => sum + (value.length > 4 ? value.length + (value.length % 2) : 0), 0);

const directory = (entries: readonly Entry[], at: number): Buffer => {
  const rows: Buffer[] = [u16Bytes(entries.length)];
  const behind: Buffer[] = [];
  let next = at + 2 + 12 * entries.length + 4;
  for (const { tag, type, count, value } of entries) {
    const inside = Buffer.alloc(4);
    if (value.length > 4) {
      inside.writeUInt32BE(next);
      const even = value.length % 2 === 0 ? value : Buffer.concat([value, Buffer.alloc(1)]);
      behind.push(even);
      next += even.length;
    } else value.copy(inside);
    rows.push(u16Bytes(tag), u16Bytes(type), u32Bytes(count), inside);
  }
  return Buffer.concat([...rows, u32Bytes(0), ...behind]);
};
