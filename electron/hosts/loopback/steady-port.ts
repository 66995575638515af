import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
// Not by the door of the room: hosts load no store.
import { isRunning } from '../../../db/plain/is-running.ts';

/**
 * The window keeps its theme, its choices and an unsaved draft under the address it was opened at; a port of its own keeps them from one
 * start to the next. The port is any free one the first time and the same one afterwards, as long as nobody else has it.
 */
const fileIn = (folder: string): string => path.join(folder, 'port');

interface Remembered {
  readonly port: number;
  /** Of the program that had it; null in a file of an older version. */
  readonly process: number | null;
}

/** What the last start on this data folder left; null where there was none, or it cannot be read. */
const remembered = (folder: string): Remembered | null => {
  try {
    const [port = Number.NaN, pid = Number.NaN] = readFileSync(fileIn(folder), 'utf8').trim().split(/\s+/).map(Number);
    if (!Number.isInteger(port) || port < 1024 || port > 65_535) return null;
    return { port, process: Number.isInteger(pid) && pid > 0 ? pid : null };
  } catch {
    return null;
  }
};

/** The port of the last start on this data folder; null where there was none, or it cannot be read. */
export const lastPort = (folder: string): number | null => remembered(folder)?.port ?? null;

/** Remembers a port, and that it is ours. A folder that cannot be written to is no reason not to start: the next start finds another port. */
export const rememberPort = (folder: string, port: number): void => {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    writeFileSync(fileIn(folder), `${port}\n${process.pid}\n`, { mode: 0o600 });
  } catch {
    // Told of by whatever else cannot be written there.
  }
};

/**
 * Starts on the port asked for; where none is, on the last one, and on any free one where that is taken. Only a port nobody asked for is remembered, and not over that of a host
 * which still has its own: the port stays the first one's, to be found again at the next start.
 */
export const onSteadyPort = async <T extends { readonly port: number }>(
  folder: string,
  asked: number | null,
  start: (port: number) => Promise<T>,
): Promise<T> => {
  if (asked !== null) return start(asked);
  const last = remembered(folder);
  if (last === null) return kept(folder, await start(0));
  try {
    return kept(folder, await start(last.port));
  } catch (error) {
    if (!isTaken(error)) throw error;
    const started = await start(0);
    const held = last.process !== null && last.process !== process.pid && isRunning(last.process);
    return held ? started : kept(folder, started);
  }
};

const kept = <T extends { readonly port: number }>(folder: string, started: T): T => {
  rememberPort(folder, started.port);
  return started;
};

/** Why a start had no port, as a sentence; null where it failed of something else. */
export const portFault = (error: unknown, asked: number | null): string | null => {
  const port = asked === null ? 'The port' : `Port ${asked}`;
  const otherwise = 'Name another with --port, or leave it out for any free one.';
  switch (error instanceof Error && 'code' in error && error.code) {
    case 'EADDRINUSE':
      return `${port} is in use by another program. ${otherwise}`;
    case 'EACCES':
      return `${port} may not be used by you: most systems keep those below 1024 for themselves. ${otherwise}`;
    default:
      return null;
  }
};

const isTaken = (error: unknown): boolean => portFault(error, null) !== null;
