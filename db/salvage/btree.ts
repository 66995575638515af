import type { Pages } from './pages.ts';
import { type Value, valuesIn, varint } from './record.ts';

/** What is stored under one cell of a tree. */
export interface Entry {
  /** Of a table with row ids; null in the trees of indexes and of tables without them. */
  readonly rowid: number | null;
  /** In the order they are stored in; `undefined` where one could not be read. */
  readonly values: readonly Value[];
  /** False where some of it stands on pages that could not be had, or did not lead on to one another. */
  readonly whole: boolean;
}

/** A page of a tree (§1.6). */
export interface TreePage {
  readonly kind: 'table' | 'index';
  readonly leaf: boolean;
  /** Pages below it, in order. */
  readonly below: readonly number[];
  /** Where its entries begin; there are none on the inner pages of a table. */
  readonly cells: readonly number[];
  /** False where a cell or a page below could not be made out. */
  readonly whole: boolean;
  readonly bytes: Buffer;
}

/** Reads a page as one of a tree; null where it is none. */
export const treePageAt = (pages: Pages, number: number): TreePage | null => {
  const bytes = pages.page(number);
  if (bytes === null) return null;
  // The first page begins with the header of the file.
  const at = number === 1 ? 100 : 0;
  const type = bytes[at];
  if (type !== 2 && type !== 5 && type !== 10 && type !== 13) return null;
  const leaf = type === 10 || type === 13;
  const kind = type === 5 || type === 13 ? 'table' : 'index';
  const many = bytes.readUInt16BE(at + 3);
  const first = at + (leaf ? 8 : 12);
  const content = bytes.readUInt16BE(at + 5) || 65_536;
  // A page that is nobody's is a leaf without entries only at the root of an empty tree; noise seldom gets past this.
  if (first + 2 * many > pages.usable || content < first + 2 * many || content > pages.usable || (bytes[at + 7] ?? 0) > 60) return null;
  const cells: number[] = [];
  const below: number[] = [];
  let whole = true;
  const child = (page: number): void => {
    if (page >= 2 && page <= pages.count) below.push(page);
    else whole = false;
  };
  for (let n = 0; n < many; n += 1) {
    const cell = bytes.readUInt16BE(first + 2 * n);
    if (cell < content || cell + 4 > pages.usable) {
      whole = false;
      continue;
    }
    if (!leaf) child(bytes.readUInt32BE(cell));
    if (leaf || kind === 'index') cells.push(cell);
  }
  if (!leaf) child(bytes.readUInt32BE(at + 8));
  return { kind, leaf, below, cells, whole, bytes };
};

/** The entry of a cell; null where it cannot be made out at all. */
export const entryAt = (pages: Pages, { kind, leaf, bytes }: TreePage, cell: number): Entry | null => {
  const length = varint(bytes, leaf ? cell : cell + 4);
  if (length === null) return null;
  const rowid = kind === 'table' ? varint(bytes, length.next) : null;
  if (kind === 'table' && (rowid === null || Number.isNaN(rowid.value))) return null;
  const start = rowid?.next ?? length.next;
  const payload = payloadAt(pages, bytes, start, length.value, kind);
  if (payload === null) return null;
  const values = valuesIn(payload.bytes, length.value);
  return values === null ? null : { rowid: rowid?.value ?? null, values, whole: payload.whole && !values.includes(undefined) };
};

/** The bytes of a record: those on its page, and those on the pages that hold what did not fit there (§1.6). */
const payloadAt = (
  pages: Pages,
  bytes: Buffer,
  start: number,
  length: number,
  kind: TreePage['kind'],
): { readonly bytes: Buffer; readonly whole: boolean } | null => {
  const { usable } = pages;
  if (!(length >= 1 && length <= pages.count * usable)) return null;
  const most = kind === 'table' ? usable - 35 : Math.floor(((usable - 12) * 64) / 255) - 23;
  const least = Math.floor(((usable - 12) * 32) / 255) - 23;
  const spilt = least + ((length - least) % (usable - 4));
  const here = length <= most ? length : spilt <= most ? spilt : least;
  if (start + here + (here < length ? 4 : 0) > usable) return null;
  const pieces = [bytes.subarray(start, start + here)];
  let left = length - here;
  let whole = true;
  const seen = new Set<number>();
  for (let next = left > 0 ? bytes.readUInt32BE(start + here) : 0; left > 0 || next !== 0; ) {
    const page = next < 2 || left === 0 || seen.has(next) ? null : pages.page(next);
    if (page === null) {
      // The page that led here is not what it was, nor is what it holds.
      if (pieces.length > 1) pieces.pop();
      whole = false;
      break;
    }
    seen.add(next);
    pieces.push(page.subarray(4, 4 + Math.min(left, usable - 4)));
    left -= Math.min(left, usable - 4);
    next = page.readUInt32BE(0);
  }
  return { bytes: Buffer.concat(pieces), whole: whole && left === 0 };
};
