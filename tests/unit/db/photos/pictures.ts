import { crc32, deflateSync } from 'node:zlib';

/** Small pictures as a browser writes them, colour profile and all: drawn on a canvas in Chromium. */

/** 16 × 12 pixels. */
export const jpeg: Buffer = Buffer.from(
  '/9j/4AAQSkZJRgABAQAAAQABAAD/4gHYSUNDX1BST0ZJTEUAAQEAAAHIAAAAAAQwAABtbnRyUkdCIFhZWiAH4AABAAEAAAAAAABhY3NwAAAAAAAAAAAAAAAAAAAAAAAAAA' +
    'AAAAAAAAAAAQAA9tYAAQAAAADTLQAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAlkZXNjAAAA8AAAACRyWFlaAAABFAAAABRn' +
    'WFlaAAABKAAAABRiWFlaAAABPAAAABR3dHB0AAABUAAAABRyVFJDAAABZAAAAChnVFJDAAABZAAAAChiVFJDAAABZAAAAChjcHJ0AAABjAAAADxtbHVjAAAAAAAAAAEAAA' +
    'AMZW5VUwAAAAgAAAAcAHMAUgBHAEJYWVogAAAAAAAAb6IAADj1AAADkFhZWiAAAAAAAABimQAAt4UAABjaWFlaIAAAAAAAACSgAAAPhAAAts9YWVogAAAAAAAA9tYAAQAA' +
    'AADTLXBhcmEAAAAAAAQAAAACZmYAAPKnAAANWQAAE9AAAApbAAAAAAAAAABtbHVjAAAAAAAAAAEAAAAMZW5VUwAAACAAAAAcAEcAbwBvAGcAbABlACAASQBuAGMALgAgAD' +
    'IAMAAxADb/2wBDAAYEBQYFBAYGBQYHBwYIChAKCgkJChQODwwQFxQYGBcUFhYaHSUfGhsjHBYWICwgIyYnKSopGR8tMC0oMCUoKSj/2wBDAQcHBwoIChMKChMoGhYaKCgo' +
    'KCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCj/wAARCAAMABADASIAAhEBAxEB/8QAFgABAQEAAAAAAAAAAAAAAAAAAgEG/8QAFhABAQ' +
    'EAAAAAAAAAAAAAAAAAAQAC/8QAFQEBAQAAAAAAAAAAAAAAAAAABAX/xAAZEQACAwEAAAAAAAAAAAAAAAAABAECIQX/2gAMAwEAAhEDEQA/AMXkmFCZUEl4wZ027af/2Q==',
  'base64',
);
/** 16 × 12 pixels. */
export const png: Buffer = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAABAAAAAMCAYAAABr5z2BAAABA0lEQVR4AZRRPasCQQyM2fUfPZDHE56CHyiKijYWIiiIhYUIWmhhZWFjYWVhY+Gv9I6Y29ytu+dZWIXZTG' +
    'YmWbz/FOhWKNL1t0SXvxqdi006/XfoWO7ToTKkfXVEu/qENo0ZrVoLWrSXNO+uadrb0niwJwxRQ5BTYKtKcN5/xzQWHtphcEQMGSHMCSlU0TBjaxZh4WNoHDVIlccAo8ok' +
    'U3WchLGbNBbDwDgrJumXSOIck+x6GRilycMZTbtehrPMKUCJq+HBpCBx5rUMdkQ/4TiBgkTx24peTHb2sPkNVzx9yDykEnx/C0lgnZX8hrN7dBd/Ld+EE7ix/Ka/jmZx9X' +
    'arJwAAAP//Ete2OQAAAAZJREFUAwC7FdMtiTYJxwAAAABJRU5ErkJggg==',
  'base64',
);
/** 16 × 12 pixels. */
export const webp: Buffer = Buffer.from(
  'UklGRhoCAABXRUJQVlA4WAoAAAAgAAAADwAACwAASUNDUMgBAAAAAAHIAAAAAAQwAABtbnRyUkdCIFhZWiAH4AABAAEAAAAAAABhY3NwAAAAAAAAAAAAAAAAAAAAAAAAAA' +
    'AAAAAAAAAAAQAA9tYAAQAAAADTLQAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAlkZXNjAAAA8AAAACRyWFlaAAABFAAAABRn' +
    'WFlaAAABKAAAABRiWFlaAAABPAAAABR3dHB0AAABUAAAABRyVFJDAAABZAAAAChnVFJDAAABZAAAAChiVFJDAAABZAAAAChjcHJ0AAABjAAAADxtbHVjAAAAAAAAAAEAAA' +
    'AMZW5VUwAAAAgAAAAcAHMAUgBHAEJYWVogAAAAAAAAb6IAADj1AAADkFhZWiAAAAAAAABimQAAt4UAABjaWFlaIAAAAAAAACSgAAAPhAAAts9YWVogAAAAAAAA9tYAAQAA' +
    'AADTLXBhcmEAAAAAAAQAAAACZmYAAPKnAAANWQAAE9AAAApbAAAAAAAAAABtbHVjAAAAAAAAAAEAAAAMZW5VUwAAACAAAAAcAEcAbwBvAGcAbABlACAASQBuAGMALgAgAD' +
    'IAMAAxADZWUDggLAAAAHABAJ0BKhAADAABQCYlsAJ0AYhAAP7wJixvbX4wYbcP2f/iWrmyI0wl6cAA',
  'base64',
);
/** 16 × 12 pixels. */
export const webpLossless: Buffer = Buffer.from(
  'UklGRsACAABXRUJQVlA4WAoAAAAwAAAADwAACwAASUNDUMgBAAAAAAHIAAAAAAQwAABtbnRyUkdCIFhZWiAH4AABAAEAAAAAAABhY3NwAAAAAAAAAAAAAAAAAAAAAAAAAA' +
    'AAAAAAAAAAAQAA9tYAAQAAAADTLQAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAlkZXNjAAAA8AAAACRyWFlaAAABFAAAABRn' +
    'WFlaAAABKAAAABRiWFlaAAABPAAAABR3dHB0AAABUAAAABRyVFJDAAABZAAAAChnVFJDAAABZAAAAChiVFJDAAABZAAAAChjcHJ0AAABjAAAADxtbHVjAAAAAAAAAAEAAA' +
    'AMZW5VUwAAAAgAAAAcAHMAUgBHAEJYWVogAAAAAAAAb6IAADj1AAADkFhZWiAAAAAAAABimQAAt4UAABjaWFlaIAAAAAAAACSgAAAPhAAAts9YWVogAAAAAAAA9tYAAQAA' +
    'AADTLXBhcmEAAAAAAAQAAAACZmYAAPKnAAANWQAAE9AAAApbAAAAAAAAAABtbHVjAAAAAAAAAAEAAAAMZW5VUwAAACAAAAAcAEcAbwBvAGcAbABlACAASQBuAGMALgAgAD' +
    'IAMAAxADZWUDhM0QAAAC8PwAIQb+KgbSRJSnE9/hDa92NA0LZtU3F3TkfQtm3a8cdxlG8y/3V4/NcbYABNCWCzzpl1bNAK1HRmVQKAxKoz60QArQIgWucrWIHA1JlVVREA' +
    'VcG/5AOABJhCEQAocojuPjiMJNu0nm2/b9u2jZN/QptDRP+DiIiI6P993fbrcQd/7/tpM+nX8fM472aDRhmfl8Ny2Kpm8XpcTdu1XIynzbxXL6QebhfdZjHjWrgctkrZwF' +
    'Zw1KnkQ0eTsFcvRJ4h89goJ76pCixWs4GtixwDAA==',
  'base64',
);

/** A chunk of a PNG. */
export const chunk = (kind: string, body: Buffer): Buffer => {
  const named = Buffer.concat([Buffer.from(kind, 'latin1'), body]);
  const [head, tail] = [Buffer.alloc(4), Buffer.alloc(4)];
  head.writeUInt32BE(body.length);
  tail.writeUInt32BE(crc32(named));
  return Buffer.concat([head, named, tail]);
};
interface Kind {
  readonly depth: number;
  readonly colour: number;
  readonly interlaced?: boolean;
  readonly more?: Buffer;
}
/** Samples of a pixel, by colour type. */
export const samples: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };
/** A PNG of nothing but zeros, which says that it has so many pixels, over data of its own or of that many rows. */
export const pngOf = (
  width: number,
  height: number,
  { depth, colour, interlaced = false, more = Buffer.alloc(0) }: Kind,
  data?: Buffer,
): Buffer => {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width);
  header.writeUInt32BE(height, 4);
  header.set([depth, colour, 0, 0, interlaced ? 1 : 0], 8);
  const row = 1 + Math.ceil((width * depth * (samples[colour] as number)) / 8);
  return Buffer.concat([
    png.subarray(0, 8),
    chunk('IHDR', header),
    more,
    chunk('IDAT', data ?? deflateSync(Buffer.alloc(row * height), { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
};
