import { cpSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { getTableName } from 'drizzle-orm';
import { describe, expect, test } from 'vitest';
import { everyList } from '../../../../db/atlas/lists.ts';
import { migrate } from '../../../../db/driver/migrate.ts';
import { checkAtlas, openStore, type PhotoId, readPack } from '../../../../db/index.ts';
import { shopTables } from '../../../../db/mend/shop-tables.ts';
import { migrations } from '../../../../db/migrations/index.ts';
import { canonicalText } from '../../../../db/packs/canonical.ts';
import { openOwnKey } from '../../../../db/signing/own-key.ts';
import { signatureText, signPack } from '../../../../db/signing/signature.ts';
import { askedForPacks, openAtlas } from '../../../../electron/desk/open-house.ts';
import type { SheetId } from '../../../../reasoner/index.ts';
import { copyOf, pictureOf, sheetNumber } from '../../../damage/shop.ts';
import { keepSheet } from '../keep-sheet.ts';
import { copyOfSmallPack, freshConnection, freshFolder, valueIn } from '../kit.ts';
import { damageTo, everythingIn, mend, pageSize, shopFilledFirst, spoilPage, spoilPages } from './damaged-shop.ts';

const shop = shopFilledFirst();
const { damagedFolder, noRoots, rootOf } = damageTo(shop);

describe('what is recovered', () => {
  test('[P3] one page of every table is hit, and nothing is lost that stands anywhere', async () => {
    const { folder, file } = await noRoots();
    // Whatever has the name of the folder of backups, it is no reason not to mend.
    writeFileSync(join(folder, 'backups'), 'a letter');
    const before = await everythingIn(shop.file);
    const report = valueIn(await mend(folder));
    expect(report.state).toBe('mended');
    expect(valueIn(await checkAtlas(file))).toEqual([]);
    const after = await everythingIn(file);
    expect(after.own.map(({ id }) => id).sort()).toEqual(before.own.map(({ id }) => id).sort());
    expect(report.lost.filter(({ what }) => what === 'sheet')).toEqual([]);
  });

  test('[P3] all rows of sheets are gone: each is as its case last had it, with its number, words, photograph and history', async () => {
    const { folder, file } = damagedFolder((bytes) => {
      let hit = 0;
      for (let page = 1; page < bytes.length / pageSize; page += 1) {
        const part = bytes.subarray(page * pageSize, (page + 1) * pageSize);
        // In rows of sheets the turn they were saved in stands between whose they are and their title; entries of cases have neither.
        if (part[0] === 10 && part.includes('own-0') && /own.{0,2}Unit/s.test(part.toString('latin1'))) {
          part.fill(0);
          hit += 1;
        }
      }
      expect(hit).toBeGreaterThan(0);
    });
    const before = await everythingIn(shop.file);
    const report = valueIn(await mend(folder));
    const after = await everythingIn(file);
    expect(after.sheets.map(({ sheet }) => sheet.id).sort()).toEqual(before.sheets.map(({ sheet }) => sheet.id).sort());
    const of = (all: typeof before, id: SheetId) => all.sheets.find(({ sheet }) => sheet.id === id);
    for (let n = 0; n < 20; n += 1) expect(of(after, sheetNumber(n))).toEqual(of(before, sheetNumber(n)));
    expect(report.from.filter(({ what, source }) => what === 'sheet' && source === 'history').length).toBeGreaterThan(0);
    expect(report.back).toEqual({ sheets: 20, cases: 20, entries: 30, photographs: 4, learners: 2, answers: 40 });
  });

  test.each([
    ['a table beside the packs', ['learners']],
    ['what the packs themselves say', ['facts', 'makers']],
  ])('[P3] the shop’s own words are over the packs again where %s is hit, and the pack of its own is that', async (_what, tables) => {
    const { folder, file } = damagedFolder(() => undefined);
    const wheel = {
      id: 'own-wheel',
      slot: 'compressor-wheel',
      name: 'Our wheel',
      maker: null,
      numbers: [],
      facts: {},
      source: 'shop-book',
    };
    const store = valueIn(await openAtlas(file));
    const tern = (await store.atlas.read()).parts.find(({ id }) => id === 'cw-tern-9');
    const nine = { kind: 'count', from: 9, to: 9 };
    const edits = [
      { list: 'parts', put: wheel },
      { list: 'parts', put: { ...tern, facts: { ...tern?.facts, 'cw-blades': nine } } },
    ];
    const { head } = valueIn(await store.changes.look([]));
    valueIn(await store.changes.make(edits, { who: 'Ines', why: '', source: '', head }));
    const before = (await store.atlas.read()).parts;
    await store.close();
    const roots = await Promise.all(tables.map(rootOf));
    const bytes = readFileSync(file);
    for (const root of roots) spoilPage(bytes, root);
    writeFileSync(file, bytes);

    const report = valueIn(await mend(folder));
    expect([report.state, report.remarks]).toEqual(['mended', []]);
    const again = valueIn(await openAtlas(file));
    try {
      expect((await again.atlas.read()).parts).toEqual(before);
      expect(valueIn(await again.changes.entry('parts', 'cw-tern-9')).words.map(({ own }) => own)).toContainEqual(nine);
      expect(valueIn(await again.changes.entry('parts', 'own-wheel')).packs.map(({ own }) => own)).toEqual([true]);
    } finally {
      await again.close();
    }
  });

  test('[P3] the first page and the list of tables are gone: all of it is found by what it looks like', async () => {
    const { folder, file } = damagedFolder((bytes) => {
      spoilPage(bytes, 1);
      for (let page = 1; page < bytes.length / pageSize; page += 1) {
        const part = bytes.subarray(page * pageSize, (page + 1) * pageSize);
        if (part[0] === 13 && part.includes('CREATE TABLE')) part.fill(0);
      }
    });
    const before = await everythingIn(shop.file);
    const report = valueIn(await mend(folder));
    const after = await everythingIn(file);
    expect(after.sheets.map(({ sheet, photos }) => ({ sheet, photos }))).toEqual(
      before.sheets.map(({ sheet, photos }) => ({ sheet, photos })),
    );
    expect(after.learning).toEqual(before.learning);
    expect(report.lost.filter(({ what }) => what !== 'pack')).toEqual([]);
  });

  test('[P3] a photograph that is not the one that was saved is never put back: it comes from a backup, or is said to be lost', async () => {
    const id = shop.photos.get(sheetNumber(1)) as PhotoId;
    const spoil = (bytes: Buffer): void => {
      const part = pictureOf(1).subarray(4000, 5500);
      for (let at = bytes.indexOf(part); at >= 0; at = bytes.indexOf(part, at + part.length)) bytes[at + 700] = 0xff;
    };
    const alone = damagedFolder(spoil);
    const report = valueIn(await mend(alone.folder));
    expect(report.lost).toEqual([{ what: 'photograph', id, known: `nose 1, in the case of sheet ${sheetNumber(1)}` }]);
    const after = await everythingIn(alone.file);
    expect(after.sheets.flatMap(({ photos }) => photos)).toHaveLength(3);

    const backed = damagedFolder(spoil);
    copyOf(shop, backed.folder, '2026-03-02T12-00-00-000Z-hourly.sqlite');
    const second = valueIn(await mend(backed.folder));
    expect(second.lost).toEqual([]);
    expect(second.from).toEqual([
      {
        what: 'photograph',
        of: id,
        source: { file: join(backed.folder, 'backups', '2026-03-02T12-00-00-000Z-hourly.sqlite'), at: '2026-03-02T12:00:00.000Z' },
        saved: null,
      },
    ]);
    expect((await everythingIn(backed.file)).sheets).toEqual((await everythingIn(shop.file)).sheets);
  });

  test('[P3] what the damaged file no longer gives comes from the newest backup that has it; what it says is removed does not come back', async () => {
    const { folder, file } = damagedFolder(() => undefined);
    copyOf(shop, folder, '2026-02-27T08-00-00-000Z-daily.sqlite');
    copyOf(shop, folder, '2026-03-01T08-00-00-000Z-asked.sqlite');
    const store = valueIn(await openStore(file));
    const gone = sheetNumber(7);
    valueIn(await store.sheets.remove(gone));
    await store.close();
    const bytes = readFileSync(file);
    // Sheets and what their cases had of them, wherever they stand; the list of cases is whole.
    expect(spoilPages(bytes, [0, 2, 10], 'as it came in')).toBeGreaterThan(5);
    writeFileSync(file, bytes);
    const report = valueIn(await mend(folder));
    const { own } = await everythingIn(file);
    expect(own.map(({ id }) => id as string)).not.toContain(gone);
    expect(own).toHaveLength(19);
    const backups = new Set(report.from.flatMap(({ source }) => (typeof source === 'string' ? [] : [source.at])));
    expect([...backups]).toEqual(['2026-03-01T08:00:00.000Z']);
    expect(report.lost).toEqual([]);
  });

  test('[P3] a file that was emptied, or is nothing but noise: all of it comes from the newest backup, packs too', async () => {
    const before = await everythingIn(shop.file);
    for (const content of [Buffer.alloc(0), Buffer.alloc(30_000, 0x5a)]) {
      const { folder, file } = damagedFolder(() => undefined);
      copyOf(shop, folder, '2026-03-01T08-00-00-000Z-hourly.sqlite');
      writeFileSync(file, content);
      const report = valueIn(await mend(folder));
      expect(await everythingIn(file)).toEqual(before);
      expect(report.lost).toEqual([]);
      expect(report.packs).toMatchObject([{ id: 'small', from: { at: '2026-03-01T08:00:00.000Z' } }]);
    }
  });

  test('[P3] of several states of a sheet the newest is taken, whichever copy has it', async () => {
    const { folder, file } = damagedFolder(() => undefined);
    const backup = (name: string): void => cpSync(file, join(folder, 'backups', name));
    backup('2026-02-27T08-00-00-000Z-daily.sqlite');
    const save = async (n: number, title: string): Promise<void> => {
      const store = valueIn(await openStore(file));
      valueIn(await keepSheet(store, { ...valueIn(await store.sheets.open(sheetNumber(n))), title }));
      await store.close();
    };
    await save(5, 'as it was in the newer backup');
    backup('2026-03-01T08-00-00-000Z-daily.sqlite');
    await save(15, 'as it was last');
    const bytes = readFileSync(file);
    // Rows of sheets, and all of the one; of the other its history is left.
    for (let page = 1; page < bytes.length / pageSize; page += 1) {
      const part = bytes.subarray(page * pageSize, (page + 1) * pageSize);
      const rows = part.includes('Unit 1') && !part.includes('"verdict"') && part.includes('ownUnit');
      if (rows || part.includes('as it was in the newer') || (part.includes('own-005') && part.includes('Unit 5'))) part.fill(0xa5);
    }
    writeFileSync(file, bytes);
    const report = valueIn(await mend(folder));
    const { sheets } = await everythingIn(file);
    const titleOf = (n: number) => sheets.find(({ sheet }) => sheet.id === sheetNumber(n))?.sheet.title;
    expect([titleOf(5), titleOf(15)]).toEqual(['as it was in the newer backup', 'as it was last']);
    expect(report.from.find(({ what, of }) => what === 'sheet' && of === sheetNumber(5))?.source).toMatchObject({
      at: '2026-03-01T08:00:00.000Z',
    });
  });

  test('[P3] sheets and photographs written aside before are copies too', async () => {
    const { folder } = damagedFolder(() => undefined);
    const first = valueIn(await mend(folder));
    expect(first.state).toBe('sound');
    const again = damagedFolder((bytes) => {
      expect(spoilPages(bytes, [10, 13], 'own-0')).toBeGreaterThan(3);
      spoilPages(bytes, [10, 13], 'nose ');
    });
    const sheet = valueIn(
      await (async () => {
        const store = valueIn(await openAtlas(shop.file));
        const found = await store.sheets.open(sheetNumber(3));
        await store.close();
        return found;
      })(),
    );
    const aside = join(again.folder, 'recovered-2026-02-20T08-00-00-000Z');
    cpSync(freshFolder(), aside, { recursive: true });
    writeFileSync(join(aside, '0001.json'), JSON.stringify(sheet));
    const report = valueIn(await mend(again.folder));
    expect(report.from).toContainEqual({
      what: 'sheet',
      of: sheetNumber(3),
      source: { file: 'recovered-2026-02-20T08-00-00-000Z/0001.json', at: '2026-02-20T08:00:00.000Z' },
      saved: '2026-02-20T08:00:00.000Z',
    });
    const { sheets } = await everythingIn(again.file);
    expect(sheets.map((one) => one.sheet)).toContainEqual(sheet);
    // Photographs nobody's case shows any more are kept as files.
    expect(report.folder).not.toBeNull();
    expect(readdirSync(join(report.folder ?? '', 'photographs')).sort()).toEqual([...shop.photos.values()].map((id) => `${id}.jpg`).sort());
  });

  test('[P3] what was only committed to the journal beside the file is there', async () => {
    const folder = freshFolder();
    const file = copyOf(shop, folder);
    const store = valueIn(await openStore(file));
    const writer = await freshConnection(file);
    await writer.script('pragma wal_autocheckpoint = 0');
    await writer.run(`update case_details set notes = 'written last' where sheet = ?`, [sheetNumber(2)]);
    // Killed here: the journal is left over.
    const [bytes, wal] = [readFileSync(file), readFileSync(`${file}-wal`)];
    await writer.close();
    await store.close();
    const killed = freshFolder();
    const copy = join(killed, 'atlas.sqlite');
    spoilPages(bytes, [10], '"stability"');
    writeFileSync(copy, bytes);
    writeFileSync(`${copy}-wal`, wal);
    const report = valueIn(await mend(killed));
    const { sheets } = await everythingIn(copy);
    expect(sheets.find(({ sheet }) => sheet.id === sheetNumber(2))?.file.notes).toBe('written last');
    expect(existsSync(`${report.aside}-wal`)).toBe(true);
  });
});

describe('an atlas of an older program', () => {
  test.each([5, 14, 16, 27])(
    '[P3] of schema %i, brought up to date or not: its rows have fewer columns, and all of them are there again',
    async (number) => {
      for (const upToDate of [true, false]) {
        const folder = freshFolder();
        const file = join(folder, 'atlas.sqlite');
        const connection = await freshConnection(file);
        await migrate(connection, migrations.slice(0, number));
        const fixture = join(import.meta.dirname, '../fixtures', `filled-${String(number).padStart(4, '0')}.sql`);
        await connection.script(`pragma foreign_keys = off; begin; ${readFileSync(fixture, 'utf8')} commit; pragma foreign_keys = on;`);
        if (upToDate) await migrate(connection, migrations);
        const before = await connection.all('select sheet, n, at, customer, notes from case_details order by sheet, n');
        const entries = await connection.all('select * from case_entries order by sheet, n');
        const cases = await connection.all('select sheet, year, number from cases');
        await connection.close();
        const bytes = readFileSync(file);
        bytes.fill(0xa5, 0, pageSize);
        writeFileSync(file, bytes);
        expect(valueIn(await mend(folder)).state).toBe('mended');
        const again = await freshConnection(file);
        expect(before.length).toBeGreaterThan(0);
        expect(await again.all('select sheet, n, at, customer, notes from case_details order by sheet, n')).toEqual(before);
        expect(await again.all('select * from case_entries order by sheet, n')).toEqual(expect.arrayContaining(entries));
        expect(await again.all('select sheet, year, number from cases')).toEqual(cases);
      }
    },
  );

  test('[P3] of schema 27, the list of its cases gone: their numbers are told by its two indexes, and none it counted by the year is given again', async () => {
    const folder = freshFolder();
    const file = join(folder, 'atlas.sqlite');
    const connection = await freshConnection(file);
    await migrate(connection, migrations.slice(0, 27));
    const fixture = join(import.meta.dirname, '../fixtures/filled-0027.sql');
    await connection.script(`pragma foreign_keys = off; begin; ${readFileSync(fixture, 'utf8')} update cases set letter = 'K';
      update case_numbers set last = 7; commit; pragma foreign_keys = on;`);
    const [root] = await connection.all<{ rootpage: number }>(`select rootpage from sqlite_master where name = 'cases'`);
    await connection.close();
    const bytes = readFileSync(file);
    spoilPage(bytes, root?.rootpage ?? 0);
    writeFileSync(file, bytes);
    const report = valueIn(await mend(folder));
    expect([report.state, report.lost.filter(({ what }) => what === 'case number')]).toEqual(['mended', []]);
    const again = await freshConnection(file);
    expect(await again.all('select sheet, letter, year, number from cases')).toEqual([
      { sheet: 'own-1', letter: 'K', year: 2026, number: 1 },
    ]);
    const counts = await again.all<{ letter: string; year: number; last: number }>('select * from case_counts');
    expect([counts.length, new Set(counts.map(({ year, last }) => `${year} ${last}`))]).toEqual([25, new Set(['2026 7'])]);
  });
});

describe('what is half there', () => {
  test('[P3] a photograph is whole and its small picture is not: it is kept, with another in the place of that', async () => {
    const folder = freshFolder();
    const file = copyOf(shop, folder);
    const store = valueIn(await openStore(file));
    const [small, large] = [sheetNumber(10), sheetNumber(11)];
    const add = async (sheet: SheetId, n: number, bytes: number) =>
      valueIn(
        await store.photos.add(sheet, {
          name: 'a.jpg',
          bytes: pictureOf(n, bytes),
          thumbnail: pictureOf(n + 50, 30_000),
          caption: `side ${n}`,
          about: null,
        }),
      )[0]?.id as PhotoId;
    const ids = [await add(small, 60, 40_000), await add(large, 61, 120_000)];
    await store.close();
    const bytes = readFileSync(file);
    // The last page of each row: its small picture ends there.
    for (const n of [110, 111]) {
      const fill = Buffer.alloc(1000, 1 + (n % 200));
      let last = -1;
      for (let page = 1; page < bytes.length / pageSize; page += 1)
        if (bytes.subarray(page * pageSize, (page + 1) * pageSize).includes(fill)) last = page;
      expect(bytes.readUInt32BE(last * pageSize)).toBe(0);
      // Noise in one, zeros in the other, which end a row as rightly as nothing does.
      bytes.fill(n === 110 ? 0xa5 : 0, last * pageSize, (last + 1) * pageSize);
    }
    writeFileSync(file, bytes);
    const report = valueIn(await mend(folder));
    expect(report.lost).toEqual(ids.map((id, n) => ({ what: 'small picture', id, known: `side ${60 + n}` })));
    const again = valueIn(await openAtlas(file));
    for (const id of ids) expect(valueIn(await again.photos.bytes(id, 'whole')).type).toBe('image/jpeg');
    const types = [];
    for (const id of ids) types.push(valueIn(await again.photos.bytes(id, 'thumbnail')).type);
    expect(types, 'the small photograph stands for itself, the large one is grey').toEqual(['image/jpeg', 'image/png']);
    await again.close();
  });

  test('[P3] the numbers of cases are nowhere: each has a new one, none that was given before, and that is said', async () => {
    const connection = await freshConnection(copyOf(shop, freshFolder()));
    const roots = await connection.all<{ name: string; rootpage: number }>(
      `select name, rootpage from sqlite_master where name in ('cases', 'cases_by_number', 'case_details')`,
    );
    await connection.close();
    const { folder, file } = damagedFolder((bytes) => {
      for (const { rootpage } of roots) spoilPage(bytes, rootpage);
    });
    const report = valueIn(await mend(folder));
    expect(report.lost.filter(({ what }) => what === 'case number')).toHaveLength(20);
    const { sheets } = await everythingIn(file);
    expect(sheets).toHaveLength(20);
    const numbers = sheets.map(({ file: kept }) => Number(kept.number.slice(7)));
    expect(new Set(numbers).size).toBe(20);
    expect(Math.min(...numbers), 'the last number given is still known').toBe(21);
    for (const { file: kept } of sheets) expect(kept.history.length).toBeGreaterThan(0);
  });

  test('[P3] words that are lost are none, and a case is never without any', async () => {
    const { folder, file } = damagedFolder((bytes) => {
      expect(spoilPages(bytes, [10], 'Customer 3')).toBeGreaterThan(0);
    });
    const report = valueIn(await mend(folder));
    const { sheets } = await everythingIn(file);
    expect(sheets).toHaveLength(20);
    expect(sheets.find(({ sheet }) => sheet.id === sheetNumber(3))?.file).toMatchObject({ customer: '', number: 'A-2026-0004' });
    expect(report.incomplete).toContain('case_details');
  });
});

test('[P3] every table is either the shop’s, and recovered, or comes back with the packs', async () => {
  const connection = await freshConnection(copyOf(shop, freshFolder()));
  const tables = await connection.all<{ name: string }>(
    `select name from sqlite_master where type = 'table' and name not like 'search\\_words%' escape '\\'`,
  );
  await connection.close();
  const ofPacks = new Set(everyList.map(({ table }) => getTableName(table)));
  for (const name of [
    'packs',
    'pack_terms',
    'stage_after',
    'trade_names',
    'family_edges',
    'parts',
    'numbers',
    'facts',
    'sits',
    'open_lists',
    'prices',
  ])
    ofPacks.add(name);
  // Made of the packs anew, or of what the program itself did.
  for (const name of [
    'meta',
    'migrations',
    'journal',
    'journal_effects',
    'journal_carried',
    'search_terms',
    'matings',
    'mates',
    'fits',
    'judged_joints',
  ])
    ofPacks.add(name);
  const shops = new Set(shopTables.map(({ name }) => name));
  expect(tables.map(({ name }) => name).filter((name) => !ofPacks.has(name) && !shops.has(name))).toEqual([]);
});

describe('packs', () => {
  /** An atlas with a pack of the shop's own beside the shipped one. */
  const withOwnPack = async () => {
    const pack = await copyOfSmallPack();
    const head = JSON.parse(readFileSync(join(pack, 'pack.json'), 'utf8'));
    writeFileSync(join(pack, 'pack.json'), JSON.stringify({ ...head, id: 'own-pack', title: 'The shop’s own' }));
    const folder = freshFolder();
    const file = join(folder, 'atlas.sqlite');
    const store = valueIn(await openAtlas(file));
    const { name } = valueIn(await store.keys.make('Saltmarsh', 'Osk'));
    const read = valueIn(await readPack(pack, askedForPacks));
    const { key } = await openOwnKey(folder, null);
    const signature = signPack(read.head, canonicalText(read), { key, name, at: '2026-03-01T08:00:00.000Z' });
    writeFileSync(join(pack, 'signature.json'), signatureText(signature));
    valueIn(await store.packs.load(pack));
    await store.close();
    return { folder, file };
  };

  test('[P3] one of the shop’s own is recovered whole, and kept as files', async () => {
    const { folder, file } = await withOwnPack();
    const before = await everythingIn(file);
    const bytes = readFileSync(file);
    spoilPage(bytes, await rootOf('fits'));
    writeFileSync(file, bytes);
    const report = valueIn(await mend(folder));
    expect(report.packs).toEqual([{ id: 'own-pack', edition: '2026-03-02', from: 'damaged file' }]);
    const after = await everythingIn(file);
    expect(after.packs).toEqual(before.packs);
    expect(after.edition).toBe(before.edition);
    expect(readdirSync(join(report.folder ?? '', 'packs', 'pack-01'))).toEqual(expect.arrayContaining(['parts.csv', 'signature.json']));
    const store = valueIn(await openAtlas(file));
    const ring = valueIn(await store.keys.list());
    expect(ring).toMatchObject([{ name: 'Saltmarsh', who: 'Osk', withdrawn: null }]);
    expect(valueIn(await store.packs.list())).toMatchObject([{ id: 'own-pack', signer: { key: ring[0]?.key, name: 'Saltmarsh' } }]);
    await store.close();
  });

  test('[P3] the list of packs is gone: that is said, and the shipped ones are there', async () => {
    const root = await rootOf('packs');
    const { folder, file } = damagedFolder((bytes) => spoilPage(bytes, root));
    const report = valueIn(await mend(folder));
    expect(report.remarks).toEqual([
      'The list of packs could not be read whole: a pack of your own that is not named here must be loaded again.',
    ]);
    expect((await everythingIn(file)).packs.length).toBeGreaterThan(0);
  });

  test('[P3] one that is not whole comes from a backup; without one it is said which must be loaded again', async () => {
    const { folder, file } = await withOwnPack();
    const bytes = readFileSync(file);
    const page = await rootOf('facts');
    spoilPage(bytes, page);
    writeFileSync(file, bytes);
    const second = freshFolder();
    cpSync(file, join(second, 'atlas.sqlite'));
    const { file: sound } = await withOwnPack();
    cpSync(sound, join(second, 'backups', '2026-03-01T08-00-00-000Z-before-pack.sqlite'));

    const alone = valueIn(await mend(folder));
    expect(alone.lost).toEqual([{ what: 'pack', id: 'own-pack', known: '2026-03-02' }]);
    const backed = valueIn(await mend(second));
    expect(backed.lost).toEqual([]);
    expect(backed.packs).toMatchObject([{ id: 'own-pack', from: { at: '2026-03-01T08:00:00.000Z' } }]);
    expect((await everythingIn(join(second, 'atlas.sqlite'))).packs).toMatchObject([{ id: 'own-pack' }]);
  });
});
