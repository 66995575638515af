import { chmodSync, existsSync, mkdirSync, readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { openStore } from '../../db/index.ts';
import type { SheetId } from '../../reasoner/index.ts';
import { keepSheet } from '../unit/db/keep-sheet.ts';
import { filledStore, freshConnection, freshFolder, freshStore, troubleIn, valueIn } from '../unit/db/kit.ts';
import { built, start } from './child.ts';

/** A closed atlas with the small pack and some own sheets in it; its file. */
const atlasFile = async (sheets = 1): Promise<string> => {
  const file = join(freshFolder(), 'atlas.sqlite');
  const store = await filledStore({ file });
  const sample = valueIn(await store.sheets.open('found-01' as SheetId));
  for (let n = 0; n < sheets; n += 1)
    valueIn(await keepSheet(store, { ...sample, id: `own-${String(n).padStart(3, '0')}` as SheetId, story: 'x'.repeat(900) }));
  await store.close();
  return file;
};

/** Refused with this code, and not a byte of the file changed. */
const refusesUntouched = async (file: string, code: string): Promise<string> => {
  const before = readFileSync(file);
  const trouble = troubleIn(await openStore(file, { busyMs: 100 }));
  expect(trouble).toMatchObject({ code, place: file });
  expect(trouble.sentence).toContain(file);
  expect(readFileSync(file).equals(before), 'the file was changed').toBe(true);
  return trouble.sentence;
};

const pageSize = 4096;

describe('a damaged file', () => {
  test('a header that is no header', async () => {
    const file = await atlasFile();
    const bytes = readFileSync(file);
    bytes.write('This was a letter once', 0);
    writeFileSync(file, bytes);
    await refusesUntouched(file, 'database-damaged');
  });

  test('a text file of another kind', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    writeFileSync(file, 'Dear Sirs,\n'.repeat(500));
    await refusesUntouched(file, 'database-damaged');
  });

  test.each([0.1, 0.35, 0.6, 0.9])('cut off at %f of its length', async (share) => {
    const file = await atlasFile();
    truncateSync(file, Math.floor((statSync(file).size * share) / pageSize) * pageSize);
    await refusesUntouched(file, 'database-damaged');
  });

  test('cut off in the middle of a page', async () => {
    const file = await atlasFile();
    truncateSync(file, statSync(file).size - 1000);
    await refusesUntouched(file, 'database-damaged');
  });

  test('every page in turn overwritten: it is refused or reads as before, never wrong', async () => {
    const file = await atlasFile();
    const whole = readFileSync(file);
    const before = await (await freshStore({ file })).atlas.read();
    let refused = 0;
    for (let page = 1; page < whole.length / pageSize; page += 1) {
      const spoilt = Buffer.from(whole);
      spoilt.fill(0xa5, page * pageSize, (page + 1) * pageSize);
      const copy = join(freshFolder(), 'atlas.sqlite');
      writeFileSync(copy, spoilt);
      const opened = await openStore(copy);
      if (opened.ok) {
        // A page nothing stands on, or one only the search index uses, which the check of pages does not look into.
        expect(await opened.value.atlas.read(), `page ${page}`).toEqual(before);
        await opened.value.close();
      } else {
        expect(opened.trouble.code).toBe('database-damaged');
        refused += 1;
      }
    }
    expect(refused).toBeGreaterThan((whole.length / pageSize) * 0.5);
  });

  test('emptied, with its journal still there', async () => {
    const file = await atlasFile();
    writeFileSync(file, '');
    writeFileSync(`${file}-wal`, Buffer.alloc(5000, 7));
    await refusesUntouched(file, 'database-damaged');
    expect(statSync(`${file}-wal`).size).toBe(5000);
  });
});

describe('a file that is not this version’s', () => {
  test('from a newer version', async () => {
    const file = await atlasFile();
    const later = await freshConnection(file);
    await later.script(
      `insert into migrations (number, name, hash) values (900, 'later', 'x'); pragma user_version = 900; pragma wal_checkpoint(truncate);`,
    );
    await later.close();
    expect(await refusesUntouched(file, 'database-newer')).toContain('newer version');
  });

  test('of another program', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const other = await freshConnection(file);
    await other.script('create table accounts (owner text); insert into accounts values (1);');
    await other.close();
    await refusesUntouched(file, 'database-foreign');
  });
});

describe('a place where no atlas can be', () => {
  test('a folder of that name, and a file for a folder', async () => {
    const folder = freshFolder();
    mkdirSync(join(folder, 'atlas.sqlite'));
    expect(troubleIn(await openStore(join(folder, 'atlas.sqlite'))).code).toBe('database-cannot-open');
    writeFileSync(join(folder, 'plain'), '');
    expect(troubleIn(await openStore(join(folder, 'plain', 'atlas.sqlite'))).code).toBe('database-cannot-open');
  });

  test('missing folders are made', async () => {
    const file = join(freshFolder(), 'a', 'b', 'atlas.sqlite');
    await freshStore({ file });
    expect(existsSync(file)).toBe(true);
  });

  test('read-only, a file that is not there is not made', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    expect(troubleIn(await openStore(file, { readOnly: true })).code).toBe('database-cannot-open');
    expect(existsSync(file)).toBe(false);
  });
});

describe('a file in use', () => {
  test('another program is writing: reading goes on, saving waits and then says so, and works afterwards', async () => {
    const file = await atlasFile();
    const store = await freshStore({ file, busyMs: 150 });
    const sheet = valueIn(await store.sheets.open('own-000' as SheetId));
    const other = await freshConnection(file);
    await other.transaction('immediate', async () => {
      await other.run(`insert into meta (key, value) values ('busy', 'yes')`);
      expect((await store.atlas.read()).parts).toHaveLength(15);
      expect(troubleIn(await keepSheet(store, sheet))).toMatchObject({
        code: 'database-locked',
        sentence: expect.stringContaining('in use by another program'),
      });
    });
    valueIn(await keepSheet(store, sheet));
  });

  test('another program holds it for itself: it is not opened', async () => {
    const file = await atlasFile();
    const other = await freshConnection(file);
    await other.script(`pragma locking_mode = exclusive; insert into meta (key, value) values ('mine', 'all');`);
    expect(troubleIn(await openStore(file, { busyMs: 100 })).code).toBe('database-locked');
    await other.close();
    await freshStore({ file });
  });
});

describe('a file that may not be written to', () => {
  let useStore: string;
  beforeAll(async () => {
    useStore = await built('use-store');
  });

  /** What an ordinary user's process can do with the atlas. */
  const asOrdinaryUser = async (file: string): Promise<unknown> => {
    const program = start(useStore, [file], { ordinary: true });
    await program.ended;
    return JSON.parse(program.lines.join('\n'));
  };
  const withModes = (file: string, fileMode: number, folderMode: number): void => {
    chmodSync(file, fileMode);
    chmodSync(join(file, '..'), folderMode);
  };

  test('opened for reading only: all can be read, nothing saved', async () => {
    const file = await atlasFile();
    const store = await freshStore({ file, readOnly: true });
    expect(store.writable).toBe(false);
    expect((await store.atlas.read()).parts).toHaveLength(15);
    const sheet = valueIn(await store.sheets.open('own-000' as SheetId));
    expect(troubleIn(await keepSheet(store, sheet))).toMatchObject({
      code: 'database-read-only',
      sentence: expect.stringContaining('may not be written to'),
    });
    expect(troubleIn(await store.packs.remove('small')).code).toBe('database-read-only');
  });

  test.each([
    ['the file', 0o444, 0o777],
    ['the folder', 0o666, 0o555],
    ['both', 0o444, 0o555],
  ])('%s is read-only: the atlas is read, and saving says why it cannot be', async (_, fileMode, folderMode) => {
    const file = await atlasFile();
    withModes(file, fileMode, folderMode);
    const said = await asOrdinaryUser(file);
    withModes(file, 0o644, 0o755);
    expect(said).toEqual({ opened: 'opened', writable: false, parts: 15, saved: 'database-read-only' });
  });

  test('the file may not even be read', async () => {
    const file = await atlasFile();
    withModes(file, 0o000, 0o755);
    const said = await asOrdinaryUser(file);
    withModes(file, 0o644, 0o755);
    expect(said).toEqual({ opened: 'database-cannot-open' });
  });

  test('an atlas of an older version cannot be brought up to date there, and says so', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const empty = await freshConnection(file);
    await empty.script(
      `pragma application_id = ${0x4b704174}; create table migrations (number integer primary key, name text, hash text);`,
    );
    await empty.close();
    expect(troubleIn(await openStore(file, { readOnly: true }))).toMatchObject({
      code: 'database-read-only',
      sentence: expect.stringContaining('made by an older version'),
    });
  });
});
