import { crc32, deflateSync, inflateSync } from 'node:zlib';

/** A screen's picture with a palette of 256: the colours most of it is made of stay as they are, the rest (edges of letters) goes to the nearest of them. PNG, W3C 2003. */
export const smallPng = (png: Buffer): Buffer => {
  const { width, height, channels, pixels } = decoded(png);
  const counts = new Map<number, number>();
  const colours = new Uint32Array(width * height);
  for (let at = 0; at < colours.length; at += 1) {
    const from = at * channels;
    const colour = ((pixels[from] as number) << 16) | ((pixels[from + 1] as number) << 8) | (pixels[from + 2] as number);
    colours[at] = colour;
    counts.set(colour, (counts.get(colour) ?? 0) + 1);
  }
  const palette = [...counts]
    .sort((a, b) => b[1] - a[1])
    .slice(0, 256)
    .map(([colour]) => colour);
  const places = new Map<number, number>(palette.map((colour, place) => [colour, place]));
  const rows = Buffer.alloc(height * (width + 1));
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const colour = colours[y * width + x] as number;
      const place = places.get(colour) ?? nearest(palette, colour);
      places.set(colour, place);
      rows[y * (width + 1) + 1 + x] = place;
    }
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  // Eight bits a pixel, each the place of its colour in the palette.
  head.set([8, 3, 0, 0, 0], 8);
  return Buffer.concat([
    png.subarray(0, 8),
    chunk('IHDR', head),
    chunk('PLTE', Buffer.from(palette.flatMap((colour) => [colour >> 16, (colour >> 8) & 255, colour & 255]))),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
};

const nearest = (palette: readonly number[], colour: number): number => {
  let [best, least] = [0, Number.POSITIVE_INFINITY];
  palette.forEach((one, place) => {
    const far =
      ((one >> 16) - (colour >> 16)) ** 2 + (((one >> 8) & 255) - ((colour >> 8) & 255)) ** 2 + ((one & 255) - (colour & 255)) ** 2;
    if (far < least) [best, least] = [place, far];
  });
  return best;
};

const chunk = (type: string, data: Buffer): Buffer => {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const framed = Buffer.alloc(body.length + 8);
  framed.writeUInt32BE(data.length, 0);
  body.copy(framed, 4);
  framed.writeUInt32BE(crc32(body), body.length + 4);
  return framed;
};

/** As Chromium writes them: eight bits a channel, three or four channels, not interlaced. */
const decoded = (png: Buffer) => {
  const parts: Buffer[] = [];
  for (let at = 8; at < png.length; ) {
    const length = png.readUInt32BE(at);
    if (png.toString('latin1', at + 4, at + 8) === 'IDAT') parts.push(png.subarray(at + 8, at + 8 + length));
    at += length + 12;
  }
  const [width, height, kind] = [png.readUInt32BE(16), png.readUInt32BE(20), png[25]];
  if (png[24] !== 8 || (kind !== 2 && kind !== 6) || png[28] !== 0)
    throw new Error(`a picture of another kind: ${png[24]} bits, kind ${kind}`);
  const channels = kind === 2 ? 3 : 4;
  const raw = inflateSync(Buffer.concat(parts));
  const [wide, pixels] = [width * channels, Buffer.alloc(width * height * channels)];
  for (let y = 0; y < height; y += 1) {
    const filter = raw[y * (wide + 1)];
    for (let x = 0; x < wide; x += 1) {
      const to = y * wide + x;
      const left = x >= channels ? (pixels[to - channels] as number) : 0;
      const up = y > 0 ? (pixels[to - wide] as number) : 0;
      const corner = x >= channels && y > 0 ? (pixels[to - wide - channels] as number) : 0;
      const by = filter === 0 ? 0 : filter === 1 ? left : filter === 2 ? up : filter === 3 ? (left + up) >> 1 : paeth(left, up, corner);
      pixels[to] = (raw[y * (wide + 1) + 1 + x] as number) + by;
    }
  }
  return { width, height, channels, pixels };
};

/** PNG’s fourth filter: whichever of the three is nearest to left + up − corner. */
const paeth = (left: number, up: number, corner: number): number => {
  const [a, b, c] = [Math.abs(up - corner), Math.abs(left - corner), Math.abs(left + up - 2 * corner)];
  return a <= b && a <= c ? left : b <= c ? up : corner;
};
