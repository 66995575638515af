import { type Cleaned, DamagedPicture } from './cleaned.ts';
import { exifOf, type KeptData, keptOfExif, keptOfXmp, nothingKept, together } from './kept-data.ts';

/**
 * Rebuilds a JPEG from the segments that make the picture: tables, frames and scans byte for byte as they were, the colour profile,
 * and what says how to read the colours. Comments, other programs' segments, and whatever follows the end of the picture (where
 * phones put further pictures, each with a position of its own) are left out. Markers: ITU-T T.81 (1992) Annex B.
 * @throws DamagedPicture when the segments do not follow each other to the end of the picture
 */
export const cleanJpeg = (file: Buffer): Cleaned => {
  const kept: Buffer[] = [];
  let jfif: Buffer | null = null;
  let [exif, xmp]: [KeptData, KeptData] = [nothingKept, nothingKept];
  let size: { readonly width: number; readonly height: number; readonly fewestBytes: number } | null = null;
  let scanned = false;
  let dataBytes = 0;
  let at = 2;
  for (;;) {
    if (file[at] !== 0xff) throw new DamagedPicture(at >= file.length ? 'it is cut short' : `no segment begins at byte ${at}`);
    // Any number of filling bytes may stand before a marker.
    while (file[at + 1] === 0xff) at += 1;
    const marker = file[at + 1];
    if (marker === undefined) throw new DamagedPicture('it is cut short');
    if (marker === 0xd9) break;
    if (marker === 0x00 || marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8))
      throw new DamagedPicture(`no segment begins at byte ${at}`);
    if (at + 4 > file.length) throw new DamagedPicture('it is cut short');
    const end = at + 2 + file.readUInt16BE(at + 2);
    if (end < at + 4 || end > file.length) throw new DamagedPicture(`the segment at byte ${at} is longer than the file`);
    const body = file.subarray(at + 4, end);
    if (isFrame(marker)) {
      if (body.length < 6) throw new DamagedPicture(`the frame at byte ${at} has no size`);
      const [height, width] = [body.readUInt16BE(1), body.readUInt16BE(3)];
      size ??= { height, width, fewestBytes: marker < arithmetic ? Math.ceil((Math.ceil(width / 8) * Math.ceil(height / 8)) / 8) : 0 };
    }
    if (marker === 0xe0 && startsWith(body, 'JFIF\0') && body.length >= 12) jfif ??= jfifOf(body);
    else if (marker === 0xe1 && startsWith(body, 'Exif\0')) exif = together(exif, keptOfExif(body.subarray(6)));
    else if (marker === 0xe1 && startsWith(body, 'http://ns.adobe.com/xap/1.0/\0')) xmp = keptOfXmp(body.toString('utf8'));
    else if (isPicture(marker, body)) kept.push(file.subarray(at, end));
    at = end;
    if (marker !== 0xda) continue;
    // The scan: until a marker that is neither a stuffed 0xff nor a restart.
    scanned = true;
    const from = at;
    for (;;) {
      at = file.indexOf(0xff, at);
      if (at < 0 || at + 1 >= file.length) throw new DamagedPicture('it is cut short');
      const next = file[at + 1] as number;
      if (next !== 0x00 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) break;
      at += next === 0xff ? 1 : 2;
    }
    kept.push(file.subarray(from, at));
    dataBytes += at - from;
  }
  if (size === null || !scanned) throw new DamagedPicture('it holds no picture');
  const block = exifOf(together(exif, xmp));
  const segments = [
    Buffer.from([0xff, 0xd8]),
    ...(jfif === null ? [] : [jfif]),
    ...(block === null ? [] : [segment(0xe1, Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), block]))]),
    ...kept,
    Buffer.from([0xff, 0xd9]),
  ];
  return { type: 'image/jpeg', ...size, dataBytes, bytes: Buffer.concat(segments) };
};

/** From this frame on coding is arithmetic, and may take less than a bit; below it every block of 8 × 8 pixels takes one code at least, of one bit or more (T.81, F.1.2, G.1.2). */
const arithmetic = 0xc9;

/** SOF0 to SOF15, but for the tables among those numbers (DHT, JPG, DAC). */
const isFrame = (marker: number): boolean => marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

/** Everything below the application segments; of those, the colour profile (ICC.1) and Adobe's colour transform. */
const isPicture = (marker: number, body: Buffer): boolean =>
  marker < 0xe0 || (marker === 0xe2 && startsWith(body, 'ICC_PROFILE\0')) || (marker === 0xee && startsWith(body, 'Adobe'));

/** JFIF 1.02 §Application: version and density; the small picture it may carry is left out. */
const jfifOf = (body: Buffer): Buffer => segment(0xe0, Buffer.concat([body.subarray(0, 12), Buffer.from([0, 0])]));

const segment = (marker: number, body: Buffer): Buffer => {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([head, body]);
};

const startsWith = (bytes: Buffer, text: string): boolean => bytes.toString('latin1', 0, text.length) === text;
