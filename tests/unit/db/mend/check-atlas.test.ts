import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { migrate } from '../../../../db/driver/migrate.ts';
import { checkAtlas, openStore } from '../../../../db/index.ts';
import { migrations } from '../../../../db/migrations/index.ts';
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
    'an entry whose verdict is null',
    `update case_entries set verdict = 'null' where sheet = 'own-1'`,
    'entry 1 of the case of sheet own-1 cannot be read',
  ],
  [
    'an entry whose verdict is a list',
    `update case_entries set verdict = '[]' where sheet = 'own-1'`,
    'entry 1 of the case of sheet own-1 cannot be read',
  ],
  [
    'a reference to nothing',
    `pragma foreign_keys = off; delete from cases where sheet = 'own-1'`,
    'its case entries speak of cases that are not there',
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

test('[P3] a file that is no database, and one cut short, are told by what is wrong with them, not by what to do', async () => {
  const file = await atlasFile(1);
  const whole = readFileSync(file);
  writeFileSync(file, whole.subarray(0, 40_960));
  expect(valueIn(await checkAtlas(file))).toEqual([`it was cut short: 40960 bytes of ${whole.length}`]);
  writeFileSync(file, 'Dear Sirs,\n'.repeat(900));
  expect(valueIn(await checkAtlas(file))).toEqual(['it is no database']);
});

/** Statements that fill an atlas with copies of what it holds of one sheet, under the ids `copy-001` to as many as asked. */
const copies = (many: number, sql: (id: string, n: number) => string): string => {
  const statements = ['begin'];
  for (let n = 1; n <= many; n += 1) statements.push(sql(`copy-${String(n).padStart(3, '0')}`, n));
  return [...statements, 'commit'].join('; ');
};
const sheetCopied = (id: string, body: string): string =>
  `insert into sheets (id, origin, position, title, kind, claimed, observations, body, saved_at)
   select '${id}', 'own', 0, title, kind, claimed, observations, ${body}, saved_at from sheets where id = 'own-0' and origin = 'own'`;

test('[P3] every sheet of an atlas is looked at, however many there are', async () => {
  const file = await atlasFile(1);
  await changed(
    file,
    copies(230, (id, n) => sheetCopied(id, [100, 101, 230].includes(n) ? `'{}'` : `json_set(body, '$.id', '${id}')`)),
  );
  expect(valueIn(await checkAtlas(file))).toEqual(['100', '101', '230'].map((n) => `the sheet copy-${n} cannot be read`));
});

const numbered = (file: string, text: string, many: number): Promise<readonly string[]> =>
  checkAtlas(file).then((outcome) => {
    const faults = valueIn(outcome);
    expect(new Set(faults).size).toBe(many);
    for (const fault of faults) expect(fault).toContain(text);
    return faults;
  });

test.each([
  [19, 19],
  [20, 20],
  [21, 20],
  [30, 20],
])('[P3] of %i faults of one sort %i are told', async (many, told) => {
  const sheets = await atlasFile(1);
  await changed(
    sheets,
    copies(many, (id) => sheetCopied(id, `'{}'`)),
  );
  const faults = await numbered(sheets, 'cannot be read', told);
  expect(faults[0]).toBe('the sheet copy-001 cannot be read');

  const entries = await atlasFile(1);
  await changed(
    entries,
    copies(
      many,
      (_, n) => `insert into case_entries (sheet, n, at, who, edition, body, verdict, claim_status)
        select sheet, ${n + 1}, at, who, edition, '{}', verdict, claim_status from case_entries where sheet = 'own-0' and n = 1`,
    ),
  );
  expect((await numbered(entries, 'of the case of sheet own-0', told))[0]).toBe('entry 2 of the case of sheet own-0 cannot be read');

  const photos = await atlasFile(1);
  await changed(
    photos,
    copies(
      many,
      (id, n) => `insert into photos (id, type, width, height, size, bytes, thumbnail_type, thumbnail)
        select '${id.padStart(64, 'f')}', type, width, height, 1, x'${n.toString(16).padStart(2, '0')}', thumbnail_type, thumbnail from photos where size > 1`,
    ),
  );
  await numbered(photos, 'is not the one that was saved', told);
});

test.each([
  [1, ['the sheet own-0 cannot be read']],
  [2, ['the sheet own-0 cannot be read']],
  [3, ['the sheet own-0 cannot be read']],
])('[P3] an atlas of schema %i is looked at as far as it goes', async (number, faults) => {
  const file = join(freshFolder(), 'atlas.sqlite');
  const connection = await freshConnection(file);
  await migrate(connection, migrations.slice(0, number));
  await connection.script(
    `insert into sheets (id, origin, position, title, kind, observations, body, saved_at)
       values ('own-0', 'own', 0, 'Unit 0', 'found', 0, '{}', '2026-02-01T08:00:00.000Z')`,
  );
  await connection.close();
  expect(valueIn(await checkAtlas(file))).toEqual(faults);
});

test('[P3] an atlas that was broken off before it had any table has nothing in it to be damaged', async () => {
  const file = join(freshFolder(), 'atlas.sqlite');
  await changed(file, 'create table first (n integer); drop table first');
  expect(statSync(file).size).toBeGreaterThan(0);
  expect(valueIn(await checkAtlas(file))).toEqual([]);
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
