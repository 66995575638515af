import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/**
 * The window keeps its theme, its choices and an unsaved draft under the address it was opened at; a port of its own keeps them from one
 * start to the next. The port is any free one the first time and the same one afterwards, as long as nobody else has it.
 */
const fileIn = (folder: string): string => path.join(folder, 'port');

/** The port of the last start on this data folder; null where there was none, or it cannot be read. */
export const lastPort = (folder: string): number | null => {
  try {
    const port = Number(readFileSync(fileIn(folder), 'utf8').trim());
    return Number.isInteger(port) && port >= 1024 && port <= 65_535 ? port : null;
  } catch {
    return null;
  }
};

/** Remembers a port. A folder that cannot be written to is no reason not to start: the next start finds another port. */
export const rememberPort = (folder: string, port: number): void => {
  try {
    mkdirSync(folder, { recursive: true });
    writeFileSync(fileIn(folder), `${port}\n`);
  } catch {
    // Told of by whatever else cannot be written there.
  }
};

/**
 * Starts on the port asked for; where none is, on the last one, and on any free one where that is taken. Only a port nobody asked for
 * is remembered.
 */
export const onSteadyPort = async <T extends { readonly port: number }>(
  folder: string,
  asked: number | null,
  start: (port: number) => Promise<T>,
): Promise<T> => {
  if (asked !== null) return start(asked);
  const last = lastPort(folder);
  const started =
    last === null ? await start(0) : await start(last).catch((error: unknown) => (isTaken(error) ? start(0) : Promise.reject(error)));
  if (started.port !== last) rememberPort(folder, started.port);
  return started;
};

const isTaken = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && (error.code === 'EADDRINUSE' || error.code === 'EACCES');
