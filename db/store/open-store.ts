import { defaultAtMost } from '../backups/at-most.ts';
import { type BackupPlace, makeBackup } from '../backups/make-backup.ts';
import { openSqlite } from '../driver/open-sqlite.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import type { FitEngine } from '../graph/keep-fits.ts';
import type { Asked } from '../read/asked.ts';
import { done, failed, type Outcome, TroubleError, trouble } from '../trouble.ts';
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
  /** A file beside the atlas that keeps room on the disk, so that what is there can be removed when the disk is full. */
  readonly reserve?: string;
  /** A folder in which the atlas may be kept as it was read, for the next opening. What is there can be deleted at any time. */
  readonly keptIn?: string;
  /** Keeps backups in this folder, in so many bytes at most (`defaultAtMost`): one is made before a migration and before a pack is changed. */
  readonly backups?: { readonly folder: string; readonly atMost?: number };
}

/**
 * Opens the atlas file, making and migrating it as needed. Nothing is changed in a file that cannot be used, and a file
 * that may not be written to is opened for reading (`writable` is false then) if this version can read it.
 * Troubles: `database-locked`, `-read-only`, `-full`, `-damaged`, `-newer`, `-foreign`, `-cannot-open`, `-io`.
 */
export const openStore = async (file: string, options: StoreOptions = {}): Promise<Outcome<Store>> => {
  const now = options.now ?? (() => new Date());
  const place: BackupPlace | undefined =
    options.backups === undefined
      ? undefined
      : { file, now, folder: options.backups.folder, atMost: options.backups.atMost ?? defaultAtMost };
  const setting = { now, asked: options, fitEngine: options.fitEngine, keptIn: options.keptIn };
  try {
    const { driver, ...opened } = await openSqlite(file, {
      busyMs: options.busyMs ?? 5000,
      readOnly: options.readOnly === true,
      ...(options.reserve === undefined ? {} : { reserve: options.reserve }),
      ...(place === undefined ? {} : { beforeMigration: () => beforeMigration(place) }),
    });
    return done(storeOver(driver, { ...setting, ...opened, backups: opened.writable ? place : undefined }));
  } catch (error) {
    const found = troubleOf(error, file);
    if (found === null) throw error;
    return failed(found);
  }
};

/** An atlas of an older program is brought up to date only once it can be gone back to. */
const beforeMigration = async (place: BackupPlace): Promise<void> => {
  try {
    await makeBackup(place, 'before-migration');
  } catch (error) {
    if (!(error instanceof TroubleError)) throw error;
    throw new TroubleError(
      trouble(
        'backup-failed',
        place.file,
        `The atlas was made by an older version and is brought up to date only after a backup. ${error.trouble.sentence} Nothing was changed.`,
      ),
      error,
    );
  }
};
