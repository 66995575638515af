import { TroubleError } from '../trouble.ts';
import type { Batch, Driver, Reader } from './driver.ts';

/** A batch made from what was read, and what is answered once it is written. */
export interface Plan<T> {
  /** Null where nothing is to be changed. */
  readonly batch: Batch | null;
  readonly value: T;
}

/** How often a plan is made anew because somebody else wrote between the reading and the writing. */
const mostTries = 5;

/**
 * Reads, plans one batch, writes it. Where a guard says that what was read no longer stands, all of it is done again: the new plan is made of
 * the new state, and throws where there is none any more. After the last try the guard's refusal is thrown.
 * @param plan does nothing but read; what it throws is thrown
 */
export const writePlanned = async <T>(driver: Driver, plan: (reader: Reader) => Promise<Plan<T>>): Promise<T> => {
  for (let tries = 1; ; tries += 1) {
    const { batch, value } = await driver.read(plan);
    if (batch === null) return value;
    const written = await driver.write(batch);
    if (written.ok) return value;
    if (tries === mostTries) throw new TroubleError(written.trouble);
  }
};
