import { setTimeout as wait } from 'node:timers/promises';
import { migrations } from '../migrations/index.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { Connection } from './connection.ts';
import type { Reader } from './driver.ts';
import { appliedTo, checkApplied } from './migrate.ts';
import type { OnlineCopy } from './online-copy.ts';
import { checkLength } from './open-sqlite.ts';
import { readerOver } from './sqlite-driver.ts';
import { damaged } from './trouble-of.ts';

/** So many pages are copied at a stretch: 1 MiB, some milliseconds, after which the connection is free for who reads from it too. */
const stretch = 256;

/**
 * Copies an atlas file, as it stands at one moment, into a new one, while others read and write it; gives what `look` reads of that same moment.
 * Throws as SQLite does, and where it is `stopped` before the last page; the new file is then no copy.
 */
export const copyOut = <T>(
  file: string,
  to: string,
  look: (reader: Reader) => Promise<T>,
  stopped = () => false,
  busyMs = 5000,
): Promise<T> =>
  using(file, 'read', busyMs, (connection) =>
    // One reading transaction around it all: the copy is of its state, and never begun anew however much is written meanwhile.
    connection.transaction('deferred', async () => {
      const looked = await look(readerOver(connection));
      const copy = await connection.copy(to, 'out');
      try {
        await allPages(copy, stretch, busyMs, file, stopped);
      } finally {
        await copy.end();
      }
      return looked;
    }),
  );

/** What there is in a file, read as one state. */
export const lookInto = <T>(file: string, look: (reader: Reader) => Promise<T>, busyMs = 5000): Promise<T> =>
  using(file, 'read', busyMs, (connection) => connection.transaction('deferred', () => look(readerOver(connection))));

/**
 * What there is in a file nobody writes to. It leaves nothing beside the file, and is refused where that is cut short, no atlas, of a newer version,
 * or where its pages or rows do not hang together (`check`: how far that is looked at). Gives the number of its schema with what was read.
 */
export const lookIntoCopy = async <T>(
  file: string,
  check: 'nothing' | 'pages' | 'all',
  look: (reader: Reader) => Promise<T>,
): Promise<{ readonly schema: number; readonly read: T }> => {
  await checkLength(file);
  return await using(file, 'immutable', 0, async (connection) => {
    const applied = await appliedTo(connection);
    checkApplied(file, applied, migrations);
    if (applied.length === 0) throw new TroubleError(damaged(file, 'there is nothing in it'));
    if (check !== 'nothing') {
      const rows = await connection.all<Record<string, string>>(check === 'all' ? 'pragma integrity_check(1)' : 'pragma quick_check(1)');
      const [said] = Object.values(rows[0] ?? {});
      if (said !== 'ok') throw new TroubleError(damaged(file, said ?? 'it could not be checked'));
    }
    return { schema: applied.length, read: await look(readerOver(connection)) };
  });
};

/**
 * Puts what is in another file in the place of all that is in an atlas, in one step: who reads sees either what was there or all of the other, and so does who opens it
 * after a kill. Others may have the atlas open. Both are of one schema.
 * @param still asked while nobody else may write; where it does not hold, nothing is changed and false is answered
 */
export const putIn = (file: string, from: string, still: (reader: Reader) => Promise<boolean>, busyMs = 5000): Promise<boolean> =>
  using(file, 'write', busyMs, async (connection) => {
    const copy = await connection.copy(from, 'in');
    try {
      // No pages, but the lock.
      await untilFree(() => copy.step(0), busyMs, file);
      if (!(await lookInto(file, still, busyMs))) return false;
      await allPages(copy, -1, busyMs, file);
      return true;
    } finally {
      await copy.end();
    }
  });

/**
 * Folds an atlas's journal into it, so that the file alone is the atlas and may be moved. Throws `database-locked` where another program, or another part of this one, has it open.
 */
export const foldAlone = (file: string, busyMs = 1000): Promise<void> =>
  using(file, 'write', busyMs, async (connection) => {
    const [row] = await connection.all<{ journal_mode: string }>('pragma journal_mode = delete');
    if (row?.journal_mode !== 'delete') throw new TroubleError(inUse(file));
  });

/**
 * Runs `work` while nobody else can save to the file, whatever they have open. Where its first page is so damaged that no lock can be taken, nobody new can save to it either, and `work` is run
 * without. Throws `database-locked` where somebody has been saving for longer than `busyMs`.
 */
export const whileNobodySaves = async <T>(file: string, work: () => Promise<T>, busyMs = 5000): Promise<T> => {
  // Only read: who opens a file to write to it folds in its journal on closing, and this one is to stay as it is.
  const lockable = await using(file, 'read', busyMs, (connection) => connection.all('pragma schema_version')).then(
    () => true,
    () => false,
  );
  return lockable ? await using(file, 'write', busyMs, (connection) => connection.transaction('immediate', work)) : await work();
};

const allPages = async (copy: OnlineCopy, pages: number, busyMs: number, file: string, stopped = () => false): Promise<void> => {
  while ((await untilFree(() => copy.step(pages), busyMs, file)) !== 'done') if (stopped()) throw new TroubleError(givenUp(file));
};

/** Told of a copy that was stopped. */
export const givenUp = (file: string) =>
  trouble('backup-failed', file, 'The backup was given up, for the program is being closed. Nothing was changed.');

const untilFree = async (step: () => Promise<'done' | 'more' | 'busy'>, busyMs: number, file: string): Promise<'done' | 'more'> => {
  for (let waited = 0; ; waited += patience) {
    const came = await step();
    if (came !== 'busy') return came;
    if (waited >= busyMs) throw new TroubleError(inUse(file));
    await wait(patience);
  }
};

/** Between two tries at a lock somebody else has, in milliseconds. */
const patience = 20;

const using = async <T>(
  file: string,
  mode: 'read' | 'write' | 'immutable',
  busyMs: number,
  work: (connection: Connection) => Promise<T>,
): Promise<T> => {
  const connection = await Connection.open(file, { mode, busyMs });
  try {
    return await work(connection);
  } finally {
    await connection.close().catch(() => undefined);
  }
};

const inUse = (file: string) =>
  trouble(
    'database-locked',
    file,
    `The atlas file is in use by another program. Nothing was changed. Close the other program, or wait for it, and try again: ${file}`,
  );
