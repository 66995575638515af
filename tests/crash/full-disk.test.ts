import { execFileSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import type { LearnerId, PhotoId } from '../../db/answers.ts';
import { Connection } from '../../db/driver/connection.ts';
import { putIn } from '../../db/driver/copies.ts';
import { migrate } from '../../db/driver/migrate.ts';
import { sqliteDriver } from '../../db/driver/sqlite-driver.ts';
import { openStore, type Version } from '../../db/index.ts';
import { migrations } from '../../db/migrations/index.ts';
import { storeOver } from '../../db/store/store-over.ts';
import type { SheetId } from '../../reasoner/index.ts';
import { olderAtlas } from '../unit/db/backups/shop.ts';
import { keepSheet } from '../unit/db/keep-sheet.ts';
import { demoPack, expandCode, filledStore, freshFolder, freshStore, noon, smallPack, troubleIn, valueIn } from '../unit/db/kit.ts';
import { jpeg, png } from '../unit/db/photos/pictures.ts';

const mine = 'mine' as SheetId;

describe('a database that may not grow', () => {
  test('a load that does not fit leaves the old state whole and says so; with room it succeeds', async () => {
    const connection = await Connection.open(join(freshFolder(), 'atlas.sqlite'), { mode: 'write', busyMs: 200 });
    await migrate(connection, migrations);
    const store = storeOver(sqliteDriver(connection), {
      now: () => noon,
      asked: { expandCode },
      fitEngine: undefined,
      migrated: [],
      writable: true,
    });
    const before = await store.atlas.read();
    const [size] = await connection.all<{ page_count: number }>('pragma page_count');
    for (const room of [0, 1, 10, 50, 100]) {
      await connection.script(`pragma max_page_count = ${(size?.page_count ?? 0) + room}`);
      expect(troubleIn(await store.packs.load(demoPack))).toMatchObject({ code: 'database-full' });
      expect(await store.atlas.read()).toEqual(before);
    }
    await connection.script('pragma max_page_count = 1000000');
    expect(valueIn(await store.packs.load(demoPack))).toMatchObject({ changed: true });
    await store.close();
  });
});

/** A disk of its own, small enough to fill; null where none can be mounted (it takes root). */
const mounted: string[] = [];
const smallDisk = (kilobytes: number): string | null => {
  const at = join(freshFolder(), 'disk');
  mkdirSync(at);
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${kilobytes}k`, 'tmpfs', at], { stdio: 'ignore' });
  } catch {
    return null;
  }
  mounted.push(at);
  return at;
};
afterEach(() => {
  for (const at of mounted.splice(0)) execFileSync('umount', ['-l', at]);
});

/** Takes up what room is left, but for about so many bytes. */
const fill = (disk: string, leave: number): void => {
  const file = join(disk, 'ballast');
  const block = Buffer.alloc(4096, 1);
  let count = 0;
  try {
    for (; ; count += 1) writeFileSync(file, block, { flag: 'a' });
  } catch {
    writeFileSync(file, Buffer.alloc(Math.max(0, count * 4096 - leave), 1));
  }
};

const canMount = ((): boolean => {
  try {
    execFileSync('unshare', ['--mount', 'true'], { stdio: 'ignore' });
    return process.getuid?.() === 0;
  } catch {
    return false;
  }
})();

describe.skipIf(!canMount)('a disk that is full', () => {
  const disk = (kilobytes: number): string => {
    const at = smallDisk(kilobytes);
    if (at === null) throw new Error('this system does not let even root mount a disk in memory');
    return at;
  };

  test('a new atlas cannot be made; nothing half-made stands in the way once there is room', async () => {
    const at = disk(2048);
    for (const leave of [0, 4096, 40_000, 200_000]) {
      fill(at, leave);
      const file = join(at, `atlas-${leave}.sqlite`);
      expect(troubleIn(await openStore(file))).toMatchObject({ code: 'database-full' });
      rmSync(join(at, 'ballast'));
      const store = await freshStore({ file });
      expect(await store.atlas.read()).toMatchObject({ parts: [] });
      await store.close();
      for (const left of readdirSync(at)) rmSync(join(at, left));
    }
  });

  test('a load that runs out of room changes nothing, and succeeds once there is room', async () => {
    const at = disk(4096);
    const store = await filledStore({ file: join(at, 'atlas.sqlite') });
    const before = await store.atlas.read();
    fill(at, 8192);
    expect(troubleIn(await store.packs.load(smallPack, { anyEdition: true }).then(async () => store.packs.remove('small')))).toMatchObject({
      code: 'database-full',
    });
    expect(await store.atlas.read()).toEqual(before);
    rmSync(join(at, 'ballast'));
    valueIn(await store.packs.remove('small'));
    expect(valueIn(await store.packs.load(smallPack))).toMatchObject({ changed: true });
    expect(await store.atlas.read()).toEqual(before);
    await store.close();
  });

  test('[P5] no room for the backup: no pack is changed and no atlas migrated, both say why, and nothing is left behind', async () => {
    const at = disk(8192);
    const backups = { folder: join(at, 'backups') };
    const store = await filledStore({ file: join(at, 'atlas.sqlite'), backups });
    const before = await store.atlas.read();
    for (const leave of [0, 40_000, 400_000]) {
      fill(at, leave);
      const refused = troubleIn(await store.packs.remove('small'));
      expect(refused).toMatchObject({
        code: 'backup-failed',
        sentence: expect.stringMatching(/left as it is.*no room left on the disk.*Nothing was changed/),
      });
      expect(troubleIn(await store.backups.make('asked')).code).toBe('backup-failed');
      expect(await store.atlas.read()).toEqual(before);
      expect(existsSync(backups.folder) ? readdirSync(backups.folder) : []).toEqual([]);
      rmSync(join(at, 'ballast'));
    }
    valueIn(await store.packs.remove('small'));
    await store.close();

    const file = join(at, 'older.sqlite');
    await olderAtlas(9, file);
    const bytes = readFileSync(file);
    rmSync(backups.folder, { recursive: true });
    fill(at, 100_000);
    expect(troubleIn(await openStore(file, { backups }))).toMatchObject({
      code: 'backup-failed',
      sentence: expect.stringContaining('no room left'),
    });
    expect(readFileSync(file).equals(bytes)).toBe(true);
    rmSync(join(at, 'ballast'));
    expect((await freshStore({ file, backups })).migrated.length).toBeGreaterThan(0);
  });

  test('[P5] room that ends while a backup is put in: what there was is whole, and can be saved to once there is room', async () => {
    const at = disk(12_288);
    const file = join(at, 'atlas.sqlite');
    const store = await filledStore({ file, backups: { folder: join(at, 'backups') } });
    const sample = valueIn(await store.sheets.open('found-01' as SheetId));
    const { name } = valueIn(await store.backups.make('asked'));
    for (let n = 0; n < 20; n += 1) valueIn(await keepSheet(store, { ...sample, id: `own-${n}` as SheetId, story: 'x'.repeat(20_000) }));
    for (const leave of [0, 40_000, 200_000]) {
      const before = valueIn(await store.sheets.list());
      const put = putIn(file, join(at, 'backups', name), async () => {
        fill(at, leave);
        return true;
      });
      await expect(put).rejects.toMatchObject({ code: 'SQLITE_FULL' });
      expect(valueIn(await store.sheets.list())).toEqual(before);
      rmSync(join(at, 'ballast'));
      valueIn(await keepSheet(store, { ...sample, id: 'own-0' as SheetId, story: `${leave}` }));
      valueIn(await keepSheet(store, { ...sample, id: 'own-0' as SheetId, story: 'x'.repeat(20_000) }));
    }
    const { madeAgainst } = valueIn(await store.backups.preview(name));
    valueIn(await store.backups.restore(name, madeAgainst as Version));
    expect(valueIn(await store.sheets.list()).filter(({ origin }) => origin === 'own')).toEqual([]);
  });

  test('a sheet that cannot be saved is refused with a sentence; those saved before stay', async () => {
    const at = disk(4096);
    const store = await filledStore({ file: join(at, 'atlas.sqlite') });
    const sheet = valueIn(await store.sheets.open('found-01' as SheetId));
    valueIn(await keepSheet(store, { ...sheet, id: mine }));
    fill(at, 0);
    const long = { ...sheet, id: 'long' as SheetId, story: 'x'.repeat(20_000) };
    const trouble = troubleIn(await keepSheet(store, long));
    expect(trouble).toMatchObject({ code: 'database-full', sentence: expect.stringContaining('no room left') });
    expect(valueIn(await store.sheets.open(mine)).id).toBe(mine);
    rmSync(join(at, 'ballast'));
    valueIn(await keepSheet(store, long));
    await store.close();
    const again = await freshStore({ file: join(at, 'atlas.sqlite') });
    expect(valueIn(await again.sheets.list()).map((each) => each.id)).toEqual(expect.arrayContaining([mine, 'long']));
    await again.close();
  });

  test('[R6] what is there can be removed while the disk is full, one after the other, and what was freed is there for what comes', async () => {
    const at = disk(24_576);
    const file = join(at, 'atlas.sqlite');
    const store = await filledStore({ file, reserve: join(at, 'room-to-remove') });
    const sheet = valueIn(await store.sheets.open('found-01' as SheetId));
    const ids = ['one', 'two', 'three', 'four'] as SheetId[];
    const end = jpeg.length - 2;
    const photos = new Map<SheetId, PhotoId>();
    for (const [i, id] of ids.entries()) {
      valueIn(await keepSheet(store, { ...sheet, id, story: 'x'.repeat(20_000) }));
      const bytes = Buffer.concat([jpeg.subarray(0, end), Buffer.alloc(500_000, i + 1), jpeg.subarray(end)]);
      const [photo] = valueIn(await store.photos.add(id, { name: 'p', bytes, thumbnail: png, caption: '', about: null }));
      if (photo !== undefined) photos.set(id, photo.id);
    }
    const learner = 'ines' as LearnerId;
    valueIn(await store.learning.saveLearner({ id: learner, name: 'Ines', course: null }));
    const full = (): void => {
      rmSync(join(at, 'ballast'), { force: true });
      fill(at, 0);
    };
    // A first removal folds the journal in, and what it took is filled again: from then on nothing but the reserve is left.
    for (const id of ids) {
      full();
      expect(
        troubleIn(await keepSheet(store, { ...sheet, id: mine, story: randomBytes(500_000).toString('hex').slice(0, 20_000) })),
      ).toMatchObject({ code: 'database-full' });
      const photo = photos.get(id);
      if (photo === undefined) throw new Error('no photograph');
      expect(valueIn(await store.photos.remove(id, photo))).toEqual([]);
      full();
      valueIn(await store.sheets.remove(id));
      rmSync(join(at, 'ballast'));
    }
    full();
    valueIn(await store.learning.removeLearner(learner));
    expect(valueIn(await store.sheets.list()).filter(({ origin }) => origin === 'own')).toEqual([]);
    rmSync(join(at, 'ballast'));
    // The pages that were freed are used again.
    valueIn(await keepSheet(store, { ...sheet, id: mine }));
    await store.close();
    const again = await freshStore({ file });
    expect(valueIn(await again.sheets.list()).map(({ id }) => id)).toContain(mine);
    await again.close();
  });

  test('an export that runs out of room leaves no folder behind', async () => {
    const at = disk(512);
    const store = await filledStore();
    fill(at, 8192);
    const out = join(at, 'out');
    expect(troubleIn(await store.packs.export('small', out))).toMatchObject({ code: 'pack-cannot-write' });
    expect(existsSync(out)).toBe(false);
    expect(readdirSync(at)).toEqual(['ballast']);
  });
});
