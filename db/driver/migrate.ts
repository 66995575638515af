import { createHash } from 'node:crypto';
import type { Migration } from '../migrations/migration.ts';
import { TroubleError, trouble } from '../trouble.ts';
import type { Connection } from './connection.ts';
import { damaged } from './trouble-of.ts';

/** "KpAt": marks an SQLite file as an atlas (pragma application_id). */
export const applicationId = 0x4b704174;

export const hashOf = (migration: Migration): string => createHash('sha256').update(migration.sql).digest('hex');

interface Applied {
  readonly number: number;
  readonly name: string;
  readonly hash: string;
}

/**
 * Brings the database up to the last of `migrations`; the numbers that were applied now.
 *
 * Throws a TroubleError when the file is another program's, when it was made by a newer version, and when a migration
 * it has gone through is not the one known here; nothing is changed then. Each migration is all or nothing.
 */
export const migrate = async (connection: Connection, migrations: readonly Migration[]): Promise<number[]> => {
  assertNumbered(migrations);
  const applied = await appliedTo(connection);
  checkApplied(connection.file, applied, migrations);
  const wanting = migrations.slice(applied.length);
  if (wanting.length === 0) return [];
  // `pragma foreign_keys` does nothing inside a transaction, and with keys on a rebuilt table would delete its children by cascade.
  await connection.script('pragma foreign_keys = off');
  try {
    const ran: number[] = [];
    for (const migration of wanting) if (await apply(connection, migration)) ran.push(migration.number);
    return ran;
  } finally {
    await connection.script('pragma foreign_keys = on');
  }
};

/** Migrations the file has gone through, oldest first. Throws a TroubleError for another program's file. */
export const appliedTo = async (connection: Connection): Promise<readonly Applied[]> => {
  const tables = await connection.all<{ name: string }>('select name from sqlite_master');
  if (tables.length === 0) return [];
  const [found] = await connection.all<{ application_id: number }>('pragma application_id');
  if (found?.application_id !== applicationId) {
    throw new TroubleError(
      trouble(
        'database-foreign',
        connection.file,
        `This file is a database of another program, not an atlas. It was left as it is: ${connection.file}`,
      ),
    );
  }
  if (!tables.some(({ name }) => name === 'migrations'))
    throw new TroubleError(damaged(connection.file, 'it does not say which version made it'));
  return await connection.all<Applied>('select number, name, hash from migrations order by number');
};

/** Throws a TroubleError when these are not the first of `migrations`. */
export const checkApplied = (file: string, applied: readonly Applied[], migrations: readonly Migration[]): void => {
  const last = applied.at(-1);
  if (last !== undefined && last.number > migrations.length) {
    throw new TroubleError(
      trouble(
        'database-newer',
        file,
        `The atlas was last opened by a newer version of Kinplate (its layout is number ${last.number}, and this version knows ${migrations.length}). It was left as it is. Use the newer version: ${file}`,
      ),
    );
  }
  applied.forEach((was, index) => {
    const known = migrations[index];
    if (known === undefined || was.number !== known.number || was.hash !== hashOf(known)) {
      throw new TroubleError(
        trouble(
          'database-foreign',
          file,
          `The atlas was made by another edition of Kinplate: the layout of its file is not what this one calls number ${was.number}. It was left as it is. Use the edition that made it: ${file}`,
        ),
      );
    }
  });
};

/** Runs one migration; false when another program that opened the file at the same time has just done so. */
const apply = async (connection: Connection, migration: Migration): Promise<boolean> =>
  await connection.transaction('exclusive', async () => {
    if ((await appliedTo(connection)).length >= migration.number) return false;
    if (migration.number === 1) {
      await connection.script(`
        pragma application_id = ${applicationId};
        create table migrations (number integer primary key, name text not null, hash text not null);`);
    }
    await connection.script(migration.sql);
    const dangling = await connection.all<{ table: string; parent: string }>('pragma foreign_key_check');
    const first = dangling[0];
    if (first !== undefined) {
      throw new Error(`migration ${migration.number} leaves ${dangling.length} rows of "${first.table}" without their "${first.parent}"`);
    }
    await connection.run('insert into migrations (number, name, hash) values (?, ?, ?)', [
      migration.number,
      migration.name,
      hashOf(migration),
    ]);
    await connection.script(`pragma user_version = ${migration.number}`);
    return true;
  });

const assertNumbered = (migrations: readonly Migration[]): void => {
  migrations.forEach(({ number, name }, index) => {
    if (number !== index + 1) throw new Error(`migration "${name}" has number ${number} in place ${index + 1}`);
  });
};
