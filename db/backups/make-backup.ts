import { open, rename, rm, stat } from 'node:fs/promises';
import path from 'node:path';
import { copyOut, givenUp, lookIntoCopy } from '../driver/copies.ts';
import type { Reader } from '../driver/driver.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import { isThere, removeAtlas, syncFile, syncFolder } from '../plain/files.ts';
import { TroubleError, trouble } from '../trouble.ts';
import type { Backup, BackupCounts, BackupReason } from './backup.ts';
import { countsIn } from './counts.ts';
import { backupsIn, clearUnfinished, makeFolder, stateOf } from './folder.ts';
import { backupName, readBackupName, unfinishedName } from './names.ts';
import { thoseToDrop } from './those-to-drop.ts';

/** Where the backups of an atlas are kept, and how many bytes all of them may take. */
export interface BackupPlace {
  /** The atlas file. */
  readonly file: string;
  readonly folder: string;
  readonly atMost: number;
  readonly now: () => Date;
  /** Asked now and then while a backup is made: whether to give it up. */
  readonly stopped?: () => boolean;
}

/**
 * Makes a backup of an atlas that may be in use, as it stands at one moment: copied beside its place, opened and looked through, and only then given its name. Then those no longer kept are dropped.
 * Throws `backup-failed` with the reason; nothing is left behind then, and nothing is dropped.
 */
export const makeBackup = async (place: BackupPlace, reason: BackupReason): Promise<Backup> =>
  (await makeBackupWith(place, reason, async () => null)).backup;

/** The same, with what `look` reads of the very state that was copied. */
export const makeBackupWith = async <T>(
  place: BackupPlace,
  reason: BackupReason,
  look: (reader: Reader) => Promise<T>,
): Promise<{ readonly backup: Backup; readonly looked: T }> => {
  const { file, folder, now, atMost, stopped = () => false } = place;
  try {
    await makeFolder(folder);
    for (const one of [folder, path.dirname(file)]) await clearUnfinished(one);
    const name = await freeName(folder, now(), reason);
    const done = path.join(folder, name);
    const part = path.join(folder, unfinishedName(name, process.pid));
    let looked: T;
    try {
      // Made by us, so that nobody else may read it for a moment.
      await (await open(part, 'wx', 0o600)).close();
      const of = await copyOut(
        file,
        part,
        async (reader) => ({
          counts: await countsIn(reader),
          schema: await schemaIn(reader),
          looked: await look(reader),
        }),
        stopped,
      );
      looked = of.looked;
      // To look through all of it takes as long as to copy it.
      if (stopped()) throw new TroubleError(givenUp(file));
      await verify(part, of);
      await syncFile(part);
      await rename(part, done);
      await syncFolder(folder);
    } catch (error) {
      await removeAtlas(part).catch(() => undefined);
      throw error;
    }
    const { size: bytes } = await stat(done);
    const backup: Backup = { name, at: readBackupName(name)?.at ?? '', reason, bytes, state: await stateOf(done, false) };
    await dropOld(folder, now(), atMost);
    return { backup, looked };
  } catch (error) {
    const found = troubleOf(error, file);
    if (found === null) throw error;
    if (found.code === 'backup-failed') throw error;
    throw new TroubleError(
      trouble('backup-failed', folder, `A backup could not be made in ${folder}: ${whyOf(found.code, found.sentence)}`),
      error,
    );
  }
};

/** In a few words, to end a sentence that says what was not done for it. */
const whyOf = (code: string, sentence: string): string => {
  switch (code) {
    case 'database-full':
      return 'there is no room left on the disk.';
    case 'database-read-only':
    case 'database-cannot-open':
      return 'that folder cannot be written to.';
    case 'database-locked':
      return 'the atlas file is in use by another program.';
    case 'database-damaged':
      return 'the atlas file is damaged.';
    default:
      return sentence;
  }
};

const schemaIn = async ({ all }: Reader): Promise<number> => (await all<{ n: number }>('select count(*) as n from migrations'))[0]?.n ?? 0;

/** Opens what was copied and holds it to what it was copied from. */
const verify = async (part: string, of: { readonly counts: BackupCounts; readonly schema: number }): Promise<void> => {
  const { schema, read } = await lookIntoCopy(part, 'all', countsIn);
  if (schema !== of.schema || Object.entries(of.counts).some(([kind, count]) => read[kind as keyof BackupCounts] !== count))
    throw new TroubleError(
      trouble(
        'backup-failed',
        part,
        'A backup could not be made: what was copied is not what the atlas holds. Check the disk, then try again.',
      ),
    );
};

/** Two of one reason in the same millisecond have different names. */
const freeName = async (folder: string, at: Date, reason: BackupReason): Promise<string> => {
  for (let instant = at; ; instant = new Date(instant.getTime() + 1)) {
    const name = backupName(instant, reason);
    if (!(await isThere(path.join(folder, name)))) return name;
  }
};

/** Drops what is kept no longer; gives the names. What cannot be taken away stays until the next time. */
export const dropOld = async (folder: string, now: Date, atMost: number): Promise<readonly string[]> => {
  const all = (await backupsIn(folder)).map(({ state, ...one }) => ({ ...one, sound: state.kind === 'sound' }));
  const names = thoseToDrop(all, now, atMost);
  for (const name of names) await rm(path.join(folder, name), { force: true }).catch(() => undefined);
  return names;
};
