import { deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { cleanPhoto } from '../../../db/photos/clean-photo.ts';
import { type PhotoFile, printedOf } from '../../../electron/print/photographs.ts';
import { pixelsTakenApart } from '../../../electron/print/picture-cost.ts';
import { reportPdf } from '../../../electron/print/report-pdf.ts';
import { asId, type SlotId } from '../../../reasoner/index.ts';
import { limits } from '../../../reasoner/plain/limits.ts';
import { chunk, jpeg, png, pngOf, samples, webp, webpLossless } from '../db/photos/pictures.ts';
import { groundOf, reportOn } from '../report/proof.ts';
import { readPdf } from '../report/read-pdf.ts';
import { smallJpeg } from '../report/small-pictures.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const plain = { depth: 8, colour: 0 };
const alpha = { depth: 8, colour: 6 };
/** The small JPEG with another size in its frame. */
const jpegOf = (width: number, height: number): Buffer => {
  const made = Buffer.from(jpeg);
  const frame = made.indexOf(Buffer.from([0xff, 0xc0]));
  made.writeUInt16BE(height, frame + 5);
  made.writeUInt16BE(width, frame + 7);
  return made;
};
/** The small WebP with another size in its picture, and in its header too where that is asked for. */
const webpOf = (file: Buffer, size: number, header: boolean): Buffer => {
  const made = Buffer.from(file);
  if (header) {
    const at = made.indexOf('VP8X') + 8;
    made.writeUIntLE(size - 1, at + 4, 3);
    made.writeUIntLE(size - 1, at + 7, 3);
  }
  const lossy = made.indexOf('VP8 ');
  if (lossy >= 0) {
    made.writeUInt16LE(size, lossy + 14);
    made.writeUInt16LE(size, lossy + 16);
  } else {
    const at = made.indexOf('VP8L') + 9;
    made.writeUInt32LE(((size - 1) | ((size - 1) << 14)) >>> 0, at);
  }
  return made;
};
const troubleOf = (file: Buffer): string => {
  const found = cleanPhoto(file, 'p');
  return found.ok ? 'kept' : `${found.trouble.code}: ${found.trouble.sentence}`;
};

describe('the size a photograph claims', () => {
  test('[R6] a file of 74 bytes that says it is 12000 by 10000 pixels is refused before anything is decoded', () => {
    const tiny = pngOf(12_000, 10_000, plain, deflateSync(Buffer.alloc(0)));
    expect(tiny.length).toBeLessThan(80);
    expect(troubleOf(tiny)).toMatch(/^photo-too-large: p has 12000 × 10000 pixels; the most is 64 million/);
    expect(troubleOf(pngOf(1200, 1000, plain, deflateSync(Buffer.alloc(0))))).toMatch(
      /^photo-damaged: .*it says that it is 1200 × 1000 pixels, which 8 bytes cannot hold/,
    );
  });

  test('[R6] PNG: as many pixels as deflate can make of so many bytes, whatever the kind of colour', () => {
    for (const kind of [plain, alpha, { depth: 1, colour: 3 }, { depth: 16, colour: 2 }, { depth: 8, colour: 4 }]) {
      const honest = pngOf(2000, 1500, kind);
      expect(troubleOf(honest)).toBe('kept');
      const bits = 2000 * 1500 * kind.depth * (samples[kind.colour] as number);
      const least = Math.ceil(bits / 8 / 1032);
      expect(troubleOf(pngOf(2000, 1500, kind, Buffer.alloc(least)))).toBe('kept');
      expect(troubleOf(pngOf(2000, 1500, kind, Buffer.alloc(least - 1)))).toContain('cannot hold');
    }
    expect(troubleOf(pngOf(2, 2, { depth: 8, colour: 6 }).fill(5, 25, 26))).toContain('photo-damaged');
  });

  test('[R6] JPEG: no fewer bits than blocks of 8 by 8 pixels', () => {
    const scan = jpeg.indexOf(Buffer.from([0xff, 0xda]));
    const data = jpeg.length - 2 - (scan + 2 + jpeg.readUInt16BE(scan + 2));
    expect(troubleOf(jpegOf(8 * 8, 8 * data))).toBe('kept');
    expect(troubleOf(jpegOf(8 * 8, 8 * data + 1))).toContain('cannot hold');
    expect(troubleOf(jpegOf(65_535, 65_535))).toContain('photo-too-large');
  });

  test('[R6] WebP: no fewer bits than macroblocks, and one size in both its headers', () => {
    const data = webp.readUInt32LE(webp.indexOf('VP8 ') + 4);
    const side = 16 * Math.floor(Math.sqrt(8 * data));
    expect(troubleOf(webpOf(webp, side, true))).toBe('kept');
    expect(troubleOf(webpOf(webp, side + 16, true))).toContain('cannot hold');
    expect(troubleOf(webpOf(webp, side, false))).toContain('differ in size');
    expect(troubleOf(webpOf(webpLossless, 8000, true))).toBe('kept');
    expect(troubleOf(webpOf(webpLossless, 8001, true))).toContain('photo-too-large');
  });
});

describe('photographs on paper', () => {
  test('[R6] what must be taken apart is told from the header', () => {
    expect(pixelsTakenApart(pngOf(30, 20, plain))).toBe(0);
    expect(pixelsTakenApart(pngOf(30, 20, { depth: 8, colour: 2 }))).toBe(0);
    expect(pixelsTakenApart(pngOf(30, 20, alpha))).toBe(600);
    expect(pixelsTakenApart(pngOf(30, 20, { depth: 8, colour: 4 }))).toBe(600);
    expect(pixelsTakenApart(pngOf(30, 20, { ...plain, interlaced: true }))).toBe(600);
    const palette = chunk('PLTE', Buffer.alloc(6));
    expect(pixelsTakenApart(pngOf(30, 20, { depth: 8, colour: 3, more: palette }))).toBe(0);
    expect(pixelsTakenApart(pngOf(30, 20, { depth: 8, colour: 3, more: Buffer.concat([palette, chunk('tRNS', Buffer.alloc(1))]) }))).toBe(
      600,
    );
    expect(pixelsTakenApart(jpeg)).toBe(0);
    expect(pixelsTakenApart(png.subarray(0, 20))).toBe(0);
  });

  const small: PhotoFile = { type: 'image/jpeg', data: smallJpeg };
  const asked: string[] = [];
  const from = (kept: Readonly<Record<string, PhotoFile>>) => async (hash: string, which: 'whole' | 'thumbnail') => {
    asked.push(`${hash} ${which}`);
    return which === 'whole' ? (kept[hash] ?? null) : small;
  };
  const head = (pixels: number): PhotoFile => ({ type: 'image/png', data: pngOf(pixels / 1000, 1000, alpha, Buffer.alloc(1)) });

  test('[R6] they are printed whole up to the pixels there may be, all together, and after that from their small pictures', async () => {
    const most = limits.printedPixels;
    const printed = await printedOf(
      ['a', 'b', 'a', 'c', 'd'],
      from({ a: head(most - 1000), b: head(2000), c: head(1000), d: { type: 'image/jpeg', data: jpeg } }),
    );
    expect([...printed].map(([hash, { file, small: why }]) => [hash, file === small, why === null])).toEqual([
      ['a', false, true],
      ['b', true, false],
      ['c', false, true],
      ['d', false, true],
    ]);
    expect(printed.get('b')?.small).toContain('too many pixels');
  });

  test('[R6] and up to the bytes there may be', async () => {
    const weighs = (bytes: number): PhotoFile => ({ type: 'image/jpeg', data: Buffer.alloc(bytes) });
    const printed = await printedOf(['a', 'b', 'c', 'gone'], from({ a: weighs(limits.printedBytes - 1), b: weighs(2), c: weighs(1) }));
    expect([...printed].map(([, { file, small: why }]) => [file?.data.length ?? null, why === null])).toEqual([
      [limits.printedBytes - 1, true],
      [smallJpeg.length, false],
      [1, true],
      [null, true],
    ]);
    expect(printed.get('b')?.small).toContain('more than 64 MiB');
  });

  test('[R6] a report with a picture of 120 million pixels is printed with its small one, and says so beside it', async () => {
    const photographs = ['huge'].map((hash) => ({
      hash,
      caption: 'the whole unit',
      slot: asId<SlotId>('turbine-wheel'),
      observation: null,
      width: 12_000,
      height: 10_000,
    }));
    const [sheet] = demoPack.sheets.filter(({ kind }) => kind === 'found');
    if (sheet === undefined) throw new Error('no sheet');
    const report = reportOn(groundOf(demo, sheet, { photographs }));
    const bytes = await reportPdf(report, {
      made: new Date(0),
      photo: from({ huge: { type: 'image/png', data: pngOf(12_000, 10_000, alpha, Buffer.alloc(200)) } }),
    });
    const { text } = await readPdf(bytes);
    expect(text.join(' ').replace(/\s+/g, ' ')).toContain('the whole unit Printed from its small picture');
    const raw = Buffer.from(bytes).toString('latin1');
    expect(raw).toContain('/Width 24');
    expect(raw).not.toContain('/Width 12000');
  });
});
