import { createHash } from 'node:crypto';
import { eq, sql } from 'drizzle-orm';
import type { Reader, Statement } from '../driver/driver.ts';
import { build, statementOf } from '../driver/statements.ts';
import * as t from '../schema.ts';
import { TroubleError, trouble } from '../trouble.ts';
import type { FileId } from './settings.ts';

/** Bytes the shop keeps, as they are handed out. */
export interface FileBytes {
  readonly type: string;
  readonly bytes: Buffer;
}

/** The id of a file: SHA-256 of its bytes, in hex. */
export const fileIdOf = (bytes: Buffer): FileId => createHash('sha256').update(bytes).digest('hex') as FileId;

/** Stores a file, once whatever names it. Where its bytes were altered on the disk, the same file given again makes them whole. */
export const fileKept = (id: FileId, type: string, bytes: Buffer): Statement => {
  const kept = { type, size: bytes.length, bytes };
  return statementOf(
    build
      .insert(t.keptFiles)
      .values({ id, ...kept })
      .onConflictDoUpdate({ target: t.keptFiles.id, set: kept, setWhere: sql`${t.keptFiles.bytes} <> ${bytes}` }),
  );
};

/**
 * The bytes of a file. Throws `not-found` where they were lost with a damaged atlas, and `photo-altered` where they are no longer those that were saved: the id is the hash of them.
 * @param what as sentences call it: `The picture of the letterhead`
 */
export const fileBytes = async (reader: Reader, id: FileId, what: string): Promise<FileBytes> => {
  const [found] = await reader.orm
    .select({ type: t.keptFiles.type, bytes: t.keptFiles.bytes })
    .from(t.keptFiles)
    .where(eq(t.keptFiles.id, id));
  if (found === undefined)
    throw new TroubleError(trouble('not-found', `file ${id}`, `${what} is not in the atlas file. Give it again, or put a backup back.`));
  if (fileIdOf(found.bytes) !== id)
    throw new TroubleError(
      trouble(
        'photo-altered',
        `file ${id}`,
        `${what} is not shown: what the atlas file holds of it is not what was saved, so the file was damaged on the disk. Give it again, or mend the atlas: kinplate mend.`,
      ),
    );
  return found;
};
