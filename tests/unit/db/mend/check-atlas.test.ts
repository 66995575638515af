import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { checkAtlas, openStore } from '../../../../db/index.ts';
import { asId, type SheetId } from '../../../../reasoner/index.ts';
import { keepSheet } from '../keep-sheet.ts';
import { filledStore, freshConnection, freshFolder, troubleIn, valueIn } from '../kit.ts';
import { jpeg, png } from '../photos/pictures.ts';

const pageSize = 4096;

/** A closed atlas with own sheets, the first with a photograph; its file. */
const atlasFile = async (sheets: number): Promise<string> => {
  const file = join(freshFolder(), 'atlas.sqlite');
  const store = await filledStore({ file });
  const sample = valueIn(await store.sheets.open(asId<SheetId>('found-01')));
  for (let n = 0; n < sheets; n += 1) valueIn(await keepSheet(store, { ...sample, id: asId<SheetId>(`own-${n}`), story: 'x'.repeat(900) }));
  valueIn(await store.photos.add(asId<SheetId>('own-0'), { name: 'a.jpg', bytes: jpeg, thumbnail: png, caption: '', about: null }));
  await store.close();
  return file;
};

const changed = async (file: string, sql: string): Promise<void> => {
  const connection = await freshConnection(file);
  await connection.script(sql);
  await connection.close();
};

/** Overwrites a page, the first being 1, on which a text stands. */
const spoilPageWith = (file: string, text: string): void => {
  const bytes = readFileSync(file);
  const page = Math.floor(bytes.lastIndexOf(text) / pageSize);
  bytes.fill(0xa5, page * pageSize, (page + 1) * pageSize);
  writeFileSync(file, bytes);
};

test('[P3] a sound atlas has no faults, and none is made by looking', async () => {
  const file = await atlasFile(2);
  const before = readFileSync(file);
  expect(valueIn(await checkAtlas(file))).toEqual([]);
  expect(readFileSync(file).equals(before)).toBe(true);
});

test('[P3] a damaged atlas of more than 64 MiB, which still opens, is never called sound', async () => {
  const file = await atlasFile(2);
  await changed(file, `insert into meta (key, value) values ('weight', hex(zeroblob(36000000))); pragma wal_checkpoint(truncate);`);
  expect(statSync(file).size).toBeGreaterThan(64 * 2 ** 20);
  expect(valueIn(await checkAtlas(file))).toEqual([]);
  spoilPageWith(file, '"id":"own-1"');
  await valueIn(await openStore(file)).close();
  expect(valueIn(await checkAtlas(file)).length).toBeGreaterThan(0);
});

test.each([
  [
    'a sheet that is no sheet',
    `update sheets set body = '{"id":"own-0"}' where id = 'own-0' and origin = 'own'`,
    'the sheet own-0 cannot be read',
  ],
  [
    'an entry that is no sheet',
    `update case_entries set body = '7' where sheet = 'own-1'`,
    'entry 1 of the case of sheet own-1 cannot be read',
  ],
  [
    'an entry without a verdict',
    `update case_entries set verdict = '7' where sheet = 'own-1'`,
    'entry 1 of the case of sheet own-1 cannot be read',
  ],
  [
    'a reference to nothing',
    `pragma foreign_keys = off; delete from cases where sheet = 'own-1'`,
    'rows of case_entries refer to rows of cases that are not there',
  ],
  [
    'a photograph that is another',
    `update photos set bytes = x'00', size = 1`,
    /^the photograph [0-9a-f]{64} is not the one that was saved$/,
  ],
  [
    'a page nobody stands on',
    "pragma writable_schema = on; delete from sqlite_schema where name = 'sheets_by_pack'",
    /Page \d+.*never used/,
  ],
])('[P3] %s is a fault', async (_, sql, fault) => {
  const file = await atlasFile(2);
  await changed(file, sql);
  const faults = valueIn(await checkAtlas(file));
  expect(faults).toContainEqual(typeof fault === 'string' ? fault : expect.stringMatching(fault));
});

test('[P3] a file that is not there, of another program, or of a newer version is a trouble, not a fault', async () => {
  expect(troubleIn(await checkAtlas(join(freshFolder(), 'none'))).code).toBe('database-cannot-open');
  const other = join(freshFolder(), 'other.sqlite');
  await changed(other, 'create table accounts (owner text)');
  expect(troubleIn(await checkAtlas(other)).code).toBe('database-foreign');
  const newer = await atlasFile(1);
  await changed(newer, `insert into migrations (number, name, hash) values (9000, 'later', 'x')`);
  expect(troubleIn(await checkAtlas(newer)).code).toBe('database-newer');
});

test('[P3] where mending was broken off no fresh atlas is made: it is to be run again', async () => {
  const file = join(freshFolder(), 'atlas.sqlite');
  writeFileSync(`${file}.mended`, 'anything');
  expect(troubleIn(await openStore(file))).toMatchObject({
    code: 'mend-unfinished',
    sentence: expect.stringContaining('run kinplate mend again'),
  });
  expect(() => statSync(file)).toThrow();
});

test('[P3] a journal without its file is not filled up with a fresh atlas', async () => {
  const file = join(freshFolder(), 'atlas.sqlite');
  writeFileSync(`${file}-wal`, 'anything');
  expect(troubleIn(await openStore(file))).toMatchObject({ code: 'database-damaged' });
  expect(() => statSync(file)).toThrow();
});
