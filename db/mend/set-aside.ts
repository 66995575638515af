import { rename } from 'node:fs/promises';
import type { Sheet } from '../../reasoner/index.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import { parseSheet } from '../sheets/read-sheet.ts';
import { done, failed, type Outcome } from '../trouble.ts';
import { readDamaged, walkRows } from './read-damaged.ts';

/**
 * Moves a damaged atlas out of the way, side files and all; nothing is deleted. Gives the file's new name.
 * The atlas must not be open. Troubles as of `openStore`.
 */
export const setAside = async (file: string, now: Date): Promise<Outcome<string>> => {
  const aside = `${file}.damaged-${now.toISOString().replace(/[:.]/g, '-')}`;
  try {
    // The file first: side files without it would be taken for the next one's.
    await rename(file, aside);
    for (const suffix of ['-wal', '-shm']) {
      await rename(file + suffix, aside + suffix).catch((error: NodeJS.ErrnoException) => {
        if (error.code !== 'ENOENT') throw error;
      });
    }
    return done(aside);
  } catch (error) {
    const found = troubleOf(error, file);
    if (found === null) throw error;
    return failed(found);
  }
};

export interface Recovered {
  readonly sheets: readonly Sheet[];
  /** False when some part of the file could not be read, so that a sheet may be missing. */
  readonly complete: boolean;
}

/**
 * The shop's own sheets out of a damaged atlas, as far as they can still be read: from the first on until damage is met,
 * then from the last back. The file is only read.
 */
export const recoverSheets = (file: string): Promise<Outcome<Recovered>> =>
  readDamaged(file, async (reader) => {
    const sheets = new Map<string, Sheet>();
    let complete = true;
    const own = { columns: 'id, body', table: 'sheets', keys: ['id'], where: { sql: `origin = 'own'`, values: [] } };
    const walk = (way: 'asc' | 'desc'): Promise<boolean> =>
      walkRows<{ id: string; body: string }>(reader, file, own, way, ({ id, body }) => {
        const parsed = parseSheet(body, `sheet ${id}`);
        if (parsed.ok) sheets.set(id, parsed.value.sheet);
        else complete = false;
      });
    if (!(await walk('asc'))) {
      complete = false;
      await walk('desc');
    }
    return { sheets: [...sheets.values()].sort((a, b) => (a.id < b.id ? -1 : 1)), complete };
  });
