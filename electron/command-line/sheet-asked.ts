import { readFile } from 'node:fs/promises';
import type { Outcome, Store } from '../../db/index.ts';
import { asId, type Sheet, type SheetId } from '../../reasoner/index.ts';
import { trouble } from '../bridge/reply.ts';
import type { Terminal } from './terminal.ts';

/** A sheet file (`-` for standard input), or the id of a sheet the atlas holds. */
export type SheetAsked = { readonly file: string } | { readonly saved: string };

/** The sheet, held against the atlas of the store. */
export const sheetAsked = async (from: SheetAsked, store: Store, terminal: Terminal): Promise<Outcome<Sheet>> => {
  if ('saved' in from) return store.openSheet(asId<SheetId>(from.saved));
  if (from.file === '-') return store.readSheet(await terminal.read(), 'standard input');
  const text = await readFile(from.file, 'utf8').catch((error: unknown) => (error instanceof Error ? error : new Error(String(error))));
  if (text instanceof Error) return trouble('sheet-unreadable', from.file, `The sheet cannot be read (${text.message}).`);
  return store.readSheet(text, from.file);
};
