import { access, readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import Papa from 'papaparse';
import type { z } from 'zod';
import { type CsvFile, type CsvRow, csvColumns } from '../atlas/pack.ts';
import { csvPlacesIn } from '../read/csv-places.ts';
import type { Faults } from '../read/faults.ts';
import { shown } from '../read/faults.ts';
import type { JsonPlaces } from '../read/json-places.ts';
import { parseJson } from '../read/parse-json.ts';
import { quotingFault } from '../read/quoting-fault.ts';

/** The files of a pack, wherever they are. */
export interface PackFiles {
  /** As troubles name it. */
  readonly name: string;
  /** Throws as the file system does. */
  read(file: string): Promise<Buffer>;
  /** Whether a file that may be left out is there, whatever it holds. */
  has(file: string): Promise<boolean>;
  /** Names of the files in `sheets`. Throws as the file system does where there is no such folder. */
  sheets(): Promise<readonly string[]>;
}

/** Those of a folder. */
export const filesIn = (folder: string): PackFiles => ({
  name: folder,
  read: (file) => readFile(join(folder, file)),
  has: async (file) => {
    try {
      await access(join(folder, file));
      return true;
    } catch (error) {
      return (error as NodeJS.ErrnoException).code !== 'ENOENT';
    }
  },
  sheets: async () =>
    (await readdir(join(folder, 'sheets'), { withFileTypes: true })).filter((entry) => entry.isFile()).map(({ name }) => name),
});

/** Those of a pack that stands in memory, by path. */
export const filesOf = (name: string, texts: ReadonlyMap<string, string>): PackFiles => ({
  name,
  read: async (file) => {
    const text = texts.get(file);
    if (text === undefined) throw Object.assign(new Error(`no ${file}`), { code: 'ENOENT' });
    return Buffer.from(text);
  },
  has: async (file) => texts.has(file),
  sheets: async () => [...texts.keys()].filter((file) => file.startsWith('sheets/')).map((file) => file.slice('sheets/'.length)),
});

/** A JSON file as read: what it holds and where it holds it. */
export interface ReadJson<T> {
  readonly value: T;
  readonly places: JsonPlaces;
}

/** Null, with a fault, when the file is missing, is not UTF-8, is not JSON or has another shape. */
export const readJson = async <S extends z.ZodType>(
  from: PackFiles,
  file: string,
  schema: S,
  faults: Faults,
): Promise<ReadJson<z.output<S>> | null> => {
  const text = await readText(from, file, faults);
  const read = text === null ? null : parsedInto(text, file, schema, faults);
  if (read === null) faults.unread.add(file);
  return read;
};

const parsedInto = <S extends z.ZodType>(text: string, file: string, schema: S, faults: Faults): ReadJson<z.output<S>> | null => {
  const parsed = parseJson(text, schema);
  if (parsed.ok) return parsed;
  for (const { found, expected, ...place } of parsed.faults)
    faults.add({ file, ...place }, found, parsed.isJson ? expected : `JSON, with ${expected} here`);
  return null;
};

/** A row of a CSV, as a spreadsheet counts them, with its cells. */
export interface CsvRead<F extends CsvFile> {
  readonly row: number;
  readonly cells: CsvRow<F>;
}

/** Rows of a CSV with the row each stands in. Rows that do not fit the header are faults and left out. Each is made when it is asked for: there may be millions. */
export const readCsv = async <F extends CsvFile>(from: PackFiles, file: F, faults: Faults): Promise<Iterable<CsvRead<F>>> => {
  const text = await readText(from, file, faults);
  const before = faults.count;
  const rows = text === null ? [] : parseCsv(text, file, faults);
  if (text === null || faults.count > before) faults.unread.add(file);
  return rows;
};

export const parseCsv = <F extends CsvFile>(text: string, file: F, faults: Faults): Iterable<CsvRead<F>> => {
  const columns: readonly string[] = csvColumns[file];
  const parsed = Papa.parse<string[]>(text.endsWith('\n') ? text.slice(0, text.endsWith('\r\n') ? -2 : -1) : text, { delimiter: ',' });
  faults.cellsOf(file, columns, csvPlacesIn(text, parsed.meta.linebreak));
  const badQuotes = new Map(parsed.errors.map((error) => [error.row ?? 0, error.code]));
  const [header = [], ...body] = parsed.data;
  if (header.join(',') !== columns.join(',')) {
    faults.add({ file, row: 1 }, shown(header.join(',')), `the header ${columns.join(',')}`);
    return [];
  }
  for (const [index, cells] of body.entries()) {
    const row = index + 2;
    const bad = badQuotes.get(index + 1);
    if (bad !== undefined) faults.add({ file, row }, ...quotingFault(bad));
    else if (cells.length !== columns.length)
      faults.add({ file, row }, `${cells.length} cells`, `${columns.length} cells (${columns.join(', ')})`);
  }
  return {
    *[Symbol.iterator]() {
      for (const [index, cells] of body.entries())
        if (!badQuotes.has(index + 1) && cells.length === columns.length)
          yield { row: index + 2, cells: cellsBy(columns, cells) as CsvRow<F> };
    },
  };
};

const cellsBy = (columns: readonly string[], cells: readonly string[]): Readonly<Record<string, string>> => {
  const by: Record<string, string> = {};
  for (let at = 0; at < columns.length; at += 1) by[columns[at] as string] = cells[at] as string;
  return by;
};

/** UTF-8 text without its byte order mark. */
export const readText = async (from: PackFiles, file: string, faults: Faults): Promise<string | null> => {
  let bytes: Buffer;
  try {
    bytes = await from.read(file);
  } catch (error) {
    faults.add({ file }, reasonOf(error), 'a file that can be read');
    return null;
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    faults.add({ file, row: firstBadRow(bytes) }, 'bytes that are not UTF-8', 'text in UTF-8');
    return null;
  }
};

/** Names of the sheet files, sorted; none when the pack has no such folder. */
export const sheetFiles = async (from: PackFiles, faults: Faults): Promise<string[]> => {
  try {
    return (await from.sheets())
      .filter((name) => name.endsWith('.json'))
      .map((name) => `sheets/${name}`)
      .sort();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') faults.add({ file: 'sheets' }, reasonOf(error), 'a folder that can be read');
    return [];
  }
};

export const reasonOf = (error: unknown): string => {
  switch ((error as NodeJS.ErrnoException).code) {
    case 'ENOENT':
      return 'no such file';
    case 'EACCES':
    case 'EPERM':
      return 'a file that may not be read';
    case 'EISDIR':
      return 'a folder';
    case 'ENOTDIR':
      return 'a file where a folder should be';
    default:
      return error instanceof Error ? error.message : String(error);
  }
};

const firstBadRow = (bytes: Buffer): number => {
  let row = 1;
  for (const line of splitLines(bytes)) {
    try {
      new TextDecoder('utf-8', { fatal: true }).decode(line);
    } catch {
      return row;
    }
    row += 1;
  }
  return row;
};

function* splitLines(bytes: Buffer): Generator<Buffer> {
  for (let start = 0; start <= bytes.length; ) {
    const end = bytes.indexOf(10, start);
    yield bytes.subarray(start, end === -1 ? bytes.length : end);
    if (end === -1) return;
    start = end + 1;
  }
}
