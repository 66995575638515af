import { mkdir } from 'node:fs/promises';
import { dirname } from 'node:path';
import { Connection } from '../driver/connection.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import { migrations } from '../migrations/index.ts';
import { migrate } from '../migrations/migrate.ts';
import type { ExpandCode } from '../packs/pack.ts';
import { failed, type Outcome } from '../trouble.ts';
import type { Store } from './store.ts';
import { storeOver } from './store-over.ts';

export interface StoreOptions {
  /** Expands ISO 286 codes of packs; without it a pack with a code is not loaded. */
  readonly expandCode?: ExpandCode;
  /** The time sheets are saved at. */
  readonly now?: () => Date;
  /** How long a statement waits for another program's lock, in milliseconds. */
  readonly busyMs?: number;
}

/**
 * Opens the atlas file, making and migrating it as needed. Nothing is changed in a file that cannot be used.
 * Troubles: `database-locked`, `-read-only`, `-full`, `-damaged`, `-newer`, `-foreign`, `-cannot-open`, `-io`.
 */
export const openStore = async (file: string, options: StoreOptions = {}): Promise<Outcome<Store>> => {
  let connection: Connection | null = null;
  try {
    await mkdir(dirname(file), { recursive: true });
    connection = await Connection.open(file, { mode: 'write', busyMs: options.busyMs ?? 5000 });
    await connection.script('pragma journal_mode = wal; pragma synchronous = full; pragma foreign_keys = on;');
    const migrated = await migrate(connection, migrations);
    return {
      ok: true,
      value: storeOver(connection, { now: options.now ?? (() => new Date()), expandCode: options.expandCode, migrated, writable: true }),
    };
  } catch (error) {
    await connection?.close().catch(() => undefined);
    const found = troubleOf(error, file);
    if (found === null) throw error;
    return failed(found);
  }
};
