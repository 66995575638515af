import { done, failed, type Outcome } from '../trouble.ts';
import type { Driver, Reader } from './driver.ts';
import { troubleOf } from './trouble-of.ts';
import { type Plan, writePlanned } from './write-planned.ts';

/** What the shelves go through to the rows: expected failures from below become values here, a bug goes on up. */
export interface Door {
  /** One answer, of one state of the store. It may be asked for again where the state moved on, and does nothing but read. */
  read<T>(answer: (reader: Reader) => Promise<T>): Promise<Outcome<T>>;
  /** An answer of one statement, which is of one state by itself. */
  one<T>(answer: (reader: Pick<Reader, 'all'>) => Promise<T>): Promise<Outcome<T>>;
  /** A change planned of what is read, as `writePlanned` makes it. */
  write<T>(plan: (reader: Reader) => Promise<Plan<T>>): Promise<Outcome<T>>;
  /** Work beside the store, telling its troubles in the same way. */
  tell<T>(work: () => Promise<T>): Promise<Outcome<T>>;
  now(): Date;
}

/** Work about a file, telling its troubles as values. */
export const tellAbout =
  (file: string): Door['tell'] =>
  async (work) => {
    try {
      return done(await work());
    } catch (error) {
      const found = troubleOf(error, file);
      if (found === null) throw error;
      return failed(found);
    }
  };

export const doorTo = (driver: Driver, now: () => Date, writable = true): Door => {
  const tell = tellAbout(driver.file);
  // In this process one change is planned and written after the other: only another program can come between, and then the plan is made anew.
  let turn: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const mine = turn.then(work);
    turn = mine.catch(() => undefined);
    return mine;
  };
  return {
    tell,
    read: (answer) => tell(() => driver.read(answer)),
    one: (answer) => tell(() => answer(driver)),
    write: (plan) =>
      tell(() =>
        inTurn(async () => {
          // Where nothing may be written the store says so, whatever else would be wrong with the plan.
          if (!writable) await driver.write({ statements: [] });
          return await writePlanned(driver, plan);
        }),
      ),
    now,
  };
};
