import { open, readdir, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';

/** The time as file names have it. */
export const stampOf = (time: Date): string => time.toISOString().replace(/[:.]/g, '-');

/** The time a file name has in it (`2026-03-04T12-00-00-000Z`), as ISO; null where it has none. */
export const timeIn = (name: string): string | null => {
  const found = /(\d{4}-\d\d-\d\dT\d\d)-(\d\d)-(\d\d)-(\d{3})Z/.exec(name);
  return found === null ? null : `${found[1]}:${found[2]}:${found[3]}.${found[4]}Z`;
};

export const isThere = async (file: string): Promise<boolean> => {
  try {
    await stat(file);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return false;
    throw error;
  }
};

export const sideFiles = ['-wal', '-shm'] as const;

/** Names in a folder; none where it is not there. */
export const namesIn = (folder: string): Promise<string[]> =>
  readdir(folder).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT' || error.code === 'ENOTDIR') return [];
    throw error;
  });

/** Files of an atlas that were set aside before, newest first. */
export const setAsideBefore = async (file: string): Promise<readonly string[]> => {
  const folder = dirname(file);
  const begin = `${file.slice(folder.length + 1)}.damaged-`;
  const names = (await namesIn(folder)).filter((name) => name.startsWith(begin) && !sideFiles.some((suffix) => name.endsWith(suffix)));
  return names
    .sort()
    .reverse()
    .map((name) => join(folder, name));
};

/** Moves side files to a file's new name; what is not there is there already. */
export const moveSideFiles = async (from: string, to: string): Promise<void> => {
  for (const suffix of sideFiles) if (await isThere(from + suffix)) await rename(from + suffix, to + suffix);
};

/** What was written and renamed in a folder is on the disk once this is done. Where a system cannot do that for folders, it is left to it. */
export const syncFolder = async (folder: string): Promise<void> => {
  const handle = await open(folder, 'r');
  try {
    await handle.sync().catch(() => undefined);
  } finally {
    await handle.close();
  }
};

export const syncFile = async (file: string): Promise<void> => {
  const handle = await open(file, 'r+');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
};

/** Removes an atlas that was not finished, side files and all. */
export const removeUnfinished = async (file: string): Promise<void> => {
  for (const suffix of ['', ...sideFiles, '-journal']) await rm(file + suffix, { force: true });
};
