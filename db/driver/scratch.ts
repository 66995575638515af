import { migrations } from '../migrations/index.ts';
import { Connection } from './connection.ts';
import type { Driver } from './driver.ts';
import { migrate } from './migrate.ts';
import { sqliteDriver } from './sqlite-driver.ts';

/** A store in memory with this version's tables and nothing in them, where rows may refer to rows that are not there: for what is read out of a damaged file. */
export const openScratch = async (): Promise<Driver> => {
  const connection = await Connection.open(':memory:', { mode: 'write', busyMs: 0 });
  await migrate(connection, migrations);
  await connection.script('pragma foreign_keys = off');
  return sqliteDriver(connection);
};
