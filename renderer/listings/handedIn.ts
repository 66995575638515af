import type { Trouble } from '../../electron/bridge/contract.ts';
import { desk } from '../bridge/desk.ts';
import { handInParts } from '../bridge/handInParts.ts';

/** Files somebody chose, sorted by what is done with them; what was left alone is named, since it may have been meant. */
export interface Chosen {
  /** Sheet files, by their texts. */
  readonly files: readonly { readonly name: string; readonly text: string | null }[];
  readonly tables: readonly { readonly name: string; readonly content: Blob }[];
  readonly leftAlone: readonly string[];
}

/** The bridge carries 16 MiB in one call; the rest is room for how JSON writes letters. */
export const mostBytes = 10 * 1024 * 1024;
/** Tables the desk holds at once. */
export const mostTables = 20;

export const totalBytes = (files: Iterable<File>): number => [...files].reduce((sum, { size }) => sum + size, 0);

/** Sheet files and tables are known by their names. Bytes of a sheet that are no UTF-8 are handed on as such, never with letters changed. */
export async function chosenIn(chosen: Iterable<File>): Promise<Chosen> {
  const all = [...chosen]
    .map((file) => ({ file, name: file.webkitRelativePath === '' ? file.name : file.webkitRelativePath }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
  const called = (pattern: RegExp) => all.filter(({ name }) => pattern.test(name));
  const [sheets, tables] = [called(/\.json$/i), called(/\.(csv|tsv|txt|xls[xm])$/i)];
  const taken = tables.slice(0, mostTables);
  return {
    files: await Promise.all(sheets.map(async ({ file, name }) => ({ name, text: await textOf(file) }))),
    tables: taken.map(({ file, name }) => ({ name, content: file })),
    leftAlone: all.filter((one) => !sheets.includes(one) && !taken.includes(one)).map(({ name }) => name),
  };
}

const textOf = async (file: File): Promise<string | null> => {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
  } catch {
    return null;
  }
};

/** Hands a table, or the text of cells, to the desk, a part at a time; gives its token. */
export const handInListings = (
  name: string,
  content: Blob,
): Promise<{ readonly ok: true; readonly value: string } | { readonly ok: false; readonly trouble: Trouble }> =>
  handInParts(content, (token, data) => desk.ask('listings.handIn', { token, name: name.slice(0, 300), data }));
