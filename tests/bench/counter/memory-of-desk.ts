import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Sheet } from '../../../reasoner/index.ts';
import { inWords } from '../clock.ts';
import type { Remembered } from './desk-memory.ts';

/** Built beside the bench. */
const program = fileURLToPath(new URL('./desk-memory.js', import.meta.url));

/** Whoever takes longer than this, ms, is stopped. */
const patience = 900_000;

/** The desk over a data folder in a process of its own, which tells its memory (`desk-memory.ts`): the cells of a row. */
export const memoryOfDesk = (folder: string, sheets: readonly Sheet[]): string[] => {
  const { status, stdout } = spawnSync(process.execPath, [program, folder], {
    input: JSON.stringify(sheets),
    stdio: ['pipe', 'pipe', 'inherit'],
    timeout: patience,
    maxBuffer: 2 ** 26,
  });
  if (status !== 0) return [`ended by ${status}`];
  const { open, asked, atRest, atMost, verdict, odds } = JSON.parse(String(stdout)) as Remembered;
  return [...[open, asked, atRest, atMost].map((bytes) => `${(bytes / 2 ** 20).toFixed(0)} MiB`), inWords(verdict), inWords(odds)];
};
