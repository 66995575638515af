import { rm } from 'node:fs/promises';
import { openSqlite } from '../driver/open-sqlite.ts';
import { sideFiles } from '../plain/files.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { checkAtlas } from './check-atlas.ts';
import type { Gathered } from './gather.ts';

/** Throws where the new atlas is not sound, or does not hold what was put into it: then it never takes the place of the old one. */
export const verifyMended = async (file: string, { rows, sheets }: Gathered): Promise<void> => {
  const notWhole = (why: string) =>
    new TroubleError(
      trouble(
        'database-io',
        file,
        `The new atlas did not turn out whole (${why}), so nothing was changed. Check the disk, then mend again: ${file}`,
      ),
    );
  const faults = await checkAtlas(file);
  if (!faults.ok) throw new TroubleError(faults.trouble);
  if (faults.value[0] !== undefined) throw notWhole(faults.value[0]);
  const { driver } = await openSqlite(file, { busyMs: 5000, readOnly: false });
  try {
    const [held] = await driver.all<{ sheets: number; entries: number; photos: number }>(
      `select (select count(*) from sheets where origin = 'own') as sheets, (select count(*) from case_entries) as entries,
         (select count(*) from case_photos) as photos`,
    );
    const many = (table: string): number => (rows.get(table) ?? []).length;
    if (held?.sheets !== sheets.size || held.entries < many('case_entries') || held.photos !== many('case_photos'))
      throw notWhole('rows are missing in it');
  } finally {
    await driver.close();
  }
  for (const suffix of sideFiles) await rm(file + suffix, { force: true });
};
