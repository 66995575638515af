import { constants } from 'node:fs';
import { access, mkdir, open as openFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { migrations } from '../migrations/index.ts';
import { sizeOf } from '../plain/files.ts';
import { whyNotRead } from '../plain/why-not.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { Connection, type ConnectionOptions } from './connection.ts';
import type { Driver } from './driver.ts';
import { appliedTo, checkApplied, migrate } from './migrate.ts';
import { keepReserve } from './reserve.ts';
import { sqliteDriver } from './sqlite-driver.ts';
import { damaged, troubleOf } from './trouble-of.ts';

export interface Opened {
  readonly driver: Driver;
  /** Numbers of the migrations this opening has run. */
  readonly migrated: readonly number[];
  readonly writable: boolean;
}

/** Up to this size the whole file is checked at every opening; beyond it, that would be felt, and damage shows when it is met. */
const checkedBytes = 64 * 2 ** 20;

/**
 * Opens an SQLite file as an atlas, making and migrating it as needed. Nothing is changed in a file that cannot be used, and a file
 * that may not be written to is opened for reading (`writable` is false then) if this version can read it. Throws.
 * @param busyMs how long a statement waits for another program's lock, in milliseconds
 */
export const openSqlite = async (
  file: string,
  {
    busyMs,
    readOnly,
    reserve = null,
    beforeMigration,
  }: {
    readonly busyMs: number;
    readonly readOnly: boolean;
    /** A file that keeps room on the disk for removing; null keeps none. */
    readonly reserve?: string | null;
    /** Called before an atlas that has something in it is migrated, and before anything at all is written; what it throws is thrown, and nothing is changed. */
    readonly beforeMigration?: () => Promise<void>;
  },
): Promise<Opened> => {
  const size = await sizeOf(file);
  if (size === null) await checkNoneWasHere(file);
  if (size === 0 && ((await sizeOf(`${file}-wal`)) ?? 0) > 0)
    throw new TroubleError(damaged(file, 'it is empty, and what was saved last lies beside it'));
  if (size !== null && size > 0) await checkLength(file);
  if (readOnly || (size !== null && !(await mayWrite(file))))
    return { driver: sqliteDriver(await openForReading(file, busyMs)), migrated: [], writable: false };
  if (size === null) await mkdir(dirname(file), { recursive: true });
  return { ...(await openForWriting(file, busyMs, reserve, beforeMigration)), writable: true };
};

/** What mending has built and not yet put in the place of the damaged file. */
export const mendedBeside = (file: string): string => `${file}.mended`;

/** Throws where no file is there but what is beside its place says that one was: a new one would take the place of it. */
const checkNoneWasHere = async (file: string): Promise<void> => {
  if ((await sizeOf(mendedBeside(file))) !== null)
    throw new TroubleError(
      trouble(
        'mend-unfinished',
        file,
        `The atlas was being mended when that was broken off. Everything is there; run kinplate mend again to finish it. Nothing was changed: ${file}`,
      ),
    );
  if (((await sizeOf(`${file}-wal`)) ?? 0) > 0)
    throw new TroubleError(damaged(file, 'it is gone, and what was saved last lies beside its place'));
};

const openForWriting = async (
  file: string,
  busyMs: number,
  reserve: string | null,
  beforeMigration: (() => Promise<void>) | undefined,
): Promise<Omit<Opened, 'writable'>> =>
  await opened(file, { mode: 'write', busyMs }, async (connection) => {
    // Before anything is written: whose file it is, and whether it is sound.
    const applied = await appliedTo(connection);
    checkApplied(file, applied, migrations);
    await checkSound(connection);
    if (applied.length > 0 && applied.length < migrations.length) await beforeMigration?.();
    await connection.script('pragma journal_mode = wal; pragma synchronous = full; pragma foreign_keys = on;');
    const migrated = await migrate(connection, migrations);
    if (reserve !== null) keepReserve(reserve);
    return { driver: sqliteDriver(connection, reserve), migrated };
  });

const openForReading = async (file: string, busyMs: number): Promise<Connection> => {
  const open = (mode: 'read' | 'immutable') =>
    opened(file, { mode, busyMs }, async (connection) => {
      const applied = await appliedTo(connection);
      checkApplied(file, applied, migrations);
      if (applied.length < migrations.length) {
        throw new TroubleError(
          trouble(
            'database-read-only',
            file,
            `The atlas was made by an older version and must be brought up to date, but the file or its folder may not be written to. It was left as it is: ${file}`,
          ),
        );
      }
      await checkSound(connection);
      return connection;
    });
  try {
    return await open('read');
  } catch (error) {
    // A WAL database needs its side files even for reading. Where they cannot be made and none is left over, the file alone is whole.
    const code = troubleOf(error, file)?.code;
    const alone = ((await sizeOf(`${file}-wal`)) ?? 0) === 0;
    if (alone && (await sizeOf(file)) !== null && (code === 'database-cannot-open' || code === 'database-read-only'))
      return await open('immutable');
    throw error;
  }
};

/** Opens a connection and prepares it; closes it again when that fails. */
const opened = async <T>(file: string, options: ConnectionOptions, prepare: (connection: Connection) => Promise<T>): Promise<T> => {
  const connection = await Connection.open(file, options);
  try {
    return await prepare(connection);
  } catch (error) {
    // The first error is the one to tell.
    await connection.close().catch(() => undefined);
    throw error;
  }
};

/**
 * Throws `database-damaged` when the file is shorter than its header says. SQLite would read the missing end of a last
 * page as zeros. Only a file without a journal beside it can be judged: with one, the file may lag behind.
 */
export const checkLength = async (file: string): Promise<void> => {
  for (const journal of ['-wal', '-journal']) if (((await sizeOf(file + journal)) ?? 0) > 0) return;
  const handle = await openFile(file, 'r').catch((error: NodeJS.ErrnoException) => {
    throw new TroubleError(
      trouble('database-cannot-open', file, `The atlas file cannot be opened, for ${whyNotRead(error)}. Nothing was changed: ${file}`),
      error,
    );
  });
  try {
    // sqlite.org/fileformat2.html §1.3: page size at offset 16 (1 stands for 65536), pages at offset 28.
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(32), 0, 32, 0);
    if (bytesRead < 32 || buffer.toString('latin1', 0, 15) !== 'SQLite format 3') return;
    const pageSize = buffer.readUInt16BE(16) === 1 ? 65_536 : buffer.readUInt16BE(16);
    const expected = pageSize * buffer.readUInt32BE(28);
    const { size } = await handle.stat();
    if (size < expected) throw new TroubleError(damaged(file, `it was cut short: ${size} bytes of ${expected}`));
  } finally {
    await handle.close();
  }
};

/** Throws `database-damaged` when pages or rows of the file do not hang together. */
const checkSound = async (connection: Connection): Promise<void> => {
  if (((await sizeOf(connection.file)) ?? 0) > checkedBytes) return;
  const [first] = await connection.all<{ quick_check: string }>('pragma quick_check(1)');
  if (first !== undefined && first.quick_check !== 'ok') throw new TroubleError(damaged(connection.file, first.quick_check));
};

/** A WAL database is written beside the file too, so the folder counts. */
const mayWrite = async (file: string): Promise<boolean> => {
  try {
    await access(file, constants.W_OK);
    await access(dirname(file), constants.W_OK);
    return true;
  } catch {
    return false;
  }
};
