import { committedIn } from './wal.ts';

/** An SQLite file as its pages, the first of which is 1. What is said of the format is sqlite.org/fileformat2.html. */
export interface Pages {
  /** In bytes. */
  readonly pageSize: number;
  /** Bytes of a page that hold content: less what is reserved at its end. */
  readonly usable: number;
  readonly count: number;
  /** The first page says what file it is; where it does not, nothing it says of free pages can be had. */
  readonly headed: boolean;
  /** Null where there is no such page, or it is cut short. */
  page(number: number): Buffer | null;
}

/** What pages are read from. */
export interface Bytes {
  readonly size: number;
  /** Fewer bytes than asked for at the end of the file. */
  at(offset: number, length: number): Buffer;
}

/** Every atlas has been made with pages of this size, SQLite's own; taken where the header no longer says. */
const usualPageSize = 4096;

/**
 * The pages of a file as its last reader would have seen them: what is committed in its write-ahead log stands in the place of what is in the file.
 * @param wal the log beside it, or null
 */
export const pagesOf = (file: Bytes, wal: Buffer | null): Pages => {
  const header = file.at(0, 100);
  // §1.2: magic, page size at 16 (1 stands for 65536), bytes reserved at 20.
  const magic = header.length === 100 && header.toString('latin1', 0, 16) === 'SQLite format 3\0';
  const said = header.length === 100 ? (header.readUInt16BE(16) === 1 ? 65_536 : header.readUInt16BE(16)) : 0;
  const headed = magic && isPageSize(said) && (header[20] ?? 0) <= said - 480;
  const committed = wal === null ? null : committedIn(wal);
  const pageSize = headed ? said : (committed?.pageSize ?? usualPageSize);
  const frames = committed !== null && committed.pageSize === pageSize ? committed.frames : new Map<number, Buffer>();
  const usable = pageSize - (headed ? (header[20] ?? 0) : 0);
  const count = Math.max(Math.ceil(file.size / pageSize), ...frames.keys());
  return {
    pageSize,
    usable,
    count,
    headed: headed || frames.has(1),
    page: (number) => {
      if (!(number >= 1 && number <= count)) return null;
      const page = frames.get(number) ?? file.at((number - 1) * pageSize, pageSize);
      return page.length === pageSize ? page : null;
    },
  };
};

const isPageSize = (size: number): boolean => size >= 512 && size <= 65_536 && (size & (size - 1)) === 0;

export const bytesOf = (buffer: Buffer): Bytes => ({
  size: buffer.length,
  at: (offset, length) => buffer.subarray(offset, offset + length),
});
