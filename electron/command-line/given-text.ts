import { readFile } from 'node:fs/promises';
import { type Outcome, type ParsedJson, whyNotRead } from '../../db/index.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { Terminal } from './terminal.ts';

/** The trouble `unread`, of a file or folder that was named and cannot be read: which, and why. */
export const unread = (file: string, error: unknown): ReturnType<typeof refusal> =>
  refusal('unread', file, `${file} cannot be read: ${whyNotRead(error)}.`);

/** The text of a file. Trouble: `unread`. */
export const fileText = async (file: string): Promise<Outcome<string>> => {
  try {
    return well(await readFile(file, 'utf8'));
  } catch (error) {
    return unread(file, error);
  }
};

/** What a file is called where it may be named `-`. */
export const givenName = (file: string): string => (file === '-' ? 'standard input' : file);

/** The same, or what stands on standard input where the file is named `-`. */
export const givenText = async (file: string, terminal: Terminal): Promise<Outcome<string>> =>
  file === '-' ? well(await terminal.read()) : fileText(file);

/**
 * The first thing that is wrong with a file of JSON, and its place.
 * @param wanted what is expected of JSON that is another thing, where the schema says it less plainly; by the way to it, null for the whole
 */
export const jsonFault = (
  file: string,
  { isJson, faults: [first] }: Extract<ParsedJson<unknown>, { ok: false }>,
  wanted?: (column: string | null) => string,
): { readonly place: string; readonly sentence: string } => {
  const column = first?.column ?? null;
  const place = [file, `row ${first?.row ?? 1}`, column].filter((word) => word !== null).join(', ');
  const expected = isJson ? (wanted?.(column) ?? first?.expected) : `JSON, with ${first?.expected} here`;
  return { place, sentence: `${place}: found ${first?.found}, expected ${expected}.` };
};
