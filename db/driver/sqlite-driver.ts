import { done, failed, type Outcome, TroubleError } from '../trouble.ts';
import { changedBy, isRefusal, type Step, stepsOf } from './batch.ts';
import { Connection } from './connection.ts';
import type { Batch, Driver, Guard, Reader } from './driver.ts';
import { troubleOf } from './trouble-of.ts';

/** SQLite in this process as a driver. The connection's turns keep everybody else's statements out of a batch, and out of a read. */
export const sqliteDriver = (connection: Connection): Driver => {
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
    write: (batch) => telling(() => run(connection, batch)),
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
        return changedBy(steps, changed);
      }),
    );
  } catch (error) {
    if (error instanceof Refused) return failed(error.guard.refusal);
    throw error;
  }
};
