import type { CallResult, Trouble } from '../../electron/bridge/contract.ts';
import type { SheetId } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';
import { fetchParts } from '../bridge/fetchParts.ts';
import { handInParts } from '../bridge/handInParts.ts';
import { giveBlob } from '../look/giveFile.ts';

type Done<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly trouble: Trouble };

/** Makes the one file of a case and hands it over as a download; gives its name. */
export const saveParcel = async (sheet: SheetId): Promise<Done<string>> => {
  const made = await desk.ask('parcel.write', { sheet });
  if (!made.ok) return made;
  const { token, name, parts } = made.value;
  const fetched = await fetchParts(parts, (part) => desk.ask('parcel.part', { token, part }));
  if (!fetched.ok) return fetched;
  giveBlob(name, new Blob([...fetched.value], { type: 'application/zip' }));
  return { ok: true, value: name };
};

/** A case as a file that is at the desk and was looked at there. */
export interface HandedParcel {
  readonly token: string;
  /** Of the file. */
  readonly name: string;
  readonly seen: CallResult<'parcel.look'>;
}

/** Hands a file in, a part at a time, and has it looked at. Nothing is taken in yet. */
export const handInParcel = async (file: File): Promise<Done<HandedParcel>> => {
  const name = file.name.slice(0, 300);
  const handed = await handInParts(file, (token, data) => desk.ask('parcel.handIn', { token, name, data }));
  if (!handed.ok) return handed;
  const token = handed.value;
  const looked = await desk.ask('parcel.look', { token });
  return looked.ok ? { ok: true, value: { token, name, seen: looked.value } } : looked;
};
