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

/** The same, or what stands on standard input where the file is named `-`. */
export const givenText = async (file: string, terminal: Terminal): Promise<Outcome<string>> =>
  file === '-' ? well(await terminal.read()) : fileText(file);

/** The first thing that is wrong with a file of JSON, with its place. */
export const jsonFault = (file: string, { isJson, faults: [first] }: Extract<ParsedJson<unknown>, { ok: false }>): string => {
  const place = [file, `row ${first?.row ?? 1}`, first?.column ?? null].filter((word) => word !== null).join(', ');
  return `${place}: found ${first?.found}, expected ${isJson ? first?.expected : `JSON, with ${first?.expected} here`}.`;
};
