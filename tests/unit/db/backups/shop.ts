import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { migrate } from '../../../../db/driver/migrate.ts';
import type { Store } from '../../../../db/index.ts';
import { migrations } from '../../../../db/migrations/index.ts';
import type { SheetId } from '../../../../reasoner/index.ts';
import { keepSheet } from '../keep-sheet.ts';
import { freshConnection, freshFolder, freshStore, noon, smallPack, valueIn } from '../kit.ts';
import { jpeg, png } from '../photos/pictures.ts';

/** A store with backups, a case with a photograph and a learner; its folders. */
export const shop = async (options: { readonly now?: () => Date; readonly atMost?: number } = {}) => {
  const folder = freshFolder();
  const file = join(folder, 'atlas.sqlite');
  const backups = join(folder, 'backups');
  const { atMost, now = () => noon } = options;
  const open = (more: object = {}) =>
    freshStore({ file, now, backups: { folder: backups, ...(atMost === undefined ? {} : { atMost }) }, ...more });
  const store = await open();
  valueIn(await store.packs.load(smallPack));
  await save(store, 'first');
  const photo = { name: 'a.jpg', bytes: jpeg, thumbnail: png, caption: 'as brought in', about: null };
  valueIn(await store.photos.add('first' as SheetId, photo));
  valueIn(await store.learning.saveLearner({ id: 'jory' as never, name: 'Jory', course: null }));
  return { folder, file, backups, store, open };
};

export const save = async (store: Store, id: string, title = `sheet ${id}`): Promise<void> => {
  const sample = valueIn(await store.sheets.open('found-01' as SheetId));
  valueIn(await keepSheet(store, { ...sample, id: id as SheetId, title }));
};

export const filesIn = (folder: string): string[] => (existsSync(folder) ? readdirSync(folder).sort() : []);
export const listed = async (store: Store) => valueIn(await store.backups.list()).backups;

/** A closed file of a filled atlas as it was under an older schema. */
export const olderAtlas = async (schema: number, file: string): Promise<void> => {
  const fill = readFileSync(join(import.meta.dirname, `../fixtures/filled-${String(schema).padStart(4, '0')}.sql`), 'utf8');
  const older = await freshConnection(file);
  await older.script('pragma journal_mode = wal;');
  await migrate(older, migrations.slice(0, schema));
  await older.script(`pragma foreign_keys = off; begin; ${fill} commit; pragma wal_checkpoint(truncate);`);
  await older.close();
};
