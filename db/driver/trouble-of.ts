import { type Trouble, TroubleError, trouble } from '../trouble.ts';

/**
 * The trouble an SQLite failure means, or null when the error is no expected failure (a bug, to be thrown on).
 * drizzle wraps errors, so the causes are followed.
 */
export const troubleOf = (error: unknown, file: string): Trouble | null => {
  for (let at: unknown = error, depth = 0; at instanceof Error && depth < 8; at = at.cause, depth += 1) {
    if (at instanceof TroubleError) return at.trouble;
    const found = meaningOf(at, file);
    if (found !== null) return found;
  }
  return null;
};

/** Names are SQLite's primary result codes (sqlite.org/rescode.html). */
const meaningOf = (error: Error, file: string): Trouble | null => {
  const code = 'code' in error ? String(error.code) : '';
  switch (code.split('_').slice(0, 2).join('_')) {
    case 'SQLITE_BUSY':
    case 'SQLITE_LOCKED':
      return trouble(
        'database-locked',
        file,
        `The atlas file is in use by another program. Nothing was changed. Close the other program, or wait for it, and try again: ${file}`,
      );
    case 'SQLITE_READONLY':
    case 'SQLITE_PERM':
      return trouble(
        'database-read-only',
        file,
        `The atlas file or its folder may not be written to, so nothing was saved. Allow writing there, or move the atlas to where it is allowed: ${file}`,
      );
    case 'SQLITE_FULL':
      return trouble(
        'database-full',
        file,
        `There is no room left on the disk that holds the atlas. Nothing was changed. Make room and try again: ${file}`,
      );
    case 'SQLITE_CORRUPT':
    case 'SQLITE_NOTADB':
      return damaged(file, code.startsWith('SQLITE_NOTADB') ? 'it is no database' : 'its pages do not hang together');
    case 'SQLITE_CANTOPEN':
      return trouble(
        'database-cannot-open',
        file,
        `The atlas file cannot be opened. Nothing was changed. Check that its folder is there and may be used: ${file}`,
      );
    case 'SQLITE_IOERR':
      return trouble(
        'database-io',
        file,
        `Reading or writing the atlas file failed (${error.message.replace(/^SQLITE_\w+: /, '')}). Nothing half-written was kept. Check the disk: ${file}`,
      );
    // Of the file system, before SQLite comes to it.
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return meaningOf(Object.assign(new Error(error.message), { code: 'SQLITE_READONLY' }), file);
    case 'ENOSPC':
    case 'EDQUOT':
      return meaningOf(Object.assign(new Error(error.message), { code: 'SQLITE_FULL' }), file);
    case 'ENOENT':
    case 'ENOTDIR':
    case 'EEXIST':
    case 'EISDIR':
      return meaningOf(Object.assign(new Error(error.message), { code: 'SQLITE_CANTOPEN' }), file);
    default:
      return null;
  }
};

const damages = new WeakMap<Trouble, string>();

export const damaged = (file: string, detail: string): Trouble => {
  const found = trouble(
    'database-damaged',
    file,
    `The atlas file is damaged (${detail}). It was left as it is. kinplate mend makes a new one of all that can still be read, backups included: ${file}`,
  );
  damages.set(found, detail);
  return found;
};

/** What is wrong with a damaged file, in a few words, without what is to be done about it. */
export const damageIn = (found: Trouble): string => damages.get(found) ?? found.sentence;
