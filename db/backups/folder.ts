import { mkdir, readdir, rm, stat } from 'node:fs/promises';
import path from 'node:path';
import { lookIntoCopy } from '../driver/copies.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import { namesIn } from '../plain/files.ts';
import { isRunning } from '../plain/is-running.ts';
import type { Backup, BackupState } from './backup.ts';
import { countsIn } from './counts.ts';
import { readBackupName, unfinishedBy } from './names.ts';

/** Only its owner may look into it: a backup holds what the atlas holds. */
export const makeFolder = async (folder: string): Promise<void> => {
  await mkdir(folder, { recursive: true, mode: 0o700 });
};

/** What is read of a backup by the name of its file alone, newest first; none where there is no such folder. */
export const namedIn = async (folder: string): Promise<readonly Pick<Backup, 'name' | 'at' | 'reason'>[]> => {
  return (await namesIn(folder))
    .flatMap((name) => {
      const said = readBackupName(name);
      return said === null ? [] : [{ name, ...said }];
    })
    .sort((a, b) => (a.name < b.name ? 1 : -1));
};

/** The backups of a folder, newest first, each with what was found in it. */
export const backupsIn = async (folder: string, thorough = false): Promise<readonly Backup[]> => {
  const found: Backup[] = [];
  for (const named of await namedIn(folder)) {
    const file = path.join(folder, named.name);
    const bytes = await stat(file).then(
      ({ size }) => size,
      () => null,
    );
    // Dropped by another program meanwhile.
    if (bytes !== null) found.push({ ...named, bytes, state: await stateOf(file, thorough) });
  }
  return found;
};

/** Up to this size a listing checks pages too; what is larger is checked before anything is done with it. */
const checkedBytes = 64 * 2 ** 20;

/** What was found in a file that has not changed since is not looked for again. */
const known = new Map<string, { readonly like: string; readonly state: BackupState }>();

/** Whether a backup can be read, and what is in it; `thorough` looks at everything, whatever was found before. */
export const stateOf = async (file: string, thorough: boolean): Promise<BackupState> => {
  try {
    const { size, mtimeMs, ctimeMs, ino } = await stat(file);
    const like = [size, mtimeMs, ctimeMs, ino].join(' ');
    const before = known.get(file);
    if (!thorough && before?.like === like) return before.state;
    const state = await looked(file, thorough, size <= checkedBytes);
    known.set(file, { like, state });
    return state;
  } catch (error) {
    return unreadable(error, file);
  }
};

const looked = async (file: string, thorough: boolean, check: boolean): Promise<BackupState> => {
  try {
    const { schema, read: counts } = await lookIntoCopy(file, thorough ? 'all' : check ? 'pages' : 'nothing', countsIn);
    return { kind: 'sound', schema, counts };
  } catch (error) {
    return unreadable(error, file);
  }
};

const unreadable = (error: unknown, file: string): BackupState => {
  const found = troubleOf(error, file);
  if (found === null) throw error;
  return { kind: 'unreadable', why: whyUnreadable(found.code) };
};

const whyUnreadable = (code: string): string => {
  switch (code) {
    case 'database-damaged':
      return 'It is damaged.';
    case 'database-newer':
      return 'It was made by a newer version of Kinplate.';
    case 'database-foreign':
      return 'It is no atlas, or one of another version of Kinplate.';
    default:
      return 'It may not be read.';
  }
};

/** An unfinished backup this old is nobody's any more, whatever program has its maker's number now. */
const longestMaking = 24 * 3_600_000;

/** Takes away what a killed run left half-made. */
export const clearUnfinished = async (folder: string): Promise<void> => {
  for (const name of await readdir(folder).catch(() => [])) {
    const maker = unfinishedBy(name);
    if (maker === null) continue;
    const file = path.join(folder, name);
    const { mtimeMs } = await stat(file).catch(() => ({ mtimeMs: Number.NaN }));
    if (!isRunning(maker) || Date.now() - mtimeMs > longestMaking) await rm(file, { force: true });
  }
};
