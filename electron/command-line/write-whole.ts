import { randomBytes } from 'node:crypto';
import { open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { type Outcome, whyNotWritten } from '../../db/index.ts';
import { refusal, well } from '../bridge/reply.ts';

/**
 * Writes a file whole or not at all: beside its place first, down to the disk, then into it. What was there before stays until then.
 * Trouble: `cannot-write`, with the file and the system's reason; nothing is left behind.
 */
export const writeWhole = async (file: string, bytes: Uint8Array | string): Promise<Outcome<null>> => {
  const beside = path.join(path.dirname(file), `.${path.basename(file)}.${randomBytes(6).toString('hex')}`);
  try {
    const handle = await open(beside, 'wx');
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(beside, file);
    return well(null);
  } catch (error) {
    await rm(beside, { force: true }).catch(() => {});
    return refusal('cannot-write', file, `${file} could not be written: ${whyNotWritten(error)}.`);
  }
};
