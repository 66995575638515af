import { chmod, lstat, mkdir, readdir } from 'node:fs/promises';
import path from 'node:path';
import { isMainThread } from 'node:worker_threads';

const [ownFolder, ownFile] = [0o700, 0o600];

/**
 * What this program makes from now on is its user's alone. Said by each host, and by each command that writes into a data folder, before it does. Windows keeps a
 * user's files from others by the folder they stand in, and knows no such modes: there it changes nothing, and neither does `keepPrivate`.
 */
export const makePrivately = (): void => {
  // Of the whole process; a worker may not say it, and its host has.
  if (isMainThread && process.platform !== 'win32') process.umask(0o077);
};

/** What stands in a data folder by itself, whatever follows its name: nothing else in it is touched. */
const files = ['atlas.sqlite', 'port', 'began', 'open-window', 'room-to-remove', 'signing-key.pem', 'kept-reading-'];
const folders = ['backups', 'logs', 'recovered-', 'brought-packs'];
/** Browsers keep these themselves, and nobody else comes through a folder that is closed. */
const closed = ['browser', 'window'];

/**
 * A data folder and what the program keeps in it, closed to others of this machine: folders 0700, files 0600, those made before too. What belongs to somebody else, a link, and a folder
 * that is open to everybody by its nature (one with the sticky bit, such as /tmp) stay as they are.
 */
export const keepPrivate = async (data: string): Promise<void> => {
  await mkdir(data, { recursive: true, mode: ownFolder });
  if (process.platform === 'win32') return;
  await close(data, false);
  const begins = (name: string, of: readonly string[]) => of.some((beginning) => name.startsWith(beginning));
  for (const { name } of await entriesOf(data)) {
    const at = path.join(data, name);
    if (begins(name, files) || begins(name, folders)) await close(at, true);
    else if (closed.includes(name)) await close(at, false);
  }
};

const close = async (at: string, deep: boolean): Promise<void> => {
  const found = await lstat(at).catch(() => null);
  if (found === null || found.isSymbolicLink() || found.uid !== process.getuid?.() || (found.mode & 0o1000) !== 0) return;
  const mode = found.isDirectory() ? ownFolder : ownFile;
  if ((found.mode & 0o777) !== mode) await chmod(at, mode).catch(() => undefined);
  if (deep && found.isDirectory()) for (const { name } of await entriesOf(at)) await close(path.join(at, name), true);
};

const entriesOf = (folder: string) => readdir(folder, { withFileTypes: true }).catch(() => []);
