import { openSqlite } from '../driver/open-sqlite.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import type { FitEngine } from '../graph/keep-fits.ts';
import type { Asked } from '../read/asked.ts';
import { done, failed, type Outcome } from '../trouble.ts';
import type { Store } from './store.ts';
import { storeOver } from './store-over.ts';

export interface StoreOptions extends Asked {
  /** Judges the fits that are kept with the atlas; without it they are judged by whoever asks. */
  readonly fitEngine?: FitEngine;
  /** The time sheets are saved at. */
  readonly now?: () => Date;
  /** How long a statement waits for another program's lock, in milliseconds. */
  readonly busyMs?: number;
  /** Opens the file for reading only, as it also is when the file may not be written to. */
  readonly readOnly?: boolean;
}

/**
 * Opens the atlas file, making and migrating it as needed. Nothing is changed in a file that cannot be used, and a file
 * that may not be written to is opened for reading (`writable` is false then) if this version can read it.
 * Troubles: `database-locked`, `-read-only`, `-full`, `-damaged`, `-newer`, `-foreign`, `-cannot-open`, `-io`.
 */
export const openStore = async (file: string, options: StoreOptions = {}): Promise<Outcome<Store>> => {
  const setting = { now: options.now ?? (() => new Date()), asked: options, fitEngine: options.fitEngine };
  try {
    const { driver, ...opened } = await openSqlite(file, { busyMs: options.busyMs ?? 5000, readOnly: options.readOnly === true });
    return done(storeOver(driver, { ...setting, ...opened }));
  } catch (error) {
    const found = troubleOf(error, file);
    if (found === null) throw error;
    return failed(found);
  }
};
