import type { Trouble } from '../../db/index.ts';
import { faultLines } from '../bridge/fault-lines.ts';
import { type ExitCode, exitCodeOf, exitCodes } from './exit-codes.ts';

/** Where a command writes: answers to `out`, everything else to `err`, so that an answer can be piped on. */
export interface Terminal {
  out(text: string): void;
  err(line: string): void;
  /** The text on standard input, for `--sheet -`. */
  read(): Promise<string>;
}

/** An answer as `--format json` prints it. */
export const jsonText = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

/** Says a trouble with all it found, and gives the exit code for it. */
export const sayTrouble = (terminal: Terminal, trouble: Trouble): ExitCode => {
  for (const line of faultLines(trouble)) terminal.err(line);
  return exitCodeOf(trouble.code);
};

/** A command line that cannot be followed: what is wrong, and where the whole of it is written. */
export const sayUsage = (terminal: Terminal, line: string): ExitCode => {
  terminal.err(line);
  terminal.err('kinplate --help shows every command.');
  return exitCodes.usage;
};
