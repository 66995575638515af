import { randomBytes } from 'node:crypto';
import { closeSync, fsyncSync, openSync, rmSync, statfsSync, statSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';

/**
 * Room kept for removing: a file that is given up when the disk is full, since SQLite writes a journal also of what it takes away. Deleting a hundred photographs of 10 MiB
 * writes about one page for each thousand it frees, 1 MiB; to fold in a journal of the usual length, a thousand pages, the atlas file may have to grow by 4 MiB first.
 */
const reserveBytes = 8 * 1024 * 1024;

/** Keeps the room where there is some. Its bytes are no zeros, which some file systems do not store. */
export const keepReserve = (file: string): void => {
  try {
    if (statSync(file, { throwIfNoEntry: false })?.size === reserveBytes) return;
    const handle = openSync(file, 'w', 0o600);
    try {
      for (let written = 0; written < reserveBytes; written += 65_536) writeSync(handle, randomBytes(65_536));
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  } catch {
    giveUpReserve(file);
  }
};

/** Gives the room back to the disk. */
export const giveUpReserve = (file: string): void => {
  try {
    rmSync(file, { force: true });
  } catch {
    // A folder that may not be written to; then nothing is removed from the atlas either.
  }
};

/** Whether the disk has so much room at a file's place. Where it cannot be told, it is taken to have it. */
export const hasRoom = (file: string, bytes: number): boolean => {
  try {
    const { bavail, bsize } = statfsSync(dirname(file));
    return bavail * bsize >= bytes;
  } catch {
    return true;
  }
};
