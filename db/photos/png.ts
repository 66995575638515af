import { crc32, inflateSync } from 'node:zlib';
import { type Cleaned, DamagedPicture } from './cleaned.ts';
import { exifOf, keptOfExif, keptOfXmp, nothingKept, together } from './kept-data.ts';

export const pngSignature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/** Chunks that make the picture or say how its colours are read (PNG, third edition, §4.7); animation and texts are not among them. */
const picture = new Set([
  ...['IHDR', 'PLTE', 'IDAT', 'IEND', 'tRNS', 'gAMA', 'cHRM', 'sRGB', 'iCCP', 'sBIT', 'bKGD', 'pHYs', 'hIST', 'sPLT'],
  ...['cICP', 'mDCV', 'cLLI', 'tIME'],
]);

/**
 * Rebuilds a PNG from the chunks that make the picture, byte for byte as they were.
 * @throws DamagedPicture when a chunk's check sum is wrong, or they do not lead to the end
 */
export const cleanPng = (file: Buffer): Cleaned => {
  const chunks: Buffer[] = [];
  let [exif, xmp] = [nothingKept, nothingKept];
  let size: { readonly width: number; readonly height: number; readonly fewestBytes: number } | null = null;
  let firstData: number | null = null;
  let dataBytes = 0;
  for (let at = pngSignature.length; ; ) {
    if (at + 12 > file.length) throw new DamagedPicture('it is cut short');
    const length = file.readUInt32BE(at);
    const end = at + 12 + length;
    if (end > file.length) throw new DamagedPicture('it is cut short');
    const kind = file.toString('latin1', at + 4, at + 8);
    if (crc32(file.subarray(at + 4, end - 4)) !== file.readUInt32BE(end - 4))
      throw new DamagedPicture(`the check sum of its ${/^[A-Za-z]{4}$/.test(kind) ? `${kind} ` : ''}chunk at byte ${at} is wrong`);
    const body = file.subarray(at + 8, end - 4);
    if (size === null) {
      if (kind !== 'IHDR' || length !== 13) throw new DamagedPicture('it does not begin with its header');
      size = { width: body.readUInt32BE(0), height: body.readUInt32BE(4), fewestBytes: fewestBytes(body) };
    }
    if (kind === 'eXIf') exif = keptOfExif(body);
    else if (kind === 'iTXt' && body.toString('latin1', 0, 18) === 'XML:com.adobe.xmp\0') xmp = keptOfXmp(internationalText(body));
    else if (picture.has(kind)) {
      if (kind === 'IDAT') {
        firstData ??= chunks.length;
        dataBytes += length;
      }
      chunks.push(file.subarray(at, end));
    }
    at = end;
    if (kind === 'IEND') break;
  }
  if (firstData === null) throw new DamagedPicture('it holds no picture');
  const block = exifOf(together(exif, xmp));
  if (block !== null) chunks.splice(firstData, 0, chunkOf('eXIf', block));
  return { type: 'image/png', ...size, dataBytes, bytes: Buffer.concat([pngSignature, ...chunks]) };
};

/** Samples of a pixel, by colour type (PNG, third edition, §11.2.1). */
const samples: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };
/** Deflate makes at best one byte of so many (zlib, “Maximum Compression Factor”: 1032 to 1). */
const mostDeflated = 1032;

const fewestBytes = (header: Buffer): number => {
  const depth = header[8] as number;
  const each = samples[header[9] as number];
  if (each === undefined || ![1, 2, 4, 8, 16].includes(depth)) throw new DamagedPicture('its header gives no kind of colour there is');
  return Math.ceil((header.readUInt32BE(0) * header.readUInt32BE(4) * each * depth) / 8 / mostDeflated);
};

/** The text of an iTXt chunk: keyword, whether it is compressed, language and translated keyword come before it (§11.3.3.4). */
const internationalText = (body: Buffer): string => {
  const keyword = body.indexOf(0);
  const language = body.indexOf(0, keyword + 3);
  const translated = body.indexOf(0, language + 1);
  if (keyword < 0 || language < 0 || translated < 0) return '';
  const text = body.subarray(translated + 1);
  try {
    return (body[keyword + 1] === 1 ? inflateSync(text, { maxOutputLength: 4_000_000 }) : text).toString('utf8');
  } catch {
    // It is dropped either way; only a date that stands nowhere else is lost with it.
    return '';
  }
};

const chunkOf = (kind: string, body: Buffer): Buffer => {
  const named = Buffer.concat([Buffer.from(kind, 'latin1'), body]);
  const [head, tail] = [Buffer.alloc(4), Buffer.alloc(4)];
  head.writeUInt32BE(body.length);
  tail.writeUInt32BE(crc32(named));
  return Buffer.concat([head, named, tail]);
};
