import { type Cleaned, DamagedPicture, NoStillPicture } from './cleaned.ts';
import { exifOf, keptOfExif, keptOfXmp, nothingKept, together } from './kept-data.ts';

/**
 * Rebuilds a still WebP from its picture, transparency and colour profile, byte for byte as they were. Layout: RFC 9649 §2.
 * @throws DamagedPicture when its chunks do not fill the file; NoStillPicture when it moves
 */
export const cleanWebp = (file: Buffer): Cleaned => {
  const riff = 8 + file.readUInt32LE(4);
  if (riff > file.length) throw new DamagedPicture('it is cut short');
  let [exif, xmp] = [nothingKept, nothingKept];
  let extended: Buffer | null = null;
  let image: { readonly kind: string; readonly body: Buffer } | null = null;
  const kept: { readonly kind: string; readonly body: Buffer }[] = [];
  for (let at = 12; at < riff; ) {
    if (at + 8 > riff) throw new DamagedPicture('it is cut short');
    const kind = file.toString('latin1', at, at + 4);
    const length = file.readUInt32LE(at + 4);
    const end = at + 8 + length;
    if (end > riff) throw new DamagedPicture(`the chunk at byte ${at} is longer than the file`);
    const body = file.subarray(at + 8, end);
    switch (kind) {
      case 'VP8X':
        if (length < 10) throw new DamagedPicture('its header is too short');
        extended = body.subarray(0, 10);
        break;
      case 'VP8 ':
      case 'VP8L':
        image ??= { kind, body };
        kept.push({ kind, body });
        break;
      case 'ALPH':
      case 'ICCP':
        kept.push({ kind, body });
        break;
      case 'EXIF':
        // Some programs put JPEG's prefix before the block.
        exif = keptOfExif(body.toString('latin1', 0, 4) === 'Exif' ? body.subarray(6) : body);
        break;
      case 'XMP ':
        xmp = keptOfXmp(body.toString('utf8'));
        break;
      case 'ANIM':
      case 'ANMF':
        throw new NoStillPicture('a moving picture');
      default:
    }
    // Chunks begin on even places.
    at = end + (length % 2);
  }
  if (image === null) throw new DamagedPicture('it holds no picture');
  const size = extended === null ? sizeOf(image) : { width: 1 + extended.readUIntLE(4, 3), height: 1 + extended.readUIntLE(7, 3) };
  const own = sizeOf(image);
  if (own.width !== size.width || own.height !== size.height) throw new DamagedPicture('its header and its picture differ in size');
  const block = exifOf(together(exif, xmp));
  const chunks =
    extended === null && block === null
      ? kept
      : [
          { kind: 'VP8X', body: headerOf(extended, size, image, block !== null) },
          ...kept,
          ...(block === null ? [] : [{ kind: 'EXIF', body: block }]),
        ];
  const inside = Buffer.concat([Buffer.from('WEBP', 'latin1'), ...chunks.map(chunkOf)]);
  const head = Buffer.from('RIFF\0\0\0\0', 'latin1');
  head.writeUInt32LE(inside.length, 4);
  return {
    type: 'image/webp',
    ...size,
    dataBytes: image.body.length,
    fewestBytes: fewestBytes(size, image.kind),
    bytes: Buffer.concat([head, inside]),
  };
};

const alphaFlag = 0x10;
const exifFlag = 0x08;
const xmpFlag = 0x04;

/** Pixels of the picture's own header (RFC 6386 §9.1; RFC 9649 §3.4), which also tells a damaged one. */
const sizeOf = ({ kind, body }: { readonly kind: string; readonly body: Buffer }): { readonly width: number; readonly height: number } => {
  if (kind === 'VP8 ') {
    if (body.length < 10 || body.readUIntBE(3, 3) !== 0x9d012a) throw new DamagedPicture('its picture does not begin with a key frame');
    return { width: body.readUInt16LE(6) & 0x3fff, height: body.readUInt16LE(8) & 0x3fff };
  }
  if (body.length < 5 || body[0] !== 0x2f) throw new DamagedPicture('its picture does not begin as one');
  const bits = body.readUInt32LE(1);
  return { width: 1 + (bits & 0x3fff), height: 1 + ((bits >>> 14) & 0x3fff) };
};

/**
 * Every macroblock of 16 × 16 pixels of a key frame says how its brightness and its colour are foretold, by trees whose odds are fixed: more than a bit
 * (RFC 6386 §11.2: 0.82 and 0.85 at least). A lossless picture of one colour takes no bit for a pixel.
 */
const fewestBytes = ({ width, height }: { readonly width: number; readonly height: number }, kind: string): number =>
  kind === 'VP8 ' ? Math.ceil((Math.ceil(width / 16) * Math.ceil(height / 16)) / 8) : 0;

/** The extended header with its flags set to what the file holds now. */
const headerOf = (
  extended: Buffer | null,
  { width, height }: { readonly width: number; readonly height: number },
  image: { readonly kind: string; readonly body: Buffer },
  hasExif: boolean,
): Buffer => {
  const header = Buffer.alloc(10);
  if (extended === null) {
    header.writeUIntLE(width - 1, 4, 3);
    header.writeUIntLE(height - 1, 7, 3);
    if (image.kind === 'VP8L' && ((image.body[4] as number) & 0x10) !== 0) header[0] = alphaFlag;
  } else extended.copy(header);
  header[0] = ((header[0] as number) & ~(exifFlag | xmpFlag)) | (hasExif ? exifFlag : 0);
  return header;
};

const chunkOf = ({ kind, body }: { readonly kind: string; readonly body: Buffer }): Buffer => {
  const head = Buffer.alloc(8);
  head.write(kind, 'latin1');
  head.writeUInt32LE(body.length, 4);
  return Buffer.concat([head, body, Buffer.alloc(body.length % 2)]);
};
