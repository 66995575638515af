import type { CallArgs, Trouble } from '../../electron/bridge/contract.ts';
import { desk } from '../bridge/desk.ts';
import { fetchParts } from '../bridge/fetchParts.ts';
import { handInParts } from '../bridge/handInParts.ts';
import { giveBlob } from '../look/giveFile.ts';

type Done<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly trouble: Trouble };

/** Hands a spreadsheet, or the text of cells, to the desk, a part at a time; gives its token. */
export const handInTable = (name: string, content: Blob): Promise<Done<string>> =>
  handInParts(content, (token, data) => desk.ask('table.handIn', { token, name: name.slice(0, 300), data }));

const types = { xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet', csv: 'text/csv' } as const;

/** Makes a table of what the atlas holds and hands it over as a download; says what it was called and how many rows it has. */
export const saveTable = async (asked: CallArgs<'table.write'>): Promise<Done<{ readonly name: string; readonly rows: number }>> => {
  const made = await desk.ask('table.write', asked);
  if (!made.ok) return made;
  const { token, name, parts, rows } = made.value;
  const fetched = await fetchParts(parts, (part) => desk.ask('table.part', { token, part }));
  if (!fetched.ok) return fetched;
  giveBlob(name, new Blob([...fetched.value], { type: types[asked.format] }));
  return { ok: true, value: { name, rows } };
};
