import { createHash } from 'node:crypto';
import { readFileSync, rmSync, statSync, truncateSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { holdingsOf } from '../../../../db/backups/held.ts';
import { backupsInPlace } from '../../../../db/backups/in-place.ts';
import { lookInto, putIn } from '../../../../db/driver/copies.ts';
import type { Version } from '../../../../db/driver/version.ts';
import { openStore, type Store } from '../../../../db/index.ts';
import { migrations } from '../../../../db/migrations/index.ts';
import type { SheetId } from '../../../../reasoner/index.ts';
import { copyOfSmallPack, freshConnection, freshFolder, freshStore, noon, troubleIn, valueIn } from '../kit.ts';
import { filesIn, listed, olderAtlas, save, shop } from './shop.ts';

const first = 'first' as SheetId;
const ownSheets = async (store: Store) =>
  valueIn(await store.sheets.list())
    .filter(({ origin }) => origin === 'own')
    .map(({ id }) => id as string)
    .sort();
const restored = async (store: Store, name: string) => {
  const { madeAgainst } = valueIn(await store.backups.preview(name));
  return valueIn(await store.backups.restore(name, madeAgainst as Version));
};
const of = (preview: Awaited<ReturnType<Store['backups']['preview']>>, what: string) =>
  valueIn(preview).differences.find((one) => one.what === what);

describe('[P5] what restoring would come to', () => {
  test('[P5] is told by kind, count and name, and nothing is changed by asking', async () => {
    const { store, folder } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    expect(valueIn(await store.backups.preview(name))).toMatchObject({ same: true, migrates: false, backup: { name } });

    await save(store, 'first', 'another title');
    await save(store, 'second', 'a later one');
    valueIn(await store.cases.describe('second' as SheetId, { customer: 'Ann', lookedBy: '', notes: '' }));
    const photo = valueIn(await store.cases.open(first, null)).photos[0]?.id;
    valueIn(await store.photos.remove(first, photo as never));
    valueIn(await store.learning.saveLearner({ id: 'maud' as never, name: 'Maud', course: null }));
    const pack = await copyOfSmallPack();
    const head = join(pack, 'pack.json');
    writeFileSync(head, readFileSync(head, 'utf8').replace('2026-03-02', '2026-04-01'));
    valueIn(await store.packs.load(pack));

    const files = filesIn(folder);
    const preview = await store.backups.preview(name);
    expect(valueIn(preview)).toMatchObject({ same: false, migrates: false });
    const none = { count: 0, names: [] };
    expect(of(preview, 'sheets')).toEqual({
      what: 'sheets',
      now: 2,
      afterwards: 1,
      comesBack: none,
      goes: { count: 1, names: ['a later one'] },
      differs: { count: 1, names: ['sheet first'] },
    });
    expect(of(preview, 'cases')).toMatchObject({
      now: 2,
      afterwards: 1,
      goes: { names: ['A-2026-0002 a later one'] },
      differs: { count: 1 },
    });
    expect(of(preview, 'photographs')).toMatchObject({
      now: 0,
      afterwards: 1,
      comesBack: { count: 1, names: ['as brought in (A-2026-0001 sheet first)'] },
      differs: none,
    });
    expect(of(preview, 'learners')).toMatchObject({ now: 2, afterwards: 1, goes: { names: ['Maud'] }, differs: none });
    expect(of(preview, 'packs')).toMatchObject({ differs: { count: 1, names: [expect.stringContaining('2026-03-02')] } });
    expect(filesIn(folder), 'looking leaves nothing behind').toEqual(files);
    expect(await ownSheets(store)).toEqual(['first', 'second']);
  });

  test('[P5] of many the first are named and all are counted', async () => {
    const { store } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    const other = await freshConnection(store.file);
    // More than are read at once, and to the last.
    await other.script(
      `with recursive c (n) as (select 1 union all select n + 1 from c where n < 2000)
       insert into learners (id, name, course, since) select 'l' || n, 'L' || n, null, '2026-03-04T12:00:00.000Z' from c`,
    );
    const learners = of(await store.backups.preview(name), 'learners');
    expect(learners?.goes.count).toBe(2000);
    expect(learners?.goes.names).toHaveLength(200);
    await other.run(`update learners set name = 'the last' where id = 'jory'`);
    expect(of(await store.backups.preview(name), 'learners')?.differs.names).toEqual(['Jory']);
  });

  test('[P5] an older schema is read as it would be once brought up to date', async () => {
    const { store, backups } = await shop();
    const older = join(freshFolder(), 'atlas.sqlite');
    await olderAtlas(2, older);
    const name = '2025-01-01T00-00-00-000Z-asked.sqlite';
    valueIn(await store.backups.make('asked'));
    writeFileSync(join(backups, name), readFileSync(older));
    const before = readFileSync(join(backups, name));
    const preview = await store.backups.preview(name);
    expect(valueIn(preview).migrates).toBe(true);
    expect(of(preview, 'cases')).toMatchObject({
      now: 1,
      afterwards: 1,
      comesBack: { count: 1, names: ['2026-0001 Brought in on a rainy day'] },
    });
    expect(readFileSync(join(backups, name)).equals(before)).toBe(true);
  });
});

describe('[P5] a backup is put back', () => {
  test('[P5] everything is as it was, whoever has the atlas open sees it, and what there was is in a backup of its own', async () => {
    const { store, open, folder } = await shop();
    const atlas = await store.atlas.read();
    const kept = valueIn(await store.cases.open(first, null));
    const { name } = valueIn(await store.backups.make('asked'));
    const other = await open({ readOnly: true });
    expect(await ownSheets(other)).toEqual(['first']);
    await save(store, 'second');
    await save(store, 'first', 'another title');
    valueIn(await store.packs.remove('small'));
    const done = await restored(store, name);
    expect(done).toMatchObject({ from: name, aside: null });
    for (const one of [store, other]) {
      expect(await ownSheets(one)).toEqual(['first']);
      expect(valueIn(await one.cases.open(first, null))).toEqual(kept);
      expect(await one.atlas.read()).toEqual(atlas);
    }
    expect(filesIn(folder).filter((file) => file.includes('.part'))).toEqual([]);
    expect((await listed(store)).map(({ reason }) => reason).sort()).toEqual(['asked', 'before-pack', 'before-restore']);

    // And back again: nothing was lost by restoring.
    await restored(store, done.before ?? '');
    expect(await ownSheets(store)).toEqual(['first', 'second']);
    expect(valueIn(await store.sheets.open(first)).title).toBe('another title');
    expect(valueIn(await store.packs.list())).toEqual([]);
    await save(store, 'third').catch(() => undefined);
    const connection = await freshConnection(store.file);
    expect(await connection.all('pragma integrity_check')).toEqual([{ integrity_check: 'ok' }]);
    expect(await connection.all('pragma foreign_key_check')).toEqual([]);
    expect(await connection.all('pragma journal_mode')).toEqual([{ journal_mode: 'wal' }]);
  });

  test('[P1] a number that was given is not given again, whichever of the two knew the higher', async () => {
    const { store } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    await save(store, 'second');
    await save(store, 'third');
    const { before } = await restored(store, name);
    await save(store, 'fourth');
    expect(valueIn(await store.cases.open('fourth' as SheetId, null)).number).toBe('A-2026-0004');
    // The later state knew of three, this one of four.
    await restored(store, before ?? '');
    await save(store, 'fifth');
    expect(valueIn(await store.cases.open('fifth' as SheetId, null)).number).toBe('A-2026-0005');
  });

  const numberOf = async (store: Store, id: string) => {
    await save(store, id);
    return valueIn(await store.cases.open(id as SheetId, null)).number;
  };
  const called = async (store: Store, letter: string) => valueIn(await store.settings.save('counter', { letter }, 'Osk'));

  test('[P1] nor is one under another letter: each has the higher of both by itself', async () => {
    const { store } = await shop();
    expect(await numberOf(store, 'second')).toBe('A-2026-0002');
    const { name } = valueIn(await store.backups.make('asked'));
    await called(store, 'K');
    expect([await numberOf(store, 'third'), await numberOf(store, 'fourth')]).toEqual(['K-2026-0001', 'K-2026-0002']);
    await restored(store, name);
    expect(await numberOf(store, 'fifth'), 'the letter is the backup’s again').toBe('A-2026-0003');
    await called(store, 'K');
    expect(await numberOf(store, 'sixth')).toBe('K-2026-0003');
    await called(store, 'B');
    expect(await numberOf(store, 'seventh')).toBe('B-2026-0001');
  });

  /** A file of schema 27, in which a year had one count: its one case is the fifth, under K. */
  const countedByYear = async (file: string, last: number) => {
    await olderAtlas(27, file);
    const older = await freshConnection(file);
    await older.script(
      `update cases set letter = 'K', number = 5; update case_numbers set last = ${last}; pragma wal_checkpoint(truncate);`,
    );
    await older.close();
  };

  test('[P1] nor one that an older edition counted by the year alone', async () => {
    const { store, folder } = await shop();
    const older = join(folder, 'older.sqlite');
    await countedByYear(older, 5);
    const { madeAgainst } = valueIn(await store.backups.preview(older, true));
    valueIn(await store.backups.restore(older, madeAgainst as Version, true));
    expect(await numberOf(store, 'second'), 'one to four were given, under whatever letter').toBe('A-2026-0005');
    await called(store, 'K');
    expect(await numberOf(store, 'third')).toBe('K-2026-0006');
  });

  test('[P1] a backup with numbers under this counter’s letter that were not given here is told before it is put back', async () => {
    const [here, other] = [await shop(), await shop()];
    for (const id of ['second', 'third', 'fourth']) await save(other.store, id);
    await called(other.store, 'K');
    await save(other.store, 'fifth');
    const copy = join(here.folder, 'stick.sqlite');
    writeFileSync(copy, readFileSync(join(other.backups, valueIn(await other.store.backups.make('asked')).name)));
    const told = async () => valueIn(await here.store.backups.preview(copy, true)).elsewhere;
    expect(await told()).toEqual({ first: 'A-2026-0002', many: 3 });
    await save(here.store, 'second of ours');
    expect(await told(), 'another case has the second here').toEqual({ first: 'A-2026-0002', many: 3 });
    valueIn(await here.store.sheets.remove('second of ours' as SheetId));
    expect(await told(), 'the second may be of the case that was removed').toEqual({ first: 'A-2026-0003', many: 2 });
    await called(here.store, 'K');
    expect(await told()).toEqual({ first: 'K-2026-0001', many: 1 });
    await called(here.store, 'B');
    expect(await told()).toBeNull();
    await called(here.store, 'A');
    const { name } = valueIn(await here.store.backups.make('asked'));
    await save(here.store, 'later');
    expect(valueIn(await here.store.backups.preview(name)).elsewhere, 'its own').toBeNull();
    const { before } = await restored(here.store, name);
    expect(valueIn(await here.store.backups.preview(before ?? '')).elsewhere, 'and the one from before').toBeNull();
  });

  test('[P5] where the atlas is no longer what was compared with, nothing is put back', async () => {
    const { store } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    await save(store, 'second');
    const { madeAgainst } = valueIn(await store.backups.preview(name));
    await save(store, 'third');
    expect(troubleIn(await store.backups.restore(name, madeAgainst as Version))).toMatchObject({
      code: 'changed-since',
      sentence: expect.stringContaining('Nothing was restored'),
    });
    expect(await ownSheets(store)).toEqual(['first', 'second', 'third']);
    expect((await listed(store)).map(({ reason }) => reason)).toEqual(['asked']);
  });

  test('[P5] what is saved between the last look and the putting back keeps it from being put back', async () => {
    const { store, backups, file } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    await save(store, 'second');
    const { version } = await lookInto(file, holdingsOf);
    await save(store, 'third');
    const asked: boolean[] = [];
    const put = await putIn(file, join(backups, name), async (reader) => {
      const still = (await holdingsOf(reader)).version === version;
      asked.push(still);
      return still;
    });
    expect([put, asked]).toEqual([false, [false]]);
    expect(await ownSheets(store)).toEqual(['first', 'second', 'third']);
    await save(store, 'fourth');
  });

  test('[P5] while it is put in, nobody else may write and everybody may read what there was', async () => {
    const { store, backups, open, file } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    await save(store, 'second');
    await store.close();
    const other = await open({ busyMs: 50 });
    const put = putIn(file, join(backups, name), async () => {
      expect(await ownSheets(other)).toEqual(['first', 'second']);
      expect(troubleIn(await other.learning.saveLearner({ id: 'x' as never, name: 'X', course: null })).code).toBe('database-locked');
      return true;
    });
    expect(await put).toBe(true);
    expect(await ownSheets(other)).toEqual(['first']);
  });

  test('[P5] where the backup of what there is cannot be made, nothing is put back', async () => {
    const { store, backups, folder } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    const copy = join(folder, 'copy.sqlite');
    writeFileSync(copy, readFileSync(join(backups, name)));
    await save(store, 'second');
    const { madeAgainst } = valueIn(await store.backups.preview(copy, true));
    rmSync(backups, { recursive: true });
    writeFileSync(backups, 'a file where the folder should be');
    expect(troubleIn(await store.backups.restore(copy, madeAgainst as Version, true)).code).toBe('backup-failed');
    expect(await ownSheets(store)).toEqual(['first', 'second']);
    expect(filesIn(folder).filter((one) => one.includes('.part'))).toEqual([]);
  });

  test('[P5] the one that is put back may be the one that goes for room', async () => {
    const { store, backups } = await shop({ atMost: 1 });
    const { name } = valueIn(await store.backups.make('asked'));
    await save(store, 'second');
    const { before } = await restored(store, name);
    expect(await ownSheets(store)).toEqual(['first']);
    expect(filesIn(backups)).toEqual([before]);
  });

  test('[P5] an older schema is brought up to date first, the backup itself is not', async () => {
    const { store, backups } = await shop();
    valueIn(await store.backups.make('asked'));
    const older = join(freshFolder(), 'atlas.sqlite');
    await olderAtlas(2, older);
    const name = '2025-01-01T00-00-00-000Z-asked.sqlite';
    writeFileSync(join(backups, name), readFileSync(older));
    await restored(store, name);
    expect(await ownSheets(store)).toEqual(['own-1']);
    const look = await freshConnection(store.file);
    expect(await look.all('select count(*) as n from migrations')).toEqual([{ n: migrations.length }]);
  });

  test('[P5] a path leads out of the folder only where it may; what is named twice is the folder’s own', async () => {
    const { store, backups, folder } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    const copy = join(folder, 'stick.sqlite');
    writeFileSync(copy, readFileSync(join(backups, name)));
    expect(troubleIn(await store.backups.preview(copy)).code).toBe('not-found');
    expect(troubleIn(await store.backups.preview('../atlas.sqlite')).code).toBe('not-found');
    expect(valueIn(await store.backups.preview(copy, true)).backup.name).toBe('stick.sqlite');
    expect(troubleIn(await store.backups.preview(join(folder, 'nothing'), true)).code).toBe('not-found');
  });

  test('[P5] the newest is the newest sound one', async () => {
    let at = noon;
    const { store, backups } = await shop({ now: () => at });
    const { name } = valueIn(await store.backups.make('asked'));
    at = new Date(noon.getTime() + 1000);
    const later = valueIn(await store.backups.make('asked'));
    expect(valueIn(await store.backups.preview('newest')).backup.name).toBe(later.name);
    truncateSync(join(backups, later.name), 9000);
    expect(valueIn(await store.backups.preview('newest')).backup.name).toBe(name);
  });
});

describe('[P5] an atlas nobody can open', () => {
  const place = ({ file, backups }: { readonly file: string; readonly backups: string }) =>
    backupsInPlace({ file, folder: backups, atMost: 1e9, now: () => noon });
  const closedShop = async () => {
    const made = await shop();
    const { name } = valueIn(await made.store.backups.make('asked'));
    await save(made.store, 'second');
    await made.store.close();
    return { ...made, name };
  };

  test('[P5] gone: the backup takes its place, and what there was is told as nothing', async () => {
    const made = await closedShop();
    rmSync(made.file);
    const preview = valueIn(await place(made).preview('newest'));
    expect(preview).toMatchObject({ madeAgainst: null, same: false });
    expect(preview.differences.find(({ what }) => what === 'cases')).toMatchObject({ now: 0, afterwards: 1, comesBack: { count: 1 } });
    expect(valueIn(await place(made).restore('newest'))).toEqual({ from: made.name, before: null, aside: null });
    const store = await made.open();
    expect(await ownSheets(store)).toEqual(['first']);
    expect(statSync(made.file).mode & 0o777).toBe(0o600);
  });

  test('[P5] damaged, with its journal: all of it is moved aside as it is, and its numbers are kept where they can be read', async () => {
    const made = await closedShop();
    const bytes = readFileSync(made.file);
    const connection = await freshConnection(made.file);
    const [root] = await connection.all<{ rootpage: number }>(`select rootpage from sqlite_master where name = 'parts'`);
    await connection.close();
    const page = ((root?.rootpage ?? 2) - 1) * 4096;
    bytes.fill(0xa5, page, page + 4096);
    writeFileSync(made.file, bytes);
    expect(troubleIn(await openStore(made.file)).code).toBe('database-damaged');
    writeFileSync(`${made.file}-shm`, 'left over');
    const { aside } = valueIn(await place(made).restore(made.name));
    expect(aside).toBe(`${made.file}.damaged-2026-03-04T12-00-00-000Z`);
    expect(readFileSync(aside ?? '').equals(bytes)).toBe(true);
    expect(filesIn(made.folder)).toContain('atlas.sqlite.damaged-2026-03-04T12-00-00-000Z-shm');
    const store = await made.open();
    expect(await ownSheets(store)).toEqual(['first']);
    await save(store, 'third');
    expect(valueIn(await store.cases.open('third' as SheetId, null)).number, 'the damaged file had given two').toBe('A-2026-0003');
  });

  test.each([27, 28])('[P1] damaged, of schema %i: no number it gave is given again under any letter it may have had', async (schema) => {
    const folder = freshFolder();
    const made = { file: join(folder, 'atlas.sqlite'), backups: join(folder, 'backups') };
    await olderAtlas(schema, made.file);
    const older = await freshConnection(made.file);
    const stands = join(folder, 'copy.sqlite');
    writeFileSync(stands, readFileSync(made.file));
    const counted =
      schema === 27
        ? 'update case_numbers set last = 9'
        : `insert into case_counts (letter, year, last) values ('K', 2026, 7) on conflict (letter, year) do update set last = 7`;
    await older.script(`${counted}; pragma wal_checkpoint(truncate);`);
    const [root] = await older.all<{ rootpage: number }>(`select rootpage from sqlite_master where name = 'parts'`);
    await older.close();
    const bytes = readFileSync(made.file);
    const page = ((root?.rootpage ?? 2) - 1) * 4096;
    writeFileSync(made.file, bytes.fill(0xa5, page, page + 4096));
    valueIn(await place(made).restore(stands));
    const store = await freshStore({ file: made.file, backups: { folder: made.backups } });
    valueIn(await store.settings.save('counter', { letter: 'K' }, 'Osk'));
    await save(store, 'next');
    expect(valueIn(await store.cases.open('next' as SheetId, null)).number).toBe(schema === 27 ? 'K-2026-0010' : 'K-2026-0008');
  });

  test('[P5] a journal without its file is not taken for the next file’s', async () => {
    const made = await closedShop();
    rmSync(made.file);
    writeFileSync(`${made.file}-wal`, Buffer.alloc(5000, 7));
    valueIn(await place(made).restore('newest'));
    expect(await ownSheets(await made.open())).toEqual(['first']);
    expect(filesIn(made.folder)).toContain('atlas.sqlite.damaged-2026-03-04T12-00-00-000Z-wal');
  });
});

describe('[P5] going back to the version before a migration', () => {
  const hash = (file: string) => createHash('sha256').update(readFileSync(file)).digest('hex');

  test.each([2, 9])('[P5] from schema %i: the older program opens what it had, to the byte', async (schema) => {
    const folder = freshFolder();
    const file = join(folder, 'atlas.sqlite');
    const backups = join(folder, 'backups');
    await olderAtlas(schema, file);
    const store = await freshStore({ file, backups: { folder: backups } });
    await save(store, 'later');
    await store.close();
    const [before] = filesIn(backups);
    expect(before).toMatch(/-before-migration\.sqlite$/);
    const back = backupsInPlace({ file, folder: backups, atMost: 1e9, now: () => noon });
    const kept = hash(join(backups, before ?? ''));
    expect(valueIn(await back.asItIs(before ?? '', true))).toMatchObject({
      from: before,
      aside: null,
      before: expect.stringMatching(/before-restore/),
    });
    expect(hash(file)).toBe(kept);
    expect(filesIn(folder)).toEqual(['atlas.sqlite', 'backups']);
    // As the older program sees it: with its own migrations it has nothing to do, and everything is there.
    const older = await freshConnection(file);
    expect(await older.all('select max(number) as n from migrations')).toEqual([{ n: schema }]);
    expect(await older.all(`select id from sheets where origin = 'own'`)).toEqual([{ id: 'own-1' }]);
    expect(await older.all('pragma integrity_check')).toEqual([{ integrity_check: 'ok' }]);
    await older.close();
    // And forward again: it is migrated anew, and what was added meanwhile is in its backup.
    const again = await freshStore({ file, backups: { folder: backups } });
    const list = await listed(again);
    const newest = list.find(({ reason }) => reason === 'before-restore');
    await restored(again, newest?.name ?? '');
    expect(await ownSheets(again)).toContain('later');
  });

  test('[P5] what another program writes in the middle of it keeps the older file from being put back', async () => {
    const { store, file, backups, open } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    await save(store, 'second');
    await store.close();
    let touched = 0;
    const now = () => {
      // Asked for while the backup of what there is is being made.
      touched += 1;
      utimesSync(file, new Date(), new Date(Date.now() + 60_000));
      return noon;
    };
    const back = backupsInPlace({ file, folder: backups, atMost: 1e9, now });
    expect(troubleIn(await back.asItIs(name, true))).toMatchObject({ code: 'changed-since' });
    expect(touched).toBeGreaterThan(0);
    expect(await ownSheets(await open())).toEqual(['first', 'second']);
  });

  test('[P5] while the atlas is open it stays as it is, and that is said', async () => {
    const { store, file, backups } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    const back = backupsInPlace({ file, folder: backups, atMost: 1e9, now: () => noon });
    await save(store, 'second');
    expect(troubleIn(await back.asItIs(name, true))).toMatchObject({ code: 'database-locked' });
    expect(await ownSheets(store)).toEqual(['first', 'second']);
    await save(store, 'third');
    expect(filesIn(backups)).toEqual([name]);
  });
});
