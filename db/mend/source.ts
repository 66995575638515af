import { closeSync, fstatSync, openSync, readFileSync, readSync } from 'node:fs';
import { cleanPhoto } from '../photos/clean-photo.ts';
import { type Bytes, pagesOf } from '../salvage/pages.ts';
import { type Layout, type Place, type Salvage, type SalvagedRow, salvage } from '../salvage/salvage.ts';
import { lettersIndex, numbersIndex, photosIndex, yearCounts, yearsIndex } from './layouts.ts';
import { isLettered, isNumbered, isShown, isYearCount, keyOfRow, photoHolds, type ShopTable, shopTables } from './shop-tables.ts';

/** A row as a file holds it. */
export interface Kept {
  readonly row: SalvagedRow;
  /** It stands on a page nothing leads to, and may have been deleted before the damage. */
  readonly loose: boolean;
}

export interface KeptTable {
  /** By key. */
  readonly rows: ReadonlyMap<string, Kept>;
  /** What can be read of rows that are there and cannot be read whole. */
  readonly torn: readonly SalvagedRow[];
  /** Whether what is not among its rows is not there either. */
  readonly complete: boolean;
}

/** A photograph in a file: everything of it but its pictures, which are read when they are wanted. */
export interface KeptPhoto {
  readonly id: string;
  /** False where its small picture was lost. */
  readonly small: boolean;
  /** The file it was written into by itself; left out where it stands in an atlas. */
  readonly from?: { readonly file: string; readonly at: string | null };
  /** The row with both pictures; the small one is null where it was lost. Null where the file changed meanwhile. */
  read(): SalvagedRow | null;
}

/** One file of rows, damaged or not, read page by page. */
export interface Source {
  readonly file: string;
  /** ISO time of a copy; null for the file that is mended. */
  readonly at: string | null;
  table(name: string): KeptTable;
  readonly photos: ReadonlyMap<string, KeptPhoto>;
  /** Rows of an index, or of a table only older files have, that are not damaged there. */
  index(name: string): readonly SalvagedRow[];
  isComplete(name: string): boolean;
  /** Every row of any table, as it is. */
  rowsOf(name: string): Iterable<SalvagedRow>;
  close(): void;
}

const tables = new Map(shopTables.map((table) => [table.name, table]));

const looksLike = (name: string, row: SalvagedRow): boolean => {
  if (name === numbersIndex) return isNumbered(row) && isLettered(row);
  if (name === yearsIndex) return isNumbered(row);
  if (name === yearCounts) return isYearCount(row);
  if (name === lettersIndex) return isLettered(row);
  if (name === photosIndex) return isShown(row);
  const table = tables.get(name);
  return table !== undefined && (name === 'photos' ? photoHolds(row) : table.holds(row));
};

/** Opens a file to be read page by page; throws as the file system does. Everything is read when it is asked for. */
export const openSource = (file: string, at: string | null, layouts: readonly Layout[]): Source => {
  const handle = openSync(file, 'r');
  const read = salvage(pagesOf(bytesOfFile(handle), walBeside(file)), layouts, looksLike);
  const known = new Map<string, KeptTable>();
  let photos: ReadonlyMap<string, KeptPhoto> | null = null;
  return {
    file,
    at,
    table: (name) => {
      const found = known.get(name) ?? tableIn(read, tables.get(name) as ShopTable);
      known.set(name, found);
      return found;
    },
    get photos() {
      photos ??= photosIn(read);
      return photos;
    },
    index: (name) => [...read.rowsOf(name)].filter(({ whole, row }) => whole && looksLike(name, row)).map(({ row }) => row),
    isComplete: (name) => read.isComplete(name),
    *rowsOf(name) {
      for (const { row, whole, loose } of read.rowsOf(name)) if (whole && !loose) yield row;
    },
    close: () => closeSync(handle),
  };
};

const tableIn = (read: Salvage, table: ShopTable): KeptTable => {
  const rows = new Map<string, Kept>();
  const torn: SalvagedRow[] = [];
  for (const { row, whole, loose } of read.rowsOf(table.name)) {
    // Samples come with their packs.
    if (table.name === 'sheets' && row.origin === 'sample') continue;
    if (!whole || !table.holds(row)) {
      torn.push(row);
      continue;
    }
    const key = keyOfRow(table, row);
    const before = rows.get(key);
    // Those that are led to come first.
    if (before === undefined || (before.loose && isNewer(table, row, before.row))) rows.set(key, { row, loose });
  }
  return { rows, torn, complete: torn.length === 0 && read.isComplete(table.name) };
};

const isNewer = ({ at }: ShopTable, a: SalvagedRow, b: SalvagedRow): boolean => at !== null && String(a[at]) > String(b[at]);

const photosIn = (read: Salvage): ReadonlyMap<string, KeptPhoto> => {
  const photos = new Map<string, KeptPhoto>();
  const take = (row: SalvagedRow, place: Place): void => {
    const id = String(row.id);
    if (photos.has(id) || !photoHolds(row)) return;
    // Not kept: the pictures of an atlas would fill the memory.
    photos.set(id, { id, small: smallHolds(row), read: () => wholePhoto(read.at('photos', place)) });
  };
  for (const { row, place } of read.rowsOf('photos')) take(row, place);
  return photos;
};

/** No hash is kept of a small picture; whether it hangs together is all that can be told of it. */
const smallHolds = (row: SalvagedRow): boolean =>
  tables.get('photos')?.holds(row) === true && cleanPhoto(row.thumbnail as Buffer, 'the small picture').ok;

const wholePhoto = (row: SalvagedRow | null): SalvagedRow | null => {
  if (row === null || !photoHolds(row)) return null;
  return smallHolds(row) ? row : { ...row, thumbnail: null, thumbnail_type: null };
};

const blockSize = 1024 * 1024;
const mostBlocks = 64;

/** A file in blocks, the last used of which are kept. */
const bytesOfFile = (handle: number): Bytes => {
  const { size } = fstatSync(handle);
  const blocks = new Map<number, Buffer>();
  const block = (number: number): Buffer => {
    const known = blocks.get(number);
    if (known !== undefined) {
      blocks.delete(number);
      blocks.set(number, known);
      return known;
    }
    const bytes = Buffer.alloc(Math.min(blockSize, Math.max(0, size - number * blockSize)));
    const read = bytes.length === 0 ? 0 : readSync(handle, bytes, 0, bytes.length, number * blockSize);
    const found = bytes.subarray(0, read);
    blocks.set(number, found);
    const [oldest] = blocks.keys();
    if (blocks.size > mostBlocks && oldest !== undefined) blocks.delete(oldest);
    return found;
  };
  return {
    size,
    // A page never stands in two blocks: both are as many bytes as a power of two, and a block is the larger one.
    at: (offset, length) => block(Math.floor(offset / blockSize)).subarray(offset % blockSize, (offset % blockSize) + length),
  };
};

const walBeside = (file: string): Buffer | null => {
  try {
    return readFileSync(`${file}-wal`);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    return null;
  }
};
