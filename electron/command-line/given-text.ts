import { readFile } from 'node:fs/promises';
import type { Terminal } from './terminal.ts';

/** The text of a file; where it cannot be read, what the system says. */
export const fileText = (file: string): Promise<string | Error> =>
  readFile(file, 'utf8').catch((error: unknown) => (error instanceof Error ? error : new Error(String(error))));

/** The same, or what stands on standard input where the file is named `-`. */
export const givenText = (file: string, terminal: Terminal): Promise<string | Error> => (file === '-' ? terminal.read() : fileText(file));
