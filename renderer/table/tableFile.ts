import type { CallArgs, CallResult, Trouble } from '../../electron/bridge/contract.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { desk } from '../bridge/desk.ts';
import { fetchParts } from '../bridge/fetchParts.ts';
import { base64Of } from '../look/base64.ts';
import { giveBlob } from '../look/giveFile.ts';

const { partBytes } = limits;

type Done<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly trouble: Trouble };

/** Hands a spreadsheet, or the text of cells, to the desk, a part at a time; gives its token. */
export const handInTable = async (name: string, content: Blob): Promise<Done<string>> => {
  let token: string | null = null;
  for (let from = 0; from === 0 || from < content.size; from += partBytes) {
    const data = await base64Of(content.slice(from, from + partBytes));
    const reply: Done<CallResult<'table.handIn'>> = await desk.ask('table.handIn', { token, name: name.slice(0, 300), data });
    if (!reply.ok) return reply;
    token = reply.value.token;
  }
  if (token === null) throw new Error('a file without parts');
  return { ok: true, value: token };
};

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
