import { stat } from 'node:fs/promises';
import { migrations } from '../migrations/index.ts';
import { Connection } from './connection.ts';
import type { Reader } from './driver.ts';
import { appliedTo, checkApplied } from './migrate.ts';
import { checkLength } from './open-sqlite.ts';
import { readerOver } from './sqlite-driver.ts';
import { damageIn, troubleOf } from './trouble-of.ts';

/**
 * What is wrong with a file of any size, checked from end to end: its length, every page, row and index, every reference, and what `further` finds in
 * what the rows say. Empty where it is sound. The file is not changed, nor migrated.
 * Throws the troubles of a file that is no atlas of this version or of an older one, that is locked, or that may not be read.
 * @param further does nothing but read; what it meets of damage is a fault
 */
export const faultsOfFile = async (
  file: string,
  busyMs: number,
  further: (reader: Reader) => Promise<readonly string[]>,
): Promise<readonly string[]> => {
  let connection: Connection | null = null;
  try {
    if ((await stat(file)).size === 0) return ['the file is empty'];
    await checkLength(file);

    connection = await Connection.open(file, { mode: 'read', busyMs });
    checkApplied(file, await appliedTo(connection), migrations);
    const pages = await connection.all<{ integrity_check: string }>('pragma integrity_check');
    const dangling = await connection.all<{ table: string; parent: string }>('pragma foreign_key_check');
    const faults = [
      ...pages.map((row) => row.integrity_check).filter((line) => line !== 'ok'),
      ...new Set(dangling.map(({ table, parent }) => `its ${inWords(table)} speak of ${inWords(parent)} that are not there`)),
    ];
    // Where pages are damaged, what is read of them says no more.
    return faults.length > 0 ? faults : await further(readerOver(connection));
  } catch (error) {
    const trouble = troubleOf(error, file);
    if (trouble?.code !== 'database-damaged') throw error;
    return [damageIn(trouble)];
  } finally {
    await connection?.close().catch(() => undefined);
  }
};

const inWords = (table: string): string => table.replaceAll('_', ' ');
