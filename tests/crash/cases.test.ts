import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { Connection } from '../../db/driver/connection.ts';
import { migrate } from '../../db/driver/migrate.ts';
import { sqliteDriver } from '../../db/driver/sqlite-driver.ts';
import { migrations } from '../../db/migrations/index.ts';
import { storeOver } from '../../db/store/store-over.ts';
import type { SheetId } from '../../reasoner/index.ts';
import { keepSheet } from '../unit/db/keep-sheet.ts';
import { expandCode, freshConnection, freshFolder, freshStore, noon, smallPack, troubleIn, valueIn } from '../unit/db/kit.ts';
import { jpeg, png } from '../unit/db/photos/pictures.ts';
import { built, start } from './child.ts';

let keepCases: string;
beforeAll(async () => {
  keepCases = await built('keep-cases');
});

/** What must hold of every file whatever happened: no sheet without its case, no case without its verdict, no picture half there. */
const expectWhole = async (file: string): Promise<void> => {
  const connection = await freshConnection(file);
  expect(await connection.all('pragma integrity_check')).toEqual([{ integrity_check: 'ok' }]);
  expect(await connection.all('pragma foreign_key_check')).toEqual([]);
  const none = (sql: string) => expect(connection.all(sql), sql).resolves.toEqual([]);
  await none(`select id from sheets where origin = 'own' and id not in (select sheet from cases)`);
  await none(`select sheet from cases where sheet not in (select id from sheets where origin = 'own')`);
  await none('select sheet from cases where sheet not in (select sheet from case_entries)');
  await none('select sheet from cases where sheet not in (select sheet from case_details)');
  await none('select id from photos where id not in (select photo from case_photos)');
  await none(
    `select s.id from sheets s join case_entries e on e.sheet = s.id where s.origin = 'own'
     and e.n = (select max(n) from case_entries where sheet = s.id) and e.body <> s.body`,
  );
  const numbers = await connection.all<{ letter: string; year: number; number: number; last: number }>(
    'select c.letter, c.year, c.number, n.last from cases c left join case_counts n on n.letter = c.letter and n.year = c.year',
  );
  expect(new Set(numbers.map(({ letter, year, number }) => `${letter} ${year} ${number}`)).size).toBe(numbers.length);
  for (const { number, last } of numbers) expect(number).toBeLessThanOrEqual(last);
  for (const { id, bytes } of await connection.all<{ id: string; bytes: Buffer }>('select id, bytes from photos'))
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(id);
  await connection.close();
};

test('[P1] killed while cases are kept: none is half there, and everything said to be kept is', async () => {
  for (const after of ['sheet 1', 'words 2', 'sheet 4', 'words 6']) {
    for (const delay of [0, 7, 23]) {
      const file = join(freshFolder(), 'atlas.sqlite');
      await (await freshStore({ file })).close();
      const program = start(keepCases, [file]);
      await program.line(after);
      await new Promise((resolve) => setTimeout(resolve, delay));
      program.child.kill('SIGKILL');
      await program.ended;
      await expectWhole(file);
      const store = await freshStore({ file });
      // The last line may have been cut by the kill; every whole one stands for what it says.
      for (const line of program.lines.slice(0, -1)) {
        const [what, n, photo] = line.split(' ');
        const kept = valueIn(await store.cases.open(`own-${n}` as SheetId, null));
        if (what === 'photo') expect(kept.photos.map(({ id }) => id as string)).toEqual([photo]);
        if (what === 'words') expect(kept.customer).toBe(`customer ${n}`);
        expect(kept.history).toHaveLength(1);
      }
      await store.close();
    }
  }
});

describe('a database that may not grow', () => {
  test('[P1] a photograph and a case that do not fit are refused whole; with room both are kept', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const connection = await Connection.open(file, { mode: 'write', busyMs: 200 });
    await migrate(connection, migrations);
    const store = storeOver(sqliteDriver(connection), {
      now: () => noon,
      asked: { expandCode },
      fitEngine: undefined,
      migrated: [],
      writable: true,
    });
    valueIn(await store.packs.load(smallPack));
    const sheet = valueIn(await store.sheets.open('found-01' as SheetId));
    valueIn(await keepSheet(store, sheet));
    valueIn(await store.photos.add(sheet.id, { name: 'first.jpg', bytes: jpeg, thumbnail: png, caption: '', about: null }));
    const before = valueIn(await store.cases.open(sheet.id, null));
    const [size] = await connection.all<{ page_count: number }>('pragma page_count');
    const large = Buffer.concat([jpeg.subarray(0, jpeg.length - 2), Buffer.alloc(2_000_000, 7), jpeg.subarray(-2)]);
    for (const room of [0, 1, 20, 200]) {
      await connection.script(`pragma max_page_count = ${(size?.page_count ?? 0) + room}`);
      const add = store.photos.add(sheet.id, { name: 'large.jpg', bytes: large, thumbnail: png, caption: '', about: null });
      expect(troubleIn(await add)).toMatchObject({ code: 'database-full' });
      expect(valueIn(await store.cases.open(sheet.id, null))).toEqual(before);
    }
    await connection.script(`pragma max_page_count = ${size?.page_count ?? 0}`);
    const long = { ...sheet, id: 'long' as SheetId, story: 'x'.repeat(20_000) };
    expect(troubleIn(await keepSheet(store, long))).toMatchObject({ code: 'database-full' });
    expect(troubleIn(await store.cases.open(long.id, null))).toMatchObject({ code: 'not-found' });
    await connection.script('pragma max_page_count = 1000000');
    valueIn(await store.photos.add(sheet.id, { name: 'large.jpg', bytes: large, thumbnail: png, caption: '', about: null }));
    valueIn(await keepSheet(store, long));
    expect(valueIn(await store.cases.open(long.id, null)).number, 'a number taken by what failed was given back').toBe('A-2026-0002');
    await store.close();
    await expectWhole(file);
  });
});
