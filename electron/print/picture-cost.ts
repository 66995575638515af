/** Width and height of a PNG's header, and whether it has to be taken apart before a PDF can hold it; null for anything else. */
interface PngHead {
  readonly width: number;
  readonly height: number;
  readonly takenApart: boolean;
}

/**
 * How many pixels must be taken apart and put together anew before a PDF can hold the picture; 0 where its data goes in as it stands. Read from the header, before
 * anything is decoded. A PDF holds JPEG as it is, and PNG's data too, but for an alpha channel, a transparent palette and interlacing
 * (ISO 32000-1, 7.4.4.4 and 11.6.5.3; PNG, third edition, 11.2.1 and 11.3.1.1).
 */
export const pixelsTakenApart = (file: Uint8Array): number => {
  const head = pngHead(file);
  return head?.takenApart === true ? head.width * head.height : 0;
};

const pngHead = (file: Uint8Array): PngHead | null => {
  const bytes = Buffer.from(file.buffer, file.byteOffset, file.byteLength);
  if (bytes.length < 33 || bytes.toString('latin1', 1, 4) !== 'PNG' || bytes.toString('latin1', 12, 16) !== 'IHDR') return null;
  const [colour, interlace] = [bytes[25] as number, bytes[28] as number];
  const alpha = (colour & 4) !== 0 || hasTransparency(bytes);
  return { width: bytes.readUInt32BE(16), height: bytes.readUInt32BE(20), takenApart: alpha || interlace !== 0 };
};

/** A `tRNS` chunk before the picture's data. */
const hasTransparency = (bytes: Buffer): boolean => {
  for (let at = 33; at + 8 <= bytes.length; at += 12 + bytes.readUInt32BE(at)) {
    const kind = bytes.toString('latin1', at + 4, at + 8);
    if (kind === 'tRNS') return true;
    if (kind === 'IDAT') return false;
  }
  return false;
};
