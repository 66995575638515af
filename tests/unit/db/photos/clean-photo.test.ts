import ExifReader from 'exifreader';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cleanPhoto, mostPhotoBytes } from '../../../../db/photos/clean-photo.ts';
import type { Cleaned } from '../../../../db/photos/cleaned.ts';
import { troubleIn, valueIn } from '../kit.ts';
import { jpeg, png, webp, webpLossless } from './pictures.ts';
import { jpegWithPosition, place, pngChunk, pngWithPosition, riff, webpChunk, webpWithPosition } from './with-position.ts';

/** What an independent reader finds (ExifReader, which shares no code with what strips). */
const tagsOf = (bytes: Buffer) => ExifReader.load(bytes, { expanded: true, async: true });
const cleaned = (bytes: Buffer): Cleaned => valueIn(cleanPhoto(bytes, 'photo'));

const carriers: readonly (readonly [name: string, bytes: Buffer])[] = [
  ['JPEG, little-endian Exif', jpegWithPosition({ order: 'II' })],
  ['JPEG, big-endian Exif', jpegWithPosition({ order: 'MM' })],
  ['JPEG, XMP alone', jpegWithPosition({ exif: false })],
  ['PNG', pngWithPosition()],
  ['PNG, XMP alone', pngWithPosition({ exif: false })],
  ['WebP', webpWithPosition()],
  ['WebP with transparency', webpWithPosition(webpLossless)],
];

describe('a position never reaches the store', () => {
  test.each(carriers)('[P2] %s: the position is there before and gone after, by an independent reader', async (_name, bytes) => {
    const before = await tagsOf(bytes);
    expect(before.gps !== undefined || JSON.stringify(before.xmp ?? {}).includes('GPS'), 'the fixture carries a position').toBe(true);
    const after = await tagsOf(cleaned(bytes).bytes);
    expect(after.gps).toBeUndefined();
    expect(after.xmp).toBeUndefined();
    expect(after.iptc).toBeUndefined();
    expect(JSON.stringify(after)).not.toMatch(/GPS|Latitude|Longitude/);
    expect(Object.keys(after.exif ?? {})).not.toContain('MakerNote');
  });

  test.each(carriers)('[P2] %s: no word of the place is left anywhere in the file, and nothing of a second picture', (_name, bytes) => {
    expect(bytes.includes(place)).toBe(true);
    const after = cleaned(bytes).bytes;
    expect(after.includes(place)).toBe(false);
    expect(after.includes('GPS')).toBe(false);
  });

  test.each(carriers)('[P2] %s: which way up it is and when it was taken are kept', async (name, bytes) => {
    const { exif } = await tagsOf(cleaned(bytes).bytes);
    if (name.includes('XMP alone')) {
      expect(exif?.DateTimeOriginal?.description).toBe('2026:03:04 09:08:07');
      return;
    }
    expect(exif?.Orientation?.value).toBe(6);
    expect(exif?.DateTimeOriginal?.description).toBe('2026:03:04 11:58:07');
    expect(exif?.DateTime?.description).toBe('2026:03:04 12:01:00');
    expect(exif?.OffsetTimeOriginal?.description).toBe('+01:00');
    expect(exif?.SubSecTimeOriginal?.description).toBe('417');
  });

  test('[P2] a date that stands in compressed XMP alone is kept too', async () => {
    const { exif } = await tagsOf(cleaned(pngWithPosition({ exif: false, compressed: true })).bytes);
    expect(exif?.DateTimeOriginal?.description).toBe('2026:03:04 09:08:07');
  });

  test('[P2] a date is kept only in the form of a date: words put in its place go', () => {
    const disguised = Buffer.from(
      jpegWithPosition().toString('latin1').replaceAll('2026:03:04 11:58:07', `${place}...`.slice(0, 19)),
      'latin1',
    );
    expect(cleaned(disguised).bytes.includes(place)).toBe(false);
  });
});

describe('the picture itself is untouched', () => {
  /** From the first table or frame to the end, without application segments: what a decoder turns into pixels. */
  const jpegPicture = (bytes: Buffer): Buffer =>
    bytes.subarray(bytes.indexOf(Buffer.from([0xff, 0xdb])), bytes.lastIndexOf(Buffer.from([0xff, 0xd9])) + 2);

  test('[P2] JPEG: tables, frame and scan byte for byte; the colour profile too', () => {
    const after = cleaned(jpegWithPosition()).bytes;
    expect(jpegPicture(after).equals(jpegPicture(jpeg))).toBe(true);
    expect(after.includes('ICC_PROFILE')).toBe(true);
  });

  test('[P2] PNG: the data chunks byte for byte', () => {
    const data = (bytes: Buffer) => bytes.subarray(bytes.indexOf('IDAT') - 4);
    expect(data(cleaned(pngWithPosition()).bytes).equals(data(png))).toBe(true);
  });

  test.each([
    ['lossy', webp, 'VP8 '],
    ['lossless', webpLossless, 'VP8L'],
  ] as const)('[P2] WebP, %s: picture chunk and profile byte for byte', (_name, picture, kind) => {
    const chunk = (bytes: Buffer, of: string) => {
      const at = bytes.indexOf(of);
      return at < 0 ? null : bytes.subarray(at, at + 8 + bytes.readUInt32LE(at + 4)).toString('hex');
    };
    const after = cleaned(webpWithPosition(picture)).bytes;
    const there = chunk(picture, kind) === null ? 'VP8 ' : kind;
    expect(chunk(after, there)).toBe(chunk(picture, there));
    expect(chunk(after, 'ICCP')).toBe(chunk(picture, 'ICCP'));
  });

  test.each([
    ['JPEG', jpeg],
    ['PNG', png],
    ['WebP', webp],
    ['WebP with transparency', webpLossless],
  ])('[P2] %s: size in pixels is read, and cleaning twice changes nothing more', (_name, picture) => {
    const once = cleaned(picture);
    expect([once.width, once.height]).toEqual([16, 12]);
    expect(cleaned(once.bytes).bytes.equals(once.bytes)).toBe(true);
    const carried = cleaned(picture === jpeg ? jpegWithPosition() : picture === png ? pngWithPosition() : webpWithPosition(picture));
    expect(cleaned(carried.bytes).bytes.equals(carried.bytes)).toBe(true);
  });

  test('[P2] a picture of several scans keeps each', () => {
    const scan = jpeg.subarray(jpeg.indexOf(Buffer.from([0xff, 0xda])), jpeg.length - 2);
    const twice = Buffer.concat([jpeg.subarray(0, jpeg.length - 2), scan, jpeg.subarray(jpeg.length - 2)]);
    expect(jpegPicture(cleaned(twice).bytes).equals(jpegPicture(twice))).toBe(true);
  });

  test('[P2] a plain WebP without the extended header gets one when there is a date to keep', async () => {
    const at = webp.indexOf('VP8 ');
    const simple = riff([webp.subarray(at, at + 8 + webp.readUInt32LE(at + 4))]);
    expect(cleaned(simple).bytes.equals(simple)).toBe(true);
    const dated = riff([
      simple.subarray(12),
      webpChunk('EXIF', Buffer.from(webpWithPosition().subarray(webpWithPosition().indexOf('II*\0')))),
    ]);
    expect((await tagsOf(cleaned(dated).bytes)).exif?.Orientation?.value).toBe(6);
  });
});

describe('what is no whole photograph is refused with what is wrong', () => {
  test.each([
    ['nothing', Buffer.alloc(0), 'photo-unreadable'],
    ['a text', Buffer.from('GIF89a, or so it says'), 'photo-unreadable'],
    ['a moving WebP', riff([webp.subarray(12, 30), webpChunk('ANIM', Buffer.alloc(6))]), 'photo-unreadable'],
    ['too many bytes', Buffer.concat([jpeg, Buffer.alloc(mostPhotoBytes)]), 'photo-too-large'],
    ['a PNG whose check sum is wrong', Buffer.concat([png.subarray(0, 50), Buffer.from([7]), png.subarray(51)]), 'photo-damaged'],
    ['a JPEG without a picture', Buffer.from([0xff, 0xd8, 0xff, 0xd9]), 'photo-damaged'],
    [
      'a PNG of more pixels than can be drawn',
      Buffer.concat([png.subarray(0, 8), pngChunk('IHDR', Buffer.from('0000ffff0000ffff0806000000', 'hex')), png.subarray(33)]),
      'photo-too-large',
    ],
  ])('[T1] %s', (_name, bytes, code) => {
    const found = troubleIn(cleanPhoto(bytes, 'IMG_0417.jpg'));
    expect(found).toMatchObject({ code, place: 'IMG_0417.jpg' });
    expect(found.sentence).toContain('IMG_0417.jpg');
  });

  test.each([
    ['JPEG', jpegWithPosition()],
    ['PNG', pngWithPosition()],
    ['WebP', webpWithPosition()],
  ])('[T1] %s cut anywhere before its end is refused', (_name, whole) => {
    const end = valueIn(cleanPhoto(whole, 'photo')).bytes.length;
    // The end of the picture itself; what stands behind it is not missed.
    const last = whole.subarray(0, 4).includes('RIFF') ? whole.readUInt32LE(4) + 8 : lastByte(whole);
    expect(end).toBeGreaterThan(0);
    for (let length = 0; length < last; length += 1)
      expect(cleanPhoto(whole.subarray(0, length), 'photo').ok, `cut to ${length}`).toBe(false);
    expect(cleanPhoto(whole.subarray(0, last), 'photo').ok).toBe(true);
  });
  /** One past the end marker of the first picture. */
  const lastByte = (bytes: Buffer): number =>
    bytes[0] === 0xff ? bytes.indexOf(Buffer.from([0xff, 0xd9]), bytes.indexOf(Buffer.from([0xff, 0xda]))) + 2 : bytes.indexOf('IEND') + 8;

  test('[T1] bytes changed at random are refused or read, never a bug, and never carry the place through', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(jpegWithPosition(), pngWithPosition(), webpWithPosition()),
        fc.array(fc.tuple(fc.nat(), fc.nat(255)), { minLength: 1, maxLength: 6 }),
        (whole, changes) => {
          const spoilt = Buffer.from(whole);
          for (const [at, value] of changes) spoilt[at % spoilt.length] = value;
          const found = cleanPhoto(spoilt, 'photo');
          if (found.ok) expect(cleanPhoto(found.value.bytes, 'photo').ok).toBe(true);
          else expect(found.trouble.code).toMatch(/^photo-/);
        },
      ),
      { seed: 20_261_125, numRuns: 3000 },
    );
  });
});
