import { mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { BackupReason } from '../../../../db/answers.ts';
import { makeBackup } from '../../../../db/backups/make-backup.ts';
import { backupName, readBackupName, unfinishedBy, unfinishedName } from '../../../../db/backups/names.ts';
import { openStore, type Store } from '../../../../db/index.ts';
import { migrations } from '../../../../db/migrations/index.ts';
import type { SheetId } from '../../../../reasoner/index.ts';
import { copyOfSmallPack, demoPack, freshConnection, freshFolder, freshStore, noon, troubleIn, valueIn } from '../kit.ts';
import { filesIn, listed, olderAtlas, save, shop } from './shop.ts';

describe('[P5] a backup is made', () => {
  test('[P5] it is named after when and why, is verified, tells what it holds, and nobody else may read it', async () => {
    const { store, backups } = await shop();
    const made = valueIn(await store.backups.make('asked'));
    expect(made).toEqual({
      name: '2026-03-04T12-00-00-000Z-asked.sqlite',
      at: noon.toISOString(),
      reason: 'asked',
      bytes: statSync(join(backups, made.name)).size,
      state: {
        kind: 'sound',
        schema: expect.any(Number),
        counts: { packs: 1, sheets: 1, cases: 1, photographs: 1, learners: 1, answers: 0 },
      },
    });
    expect(filesIn(backups)).toEqual([made.name]);
    expect(statSync(backups).mode & 0o777).toBe(0o700);
    expect(statSync(join(backups, made.name)).mode & 0o777).toBe(0o600);
    expect(valueIn(await store.backups.list())).toEqual({ folder: backups, backups: [made], atMost: 2 * 2 ** 30, failed: null });
    expect(filesIn(backups), 'looking leaves nothing beside it').toEqual([made.name]);
  });

  test('[P5] two in the same millisecond are two', async () => {
    const { store, backups } = await shop();
    await store.backups.make('asked');
    await store.backups.make('asked');
    expect(filesIn(backups)).toEqual(['2026-03-04T12-00-00-000Z-asked.sqlite', '2026-03-04T12-00-00-001Z-asked.sqlite']);
  });

  test('[P5] it opens as an atlas of its own, with everything in it', async () => {
    const { store, backups } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    const copy = join(freshFolder(), 'atlas.sqlite');
    writeFileSync(copy, readFileSync(join(backups, name)));
    const other = await freshStore({ file: copy });
    expect(await other.atlas.read()).toEqual(await store.atlas.read());
    expect(valueIn(await other.cases.open('first' as SheetId, null))).toEqual(valueIn(await store.cases.open('first' as SheetId, null)));
    expect(valueIn(await other.sheets.open('first' as SheetId))).toEqual(valueIn(await store.sheets.open('first' as SheetId)));
  });

  test('[P5] while it is made, sheets are saved and read; it holds one state of them, whole', async () => {
    const { store, backups } = await shop();
    let stop = false;
    let saved = 0;
    const writer = (async () => {
      for (; !stop; saved += 1) await save(store, `w${String(saved).padStart(4, '0')}`);
    })();
    const counts: number[] = [];
    for (let n = 0; n < 4; n += 1) {
      const before = saved;
      const { name, state } = valueIn(await store.backups.make('asked'));
      expect(saved, 'a save waited for the backup').toBeGreaterThan(before);
      if (state.kind !== 'sound') throw new Error(state.why);
      counts.push(state.counts.sheets);
      const look = await freshConnection(join(backups, name));
      const ids = (await look.all<{ id: string }>(`select id from sheets where origin = 'own' and id like 'w%' order by id`)).map(
        ({ id }) => id,
      );
      expect(ids).toEqual(ids.map((_, i) => `w${String(i).padStart(4, '0')}`));
      expect(ids.length + 1).toBe(state.counts.sheets);
      expect(await look.all('select sheet from cases where sheet not in (select sheet from case_entries)')).toEqual([]);
      await look.close();
    }
    stop = true;
    await writer;
    expect([...counts].sort((a, b) => a - b)).toEqual(counts);
  });

  test('[P5] what a killed run left half-made is cleared; what another program is making is left alone', async () => {
    const { store, backups } = await shop();
    mkdirSync(backups);
    const dead = unfinishedName('2026-03-04T11-00-00-000Z-hourly.sqlite', 4_194_304 + 7);
    const alive = unfinishedName('2026-03-04T11-30-00-000Z-asked.sqlite', process.ppid);
    for (const name of [dead, `${dead}-journal`, alive, 'a letter.txt']) writeFileSync(join(backups, name), 'x');
    const { name } = valueIn(await store.backups.make('asked'));
    expect(filesIn(backups)).toEqual([alive, name, 'a letter.txt'].sort());
    expect((await listed(store)).map((one) => one.name)).toEqual([name]);
  });

  test('[P5] one that cannot be made says why, leaves nothing, and is told until the next one is made', async () => {
    const { store, folder, backups } = await shop();
    writeFileSync(backups, 'a file where the folder should be');
    const trouble = troubleIn(await store.backups.make('hourly'));
    expect(trouble).toMatchObject({ code: 'backup-failed', sentence: expect.stringContaining('that folder cannot be written to.') });
    expect(filesIn(folder)).toEqual(expect.arrayContaining(['backups']));
    expect((await store.backups.list()).ok, 'what is no folder is not one without backups').toBe(false);
    rmSync(backups);
    expect(valueIn(await store.backups.list()).failed).toEqual({ at: noon.toISOString(), sentence: trouble.sentence });
    await store.backups.make('hourly');
    expect(valueIn(await store.backups.list()).failed).toBeNull();
  });

  test('[P5] one that is given up half-way leaves nothing, and says that it was', async () => {
    const { file, backups } = await shop();
    // Of few pages, copied at one stretch: before it is looked through.
    const atOnce = makeBackup({ file, folder: backups, now: () => noon, atMost: 1e9, stopped: () => true }, 'hourly');
    await expect(atOnce).rejects.toMatchObject({ trouble: { code: 'backup-failed' } });
    expect(filesIn(backups)).toEqual([]);
    const connection = await freshConnection(file);
    // Some thousand pages.
    await connection.script(
      `with recursive c (n) as (select 1 union all select n + 1 from c where n < 400) insert into meta (key, value) select 'x' || n, hex(zeroblob(5000)) from c`,
    );
    let asked = 0;
    for (const after of [1, 2, Number.POSITIVE_INFINITY]) {
      asked = 0;
      const stopped = () => {
        asked += 1;
        return asked >= after;
      };
      const made = makeBackup({ file, folder: backups, now: () => noon, atMost: 1e9, stopped }, 'hourly');
      if (after === Number.POSITIVE_INFINITY) await made;
      else await expect(made).rejects.toMatchObject({ trouble: { code: 'backup-failed', sentence: expect.stringContaining('given up') } });
      expect(filesIn(backups)).toHaveLength(after === Number.POSITIVE_INFINITY ? 1 : 0);
    }
    // After each stretch of pages, and before it is looked through.
    expect(asked).toBeGreaterThan(2);
  });

  test('[P5] of a damaged file no backup is made that would be taken for a sound one', async () => {
    const { store, file, backups } = await shop();
    await store.close();
    const bytes = readFileSync(file);
    const connection = await freshConnection(file);
    const [root] = await connection.all<{ rootpage: number }>(`select rootpage from sqlite_master where name = 'parts'`);
    await connection.close();
    const page = (root?.rootpage ?? 2) - 1;
    bytes.fill(0xa5, page * 4096 + 8, page * 4096 + 3000);
    writeFileSync(file, bytes);
    await expect(makeBackup({ file, folder: backups, now: () => noon, atMost: 1e9 }, 'asked')).rejects.toMatchObject({
      trouble: { code: 'backup-failed', sentence: expect.stringContaining('damaged') },
    });
    expect(filesIn(backups)).toEqual([]);
  });

  test('[P5] an atlas in memory has none, and says so', async () => {
    const store = await freshStore({ file: ':memory:' });
    expect(valueIn(await store.backups.list()).backups).toEqual([]);
    expect(troubleIn(await store.backups.make('asked')).code).toBe('backup-failed');
  });
});

describe('[P5] backups are listed', () => {
  test('[P5] newest first, by time and not by reason; other files are none', async () => {
    let at = noon;
    const { store, backups } = await shop({ now: () => at });
    await store.backups.make('asked');
    at = new Date(noon.getTime() + 60_000);
    await store.backups.make('hourly');
    writeFileSync(join(backups, '2026-03-04T12-00-00-000Z-nightly.sqlite'), 'x');
    writeFileSync(join(backups, '2026-13-04T12-00-00-000Z-asked.sqlite'), 'x');
    expect((await listed(store)).map(({ reason }) => reason)).toEqual(['hourly', 'asked']);
  });

  test.each([
    ['torn in the middle', (bytes: Buffer) => bytes.fill(0xa5, 4096 * 3, 4096 * 60), 'It is damaged.'],
    ['cut short', (bytes: Buffer) => bytes.subarray(0, 4096 * 20), 'It is damaged.'],
    ['of no bytes', () => Buffer.alloc(0), 'It is damaged.'],
    ['no database', () => Buffer.from('Dear Sirs,\n'.repeat(900)), 'It is damaged.'],
  ])('[P5] one %s is listed as unreadable, and is not restored', async (_, spoil, why) => {
    const { store, backups } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    writeFileSync(join(backups, name), spoil(readFileSync(join(backups, name))));
    expect(await listed(store)).toMatchObject([{ name, state: { kind: 'unreadable', why } }]);
    expect(troubleIn(await store.backups.preview(name))).toMatchObject({
      code: 'backup-unreadable',
      sentence: expect.stringContaining(why),
    });
    expect(troubleIn(await store.backups.preview('newest')).code).toBe('not-found');
  });

  test('[P5] one of a newer version is said to be that', async () => {
    const { store, backups } = await shop();
    const { name } = valueIn(await store.backups.make('asked'));
    const later = await freshConnection(join(backups, name));
    await later.script(`insert into migrations (number, name, hash) values (900, 'later', 'x'); pragma wal_checkpoint(truncate);`);
    await later.close();
    expect(await listed(store)).toMatchObject([{ state: { kind: 'unreadable', why: expect.stringContaining('newer version') } }]);
  });
});

describe('[P5] a backup is made before', () => {
  const reasonsOf = async (store: Store): Promise<readonly BackupReason[]> => (await listed(store)).map(({ reason }) => reason).reverse();

  test('[P5] a pack is loaded, replaced or taken out; not before an atlas is first filled, nor where nothing changes', async () => {
    const { store } = await shop();
    expect(await listed(store)).toEqual([]);
    const folder = await copyOfSmallPack();
    expect(valueIn(await store.packs.load(folder))).toMatchObject({ changed: false });
    expect(await listed(store)).toEqual([]);

    const head = join(folder, 'pack.json');
    writeFileSync(head, readFileSync(head, 'utf8').replace('2026-03-02', '2026-04-01'));
    valueIn(await store.packs.load(folder));
    expect(await reasonsOf(store)).toEqual(['before-pack']);
    const [before] = await listed(store);
    const difference = valueIn(await store.backups.preview(before?.name ?? '')).differences.find(({ what }) => what === 'packs');
    expect(difference?.differs).toMatchObject({ count: 1, names: [expect.stringContaining('2026-03-02')] });

    valueIn(await store.packs.remove('small'));
    expect(await reasonsOf(store)).toEqual(['before-pack', 'before-pack']);
    valueIn(await store.packs.load(folder));
    expect(await reasonsOf(store), 'the atlas held no pack').toEqual(['before-pack', 'before-pack']);
  });

  test('[P5] where it cannot be made the pack stays as it is, and that is said', async () => {
    const { store, backups } = await shop();
    writeFileSync(backups, 'a file where the folder should be');
    const before = await store.atlas.read();
    expect(troubleIn(await store.packs.remove('small'))).toMatchObject({
      code: 'backup-failed',
      sentence: expect.stringMatching(/The pack was left as it is.*cannot be written to.*Nothing was changed\./),
    });
    expect(await store.atlas.read()).toEqual(before);
    expect(troubleIn(await store.packs.load(demoPack)).code).not.toBe('none');
    expect(await store.atlas.read()).toEqual(before);
  });

  test('[P5] the first filling with several packs makes none', async () => {
    const { store, open } = await shop();
    await store.close();
    const again = await open();
    const folder = await copyOfSmallPack();
    const head = join(folder, 'pack.json');
    writeFileSync(head, readFileSync(head, 'utf8').replace('2026-03-02', '2026-04-01'));
    valueIn(await again.packs.load(folder, { filling: true }));
    expect(await listed(again)).toEqual([]);
  });
});

describe('[P5] one is made only where something changed', () => {
  test('[P5] an own sheet, words beside it, a picture, a learner, a pack: each is a change; nothing is none', async () => {
    let at = noon;
    const { store } = await shop({ now: () => at });
    const again = async () => {
      at = new Date(at.getTime() + 1000);
      return valueIn(await store.backups.makeIfChanged('hourly'));
    };
    expect(await again(), 'there was none').not.toBeNull();
    expect(await again()).toBeNull();
    const photo = (valueIn(await store.cases.open('first' as SheetId, null)).photos[0]?.id ?? '') as never;
    const changes: readonly (() => Promise<unknown>)[] = [
      () => save(store, 'second'),
      () => save(store, 'second', 'another title'),
      () => store.cases.describe('first' as SheetId, { customer: 'Ann', lookedBy: '', notes: '' }),
      () => store.photos.describe('first' as SheetId, photo, 'from the left', null),
      () => store.learning.saveLearner({ id: 'jory' as never, name: 'Jory the younger', course: null }),
      () => store.learning.saveCourse({ id: 'c' as never, name: 'First year', families: null, kinds: null, newPerDay: 4 }),
      () => store.sheets.remove('second' as SheetId),
      () => store.packs.remove('small'),
    ];
    for (const [n, change] of changes.entries()) {
      await change();
      const made = await again();
      // Taking a pack out makes one of its own, of what was there before.
      expect(made, `change ${n}`).not.toBeNull();
      expect(await again(), `after change ${n}`).toBeNull();
    }
  });

  test('[P5] one of an older schema does not stand for what there is either', async () => {
    const { store, backups } = await shop();
    const older = join(freshFolder(), 'atlas.sqlite');
    await olderAtlas(2, older);
    mkdirSync(backups);
    writeFileSync(join(backups, '2026-03-04T11-00-00-000Z-before-migration.sqlite'), readFileSync(older));
    expect(valueIn(await store.backups.makeIfChanged('hourly'))).toMatchObject({ reason: 'hourly' });
  });

  test('[P5] what cannot be read does not stand for what there is', async () => {
    let at = noon;
    const { store, backups } = await shop({ now: () => at });
    const made = valueIn(await store.backups.makeIfChanged('hourly'));
    writeFileSync(join(backups, made?.name ?? ''), 'gone bad');
    at = new Date(at.getTime() + 1000);
    expect(valueIn(await store.backups.makeIfChanged('hourly'))).not.toBeNull();
  });
});

describe('[P5] names', () => {
  test('[P5] say what they were made of; anything else is no backup', () => {
    const at = new Date('2027-01-02T03:04:05.678Z');
    for (const reason of ['hourly', 'asked', 'before-migration', 'before-pack', 'before-mend', 'before-restore'] as const)
      expect(readBackupName(backupName(at, reason))).toEqual({ at: at.toISOString(), reason });
    for (const name of [
      'atlas.sqlite',
      '2027-01-02T03-04-05-678Z-toString.sqlite',
      '2027-01-02T03-04-05-678Z-asked.sqlite-wal',
      `x${backupName(at, 'asked')}`,
    ])
      expect(readBackupName(name), name).toBeNull();
    expect(unfinishedBy(unfinishedName(backupName(at, 'asked'), 77))).toBe(77);
    for (const name of [backupName(at, 'asked'), '.x.part', 'x.7.part', '.x.7.part.txt']) expect(unfinishedBy(name), name).toBeNull();
  });
});

test('[P5] an atlas of an older schema is backed up before it is migrated; where it cannot be, it is left as it is', async () => {
  const folder = freshFolder();
  const file = join(folder, 'atlas.sqlite');
  await olderAtlas(9, file);
  const bytes = readFileSync(file);
  const backups = join(folder, 'backups');

  writeFileSync(backups, 'a file where the folder should be');
  expect(troubleIn(await openStore(file, { backups: { folder: backups } }))).toMatchObject({
    code: 'backup-failed',
    place: file,
    sentence: expect.stringMatching(/only after a backup.*cannot be written to.*Nothing was changed\./),
  });
  expect(readFileSync(file).equals(bytes)).toBe(true);
  rmSync(backups);

  const store = await freshStore({ file, backups: { folder: backups } });
  expect(store.migrated).toEqual(migrations.slice(9).map(({ number }) => number));
  expect(await listed(store)).toMatchObject([
    { reason: 'before-migration', state: { kind: 'sound', schema: 9, counts: { sheets: 1, photographs: 1 } } },
  ]);
  await store.close();
  const again = await freshStore({ file, backups: { folder: backups } });
  expect(await listed(again)).toHaveLength(1);
});

test('[P5] an atlas opened for reading only makes none', async () => {
  const { store, open } = await shop();
  await store.close();
  const reader = await open({ readOnly: true });
  expect(troubleIn(await reader.backups.make('asked')).code).toBe('backup-failed');
});
