/** What a write-ahead log holds of whole transactions: the last state of each page in it. */
export interface Committed {
  readonly pageSize: number;
  readonly frames: ReadonlyMap<number, Buffer>;
}

/**
 * Reads a write-ahead log (sqlite.org/fileformat2.html, §4): frames in order for as long as their salts and check sums hold, of these the ones up to the
 * last that ends a transaction. Null where it is none, or holds nothing.
 */
export const committedIn = (wal: Buffer): Committed | null => {
  if (wal.length < 32) return null;
  const magic = wal.readUInt32BE(0);
  // The lowest bit says which way the numbers stand that the check sum adds up.
  if (magic !== 0x377f0682 && magic !== 0x377f0683) return null;
  const bigEnd = magic === 0x377f0683;
  const pageSize = wal.readUInt32BE(8);
  if (pageSize < 512 || pageSize > 65_536 || (pageSize & (pageSize - 1)) !== 0) return null;
  let sums = checkSum(wal.subarray(0, 24), [0, 0], bigEnd);
  if (sums[0] !== wal.readUInt32BE(24) || sums[1] !== wal.readUInt32BE(28)) return null;
  const salts = wal.subarray(16, 24);
  const frames = new Map<number, Buffer>();
  let open = new Map<number, Buffer>();
  for (let at = 32; at + 24 + pageSize <= wal.length; at += 24 + pageSize) {
    const page = wal.subarray(at + 24, at + 24 + pageSize);
    if (!wal.subarray(at + 8, at + 16).equals(salts)) break;
    sums = checkSum(page, checkSum(wal.subarray(at, at + 8), sums, bigEnd), bigEnd);
    if (sums[0] !== wal.readUInt32BE(at + 16) || sums[1] !== wal.readUInt32BE(at + 20)) break;
    open.set(wal.readUInt32BE(at), page);
    if (wal.readUInt32BE(at + 4) === 0) continue;
    for (const [number, frame] of open) frames.set(number, frame);
    open = new Map();
  }
  return frames.size === 0 ? null : { pageSize, frames };
};

/** §4.2: over pairs of 32-bit numbers, each sum taking in the other. */
const checkSum = (bytes: Buffer, [first, second]: readonly [number, number], bigEnd: boolean): [number, number] => {
  let [a, b] = [first, second];
  for (let at = 0; at < bytes.length; at += 8) {
    const x = bigEnd ? bytes.readUInt32BE(at) : bytes.readUInt32LE(at);
    const y = bigEnd ? bytes.readUInt32BE(at + 4) : bytes.readUInt32LE(at + 4);
    a = (a + x + b) >>> 0;
    b = (b + y + a) >>> 0;
  }
  return [a, b];
};
