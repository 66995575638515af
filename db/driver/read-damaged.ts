import { done, failed, type Outcome } from '../trouble.ts';
import { Connection } from './connection.ts';
import { troubleOf } from './trouble-of.ts';

/** Opens a file that may be damaged, only to read it, for as long as the work takes. What the work cannot get past is a trouble. */
export const readDamaged = async <T>(file: string, work: (connection: Connection) => Promise<T>): Promise<Outcome<T>> => {
  let connection: Connection | null = null;
  try {
    connection = await Connection.open(file, { mode: 'read', busyMs: 1000 });
    return done(await work(connection));
  } catch (error) {
    const found = troubleOf(error, file);
    if (found === null) throw error;
    return failed(found);
  } finally {
    await connection?.close().catch(() => undefined);
  }
};
