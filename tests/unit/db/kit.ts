import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach } from 'vitest';
import { Connection } from '../../../db/driver/connection.ts';
import { type Outcome, openStore, type Store, type StoreOptions, type Trouble } from '../../../db/index.ts';
import { demoPack, expandCode, expandH7, smallPack, vocabularyPack } from './packs.ts';

export { demoPack, expandCode, expandH7, smallPack, vocabularyPack };

const folders: string[] = [];
const open: { close(): Promise<void> }[] = [];

afterEach(async () => {
  for (const store of open.splice(0)) await store.close();
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A fresh folder, gone after the test. */
export const freshFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'kinplate-db-'));
  folders.push(folder);
  return folder;
};

export const noon = new Date('2026-03-04T12:00:00.000Z');

/**
 * A store over a real file, closed after the test. A file that is not there yet is a copy of one that went through the migrations once: to go through them takes ten
 * times as long as to open it. The store's own making of a file is held by `migrations.test.ts` and the tests of the crash folder.
 */
export const freshStore = async (options: StoreOptions & { file?: string } = {}): Promise<Store> => {
  const { file = join(freshFolder(), 'atlas.sqlite'), ...rest } = options;
  if (file !== ':memory:' && rest.readOnly !== true && !existsSync(file)) {
    empty ??= bytesOf(async () => undefined);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, await empty);
  }
  const store = valueIn(await openStore(file, { expandCode: expandH7, now: () => noon, ...rest }));
  open.push(store);
  return store;
};

/** A store with the small pack in it: a copy of one that is filled once, where nothing else is asked of it. */
export const filledStore = async (options: StoreOptions & { file?: string } = {}): Promise<Store> => {
  const { file = join(freshFolder(), 'atlas.sqlite'), ...rest } = options;
  if (Object.keys(rest).length === 0 && file !== ':memory:' && !existsSync(file)) {
    filled ??= bytesOf(async (store) => void valueIn(await store.packs.load(smallPack)));
    writeFileSync(file, await filled);
    return await freshStore({ file });
  }
  const store = await freshStore(options);
  valueIn(await store.packs.load(smallPack));
  return store;
};

let empty: Promise<Buffer> | null = null;
let filled: Promise<Buffer> | null = null;
const bytesOf = async (fill: (store: Store) => Promise<void>): Promise<Buffer> => {
  const folder = mkdtempSync(join(tmpdir(), 'kinplate-db-'));
  try {
    const file = join(folder, 'atlas.sqlite');
    const store = valueIn(await openStore(file, { expandCode: expandH7, now: () => noon }));
    await fill(store);
    await store.close();
    return readFileSync(file);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

/** A bare connection to a real file, closed after the test. */
export const freshConnection = async (file = join(freshFolder(), 'bare.sqlite'), busyMs = 200): Promise<Connection> => {
  const connection = await Connection.open(file, { mode: 'write', busyMs });
  open.push(connection);
  return connection;
};

/** A copy of the small pack to be spoilt. */
export const copyOfSmallPack = async (): Promise<string> => {
  const folder = join(freshFolder(), 'pack');
  await cp(smallPack, folder, { recursive: true });
  return folder;
};

export const valueIn = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok)
    throw new Error(
      `${outcome.trouble.code}: ${outcome.trouble.sentence}\n${(outcome.trouble.all ?? []).map((each) => each.sentence).join('\n')}`,
    );
  return outcome.value;
};

export const troubleIn = (outcome: Outcome<unknown>): Trouble => {
  if (outcome.ok) throw new Error(`expected a trouble, got ${JSON.stringify(outcome.value).slice(0, 200)}`);
  return outcome.trouble;
};
