import { crc32, deflateSync } from 'node:zlib';
import { jpeg, png, webp } from './pictures.ts';

/** Words that stand for a place, put wherever a camera or a program may put one. None may be left in what is stored. */
export const place = 'PORT-HALLOW-QUAY';
/** 54° 12′ 36″ N, 4° 30′ W: nowhere the demo world has. */
const degrees = [54, 12, 36] as const;

interface Tag {
  readonly tag: number;
  readonly type: 1 | 2 | 3 | 4 | 5 | 7;
  readonly count: number;
  readonly value: Buffer;
}

/** An Exif block as a phone writes it: orientation 6, two dates with their zone, position, maker's note, user comment, a preview's directory. */
export const phoneExif = (order: 'II' | 'MM'): Buffer => {
  const u16 = (value: number) => {
    const bytes = Buffer.alloc(2);
    if (order === 'II') bytes.writeUInt16LE(value);
    else bytes.writeUInt16BE(value);
    return bytes;
  };
  const u32 = (value: number) => {
    const bytes = Buffer.alloc(4);
    if (order === 'II') bytes.writeUInt32LE(value);
    else bytes.writeUInt32BE(value);
    return bytes;
  };
  const ascii = (tag: number, text: string): Tag => ({ tag, type: 2, count: text.length + 1, value: Buffer.from(`${text}\0`, 'latin1') });
  const rational = (tag: number, values: readonly number[]): Tag => ({
    tag,
    type: 5,
    count: values.length,
    value: Buffer.concat(values.flatMap((value) => [u32(value), u32(1)])),
  });
  const directory = (tags: readonly Tag[], at: number, next: number): Buffer => {
    let behind = at + 2 + 12 * tags.length + 4;
    const rows: Buffer[] = [u16(tags.length)];
    const values: Buffer[] = [];
    for (const { tag, type, count, value } of tags) {
      const inside = Buffer.alloc(4);
      if (value.length > 4) {
        u32(behind).copy(inside);
        values.push(value);
        behind += value.length;
      } else value.copy(inside);
      rows.push(u16(tag), u16(type), u32(count), inside);
    }
    return Buffer.concat([...rows, u32(next), ...values]);
  };
  const gps: Tag[] = [
    ascii(0x0001, 'N'),
    rational(0x0002, degrees),
    ascii(0x0003, 'W'),
    rational(0x0004, [4, 30, 0]),
    ascii(0x001d, '2026:03:04'),
  ];
  const exif: Tag[] = [
    { tag: 0x9000, type: 7, count: 4, value: Buffer.from('0232') },
    ascii(0x9003, '2026:03:04 11:58:07'),
    ascii(0x9004, '2026:03:04 11:58:07'),
    ascii(0x9011, '+01:00'),
    ascii(0x9291, '417'),
    { tag: 0x927c, type: 7, count: place.length, value: Buffer.from(place) },
    { tag: 0x9286, type: 7, count: place.length + 8, value: Buffer.from(`ASCII\0\0\0${place}`) },
  ];
  const first = (exifAt: number, gpsAt: number): Tag[] => [
    ascii(0x010e, `A turbocharger at ${place}`),
    { tag: 0x0112, type: 3, count: 1, value: u16(6) },
    ascii(0x0132, '2026:03:04 12:01:00'),
    { tag: 0x8769, type: 4, count: 1, value: u32(exifAt) },
    { tag: 0x8825, type: 4, count: 1, value: u32(gpsAt) },
  ];
  const exifAt = 8 + directory(first(0, 0), 8, 0).length;
  const gpsAt = exifAt + directory(exif, exifAt, 0).length;
  const secondAt = gpsAt + directory(gps, gpsAt, 0).length;
  return Buffer.concat([
    Buffer.from(order, 'latin1'),
    u16(42),
    u32(8),
    directory(first(exifAt, gpsAt), 8, secondAt),
    directory(exif, exifAt, 0),
    directory(gps, gpsAt, 0),
    directory([ascii(0x010e, place)], secondAt, 0),
  ]);
};

export const xmp = `<?xpacket begin="" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" xmlns:exif="http://ns.adobe.com/exif/1.0/" xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/" exif:GPSLatitude="54,12.6N" exif:GPSLongitude="4,30W" photoshop:City="${place}" exif:DateTimeOriginal="2026-03-04T09:08:07+01:00"/></rdf:RDF></x:xmpmeta><?xpacket end="w"?>`;

const segment = (marker: number, body: Buffer): Buffer => {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([head, body]);
};

/** JPEG with Exif, XMP, IPTC, a comment, and a second picture behind the first, as phones write them. */
export const jpegWithPosition = ({
  order = 'II',
  exif = true,
  withXmp = true,
}: {
  order?: 'II' | 'MM';
  exif?: boolean;
  withXmp?: boolean;
} = {}) => {
  const more = [
    ...(exif ? [segment(0xe1, Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), phoneExif(order)]))] : []),
    ...(withXmp ? [segment(0xe1, Buffer.concat([Buffer.from('http://ns.adobe.com/xap/1.0/\0', 'latin1'), Buffer.from(xmp)]))] : []),
    segment(0xe2, Buffer.from(`MPF\0${place}`, 'latin1')),
    segment(0xed, Buffer.from(`Photoshop 3.0\x008BIM${place}`, 'latin1')),
    segment(0xfe, Buffer.from(place)),
  ];
  const behind = Buffer.concat([
    jpeg.subarray(0, 2),
    segment(0xe1, Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), phoneExif(order)])),
    jpeg.subarray(2),
  ]);
  return Buffer.concat([jpeg.subarray(0, 2), ...more, jpeg.subarray(2), behind]);
};

export const pngChunk = (kind: string, body: Buffer): Buffer => {
  const named = Buffer.concat([Buffer.from(kind, 'latin1'), body]);
  const [head, tail] = [Buffer.alloc(4), Buffer.alloc(4)];
  head.writeUInt32BE(body.length);
  tail.writeUInt32BE(crc32(named));
  return Buffer.concat([head, named, tail]);
};

/** PNG with Exif, XMP (compressed where asked), a raw profile as some programs write it, and texts. */
export const pngWithPosition = ({ exif = true, compressed = exif }: { exif?: boolean; compressed?: boolean } = {}): Buffer => {
  const header = 8 + 25;
  return Buffer.concat([
    png.subarray(0, header),
    ...(exif ? [pngChunk('eXIf', phoneExif('MM'))] : []),
    pngChunk(
      'iTXt',
      compressed
        ? Buffer.concat([Buffer.from('XML:com.adobe.xmp\0\x01\0\0\0', 'latin1'), deflateSync(Buffer.from(xmp))])
        : Buffer.from(`XML:com.adobe.xmp\0\0\0\0\0${xmp}`),
    ),
    pngChunk('zTXt', Buffer.concat([Buffer.from('Raw profile type exif\0\0', 'latin1'), deflateSync(phoneExif('II'))])),
    pngChunk('tEXt', Buffer.from(`Location\0${place}`, 'latin1')),
    png.subarray(header),
    Buffer.from(place),
  ]);
};

export const webpChunk = (kind: string, body: Buffer): Buffer => {
  const head = Buffer.alloc(8);
  head.write(kind, 'latin1');
  head.writeUInt32LE(body.length, 4);
  return Buffer.concat([head, body, Buffer.alloc(body.length % 2)]);
};

export const riff = (chunks: readonly Buffer[]): Buffer => {
  const inside = Buffer.concat([Buffer.from('WEBP', 'latin1'), ...chunks]);
  const head = Buffer.from('RIFF\0\0\0\0', 'latin1');
  head.writeUInt32LE(inside.length, 4);
  return Buffer.concat([head, inside]);
};

/** WebP with Exif and XMP chunks and one nobody knows. */
export const webpWithPosition = (picture: Buffer = webp): Buffer => {
  const inside = Buffer.from(picture.subarray(12));
  // Exif and XMP are announced in the header's flags.
  inside[8] = (inside[8] as number) | 0x0c;
  return Buffer.concat([
    riff([inside, webpChunk('EXIF', phoneExif('II')), webpChunk('XMP ', Buffer.from(xmp)), webpChunk('PLCE', Buffer.from(place))]),
    Buffer.from(place),
  ]);
};
