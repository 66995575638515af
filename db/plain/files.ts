import type { BigIntStats } from 'node:fs';
import { open, readdir, rename, rm, stat } from 'node:fs/promises';

/** A time as every file system takes it in a name: `2026-03-04T12-00-00-000Z`. */
export const stampOf = (time: Date): string => time.toISOString().replace(/[:.]/g, '-');

/** The time a file name has in it, as ISO; null where it has none. */
export const timeIn = (name: string): string | null => {
  const found = /(\d{4}-\d\d-\d\dT\d\d)-(\d\d)-(\d\d)-(\d{3})Z/.exec(name);
  return found === null ? null : `${found[1]}:${found[2]}:${found[3]}.${found[4]}Z`;
};

/** What SQLite keeps beside a file that is in use. */
export const sideFiles = ['-wal', '-shm', '-journal'] as const;

/** What an atlas that is set aside is called from then on. */
export const asideName = (file: string, now: Date): string => `${file}.damaged-${stampOf(now)}`;

/** Bytes of a file; null where there is none. */
export const sizeOf = async (file: string): Promise<number | null> => {
  const found = await statOf(file);
  return found === null ? null : Number(found.size);
};

/** The same for a file as long as nothing is written to it and no other takes its place; of one that is empty or not there, `nothing`. */
export const likeNow = async (file: string): Promise<string> => {
  const found = await statOf(file);
  return found === null || found.size === 0n ? 'nothing' : `${found.ino} ${found.size} ${found.mtimeNs}`;
};

/** What the system says of a file; null where there is none. */
const statOf = async (file: string): Promise<BigIntStats | null> => {
  try {
    return await stat(file, { bigint: true });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
};

export const isThere = async (file: string): Promise<boolean> => (await sizeOf(file)) !== null;

/** Names in a folder; none where it is not there. */
export const namesIn = (folder: string): Promise<string[]> =>
  readdir(folder).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return [];
    throw error;
  });

/** Removes a file and what SQLite keeps beside it: whatever of them can be removed, be it that another cannot, which is thrown. */
export const removeAtlas = async (file: string): Promise<void> => {
  const kept: unknown[] = [];
  for (const suffix of ['', ...sideFiles]) await rm(file + suffix, { force: true }).catch((error: unknown) => kept.push(error));
  if (kept.length > 0) throw kept[0];
};

/** Gives a file another name; whether it was there. */
export const moveIfThere = async (from: string, to: string): Promise<boolean> => {
  try {
    await rename(from, to);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return false;
    throw error;
  }
};

/** Down to the disk, not only handed to the system. */
export const syncFile = async (file: string): Promise<void> => {
  const handle = await open(file, 'r+');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
};

/** What was written and renamed in a folder is on the disk once this is done. Where a system cannot be asked for that, it is left to it. */
export const syncFolder = async (folder: string): Promise<void> => {
  const handle = await open(folder, 'r').catch(() => null);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
};
