import type { Reader } from '../driver/driver.ts';
import type { BackupCounts } from './backup.ts';

const what: Readonly<Record<keyof BackupCounts, readonly [table: string, where: string]>> = {
  packs: ['packs', ''],
  sheets: ['sheets', ` where origin = 'own'`],
  cases: ['cases', ''],
  photographs: ['photos', ''],
  learners: ['learners', ''],
  answers: ['drill_answers', ''],
};

/** How much there is in an atlas of whatever schema; where a schema knew no such thing there was none. */
export const countsIn = async ({ all }: Pick<Reader, 'all'>): Promise<BackupCounts> => {
  const tables = new Set((await all<{ name: string }>(`select name from sqlite_master where type = 'table'`)).map(({ name }) => name));
  const counted: [string, number][] = [];
  for (const [kind, [table, where]] of Object.entries(what)) {
    const [row] = tables.has(table) ? await all<{ n: number }>(`select count(*) as n from ${table}${where}`) : [];
    counted.push([kind, row?.n ?? 0]);
  }
  return Object.fromEntries(counted) as unknown as BackupCounts;
};
