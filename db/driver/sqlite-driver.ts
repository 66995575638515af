import { statSync } from 'node:fs';
import { done, failed, type Outcome, TroubleError } from '../trouble.ts';
import { changedBy, isRefusal, type Step, stepsOf } from './batch.ts';
import { Connection } from './connection.ts';
import type { Batch, Driver, Guard, Reader, Statement } from './driver.ts';
import { giveUpReserve, hasRoom, keepReserve } from './reserve.ts';
import { troubleOf } from './trouble-of.ts';
import { movedAway } from './whose-place.ts';

/**
 * SQLite in this process as a driver. The connection's turns keep everybody else's statements out of a batch, and out of a read.
 * @param reserve a file that keeps room on the disk for what only removes (`reserve.ts`); without it nothing is kept
 */
export const sqliteDriver = (connection: Connection, reserve: string | null = null): Driver => {
  const telling = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      const found = troubleOf(error, connection.file);
      throw found === null || error instanceof TroubleError ? error : new TroubleError(found, error);
    }
  };
  const reader = readerOver(connection);
  return {
    file: connection.file,
    all: (sql, params) => telling(() => connection.all(sql, params)),
    read: (body) => telling(() => connection.transaction('deferred', () => body(reader))),
    write: (batch) => telling(() => (removes(batch) ? removed(connection, batch, reserve) : run(connection, batch))),
    close: () => connection.close(),
  };
};

export const readerOver = (connection: Connection): Reader => ({
  file: connection.file,
  all: (sql, params) => connection.all(sql, params),
  orm: connection.orm,
});

/** A file as it is, only to be read, statement by statement: it may be damaged, and is neither checked nor migrated. Throws, and its reader too, as SQLite does. */
export const openAsItIs = async (file: string): Promise<{ readonly reader: Reader; close(): Promise<void> }> => {
  const connection = await Connection.open(file, { mode: 'read', busyMs: 1000 });
  return { reader: readerOver(connection), close: () => connection.close() };
};

/** Statements made as they go are many, and run once. */
const removes = ({ statements }: Batch): boolean =>
  Array.isArray(statements) && statements.length > 0 && (statements as readonly Statement[]).every(({ sql }) => /^\s*delete\b/i.test(sql));

/**
 * What only removes is carried out on a full disk too, in the room of the journal, which is folded into the file, or of the reserve, which is given up for it.
 * Afterwards the journal is folded in, so that what was freed is there for others, and the reserve kept again.
 */
const removed = async (connection: Connection, batch: Batch, reserve: string | null): Promise<Outcome<readonly number[]>> => {
  // Another program may be reading what is in the journal; it is then folded in later. One that does not fit is left whole: half folded in, it would take up room twice.
  const foldIn = async (): Promise<void> => {
    const [whole] = await connection.all<{ bytes: number }>(
      'select page_count * page_size as bytes from pragma_page_count, pragma_page_size',
    );
    const grows = (whole?.bytes ?? 0) - statSync(connection.file).size;
    if (hasRoom(connection.file, grows)) await connection.all('pragma wal_checkpoint(truncate)').catch(() => []);
  };
  const whereFull = async <T>(work: () => Promise<T>, otherwise: () => Promise<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      if (troubleOf(error, connection.file)?.code !== 'database-full') throw error;
      return await otherwise();
    }
  };
  const attempt = () => run(connection, batch);
  return await whereFull(attempt, async () => {
    await foldIn();
    return await whereFull(attempt, async () => {
      if (reserve === null) return await attempt();
      giveUpReserve(reserve);
      try {
        return await attempt();
      } finally {
        await foldIn();
        keepReserve(reserve);
      }
    });
  });
};

class Refused extends Error {
  readonly guard: Guard;
  constructor(guard: Guard) {
    super('refused');
    this.guard = guard;
  }
}

const run = async (connection: Connection, batch: Batch): Promise<Outcome<readonly number[]>> => {
  try {
    return done(
      await connection.transaction('immediate', async () => {
        const [steps, changed]: [Pick<Step, 'guard'>[], number[]] = [[], []];
        for (const step of stepsOf(batch)) {
          steps.push({ guard: step.guard });
          try {
            changed.push(await connection.run(step.sql, step.params));
          } catch (error) {
            if (step.guard !== null && error instanceof Error && isRefusal(step, error.message)) throw new Refused(step.guard);
            throw error;
          }
        }
        // Last, for who puts a file aside takes the lock of this transaction first.
        if (connection.movedAway()) throw new TroubleError(movedAway(connection.file));
        return changedBy(steps, changed);
      }),
    );
  } catch (error) {
    if (error instanceof Refused) return failed(error.guard.refusal);
    throw error;
  }
};
