import { done, failed, type Outcome } from '../trouble.ts';
import type { Reader } from './driver.ts';
import { openAsItIs } from './sqlite-driver.ts';
import { troubleOf } from './trouble-of.ts';

/** Opens a file that may be damaged, only to read it, for as long as the work takes. What the work cannot get past is a trouble. */
export const readDamaged = async <T>(file: string, work: (reader: Reader) => Promise<T>): Promise<Outcome<T>> => {
  let opened: Awaited<ReturnType<typeof openAsItIs>> | null = null;
  try {
    opened = await openAsItIs(file);
    return done(await work(opened.reader));
  } catch (error) {
    const found = troubleOf(error, file);
    if (found === null) throw error;
    return failed(found);
  } finally {
    await opened?.close().catch(() => undefined);
  }
};
