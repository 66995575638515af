import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sqlite3 from 'sqlite3';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { faultLines } from '../../../electron/bridge/fault-lines.ts';
import { atlasFile, backupBytes, backupsOf, defaultDataFolder } from '../../../electron/desk/data-folder.ts';
import { type House, openHouse } from '../../../electron/desk/open-house.ts';
import { beginAtlas } from '../../../electron/desk/shipped-packs.ts';
import { adviceFor, faultPage } from '../../../electron/hosts/fault-page.ts';
import { asId, blankSheet, type Sheet } from '../../../reasoner/index.ts';
import { begunHouse } from './begun-house.ts';
import { kinplateRun } from './kinplate-run.ts';

const smallPack = path.join(import.meta.dirname, '../db/fixtures/small-pack');
let scratch: string;
let packs: string;
let data: string;
let told: string[];
const open: House[] = [];

beforeEach(() => {
  scratch = mkdtempSync(path.join(tmpdir(), 'kinplate-house-'));
  packs = path.join(scratch, 'packs');
  data = path.join(scratch, 'data');
  told = [];
  cpSync(smallPack, path.join(packs, 'small-pack'), { recursive: true });
});
afterEach(async () => {
  for (const house of open.splice(0)) await house.close();
  rmSync(scratch, { recursive: true, force: true });
});

/** Opened, and begun where it holds no packs. */
const start = (): Promise<House> => opened(begunHouse);
const opened = async (how: typeof openHouse): Promise<House> => {
  const house = await how(data, packs, (line) => told.push(line));
  if (!house.ok) throw new Error(`${house.trouble.code}: ${house.trouble.sentence}`);
  open.push(house.value);
  return house.value;
};
const stop = async (house: House) => {
  open.splice(open.indexOf(house), 1);
  await house.close();
};
const faultAtStart = async () => {
  const house = await openHouse(data, packs, (line) => told.push(line));
  if (house.ok) {
    open.push(house.value);
    throw new Error('it started');
  }
  return house.trouble;
};
const sheet: Sheet = {
  ...blankSheet(asId('own-01')),
  title: 'Kept over a bad day',
};
const sql = (text: string): Promise<sqlite3.Database> =>
  new Promise((resolve, reject) => {
    const database = new sqlite3.Database(atlasFile(data));
    database.exec(text, (error) => (error ? reject(error) : resolve(database)));
  });
const closed = (database: sqlite3.Database) =>
  new Promise<void>((resolve, reject) => database.close((error) => (error ? reject(error) : resolve())));

describe('the first start and the second', () => {
  test('[R4] the first start makes the folder and an atlas that holds no packs; begun, it holds what the program brings, and says so', async () => {
    // What a program that was killed had been handed; no program has such a number.
    mkdirSync(path.join(data, 'brought-packs', '99999999-a'), { recursive: true });
    const house = await opened(openHouse);
    expect(readdirSync(path.join(data, 'brought-packs'))).toEqual([]);
    expect(await house.desk['atlas.vocabulary']({})).toMatchObject({ ok: true, value: { packs: [], counts: { models: 0 } } });
    expect(told).toEqual([]);
    expect(await house.desk['packs.begin']({ with: 'invented' })).toEqual({
      ok: true,
      value: ['A small atlas for the tests of the store'],
    });
    expect(await house.desk['atlas.vocabulary']({})).toMatchObject({ ok: true, value: { counts: { models: 5 } } });
    expect(await house.desk['packs.begin']({ with: 'invented' }), 'it is asked once').toMatchObject({
      ok: false,
      trouble: { code: 'already-begun', sentence: expect.stringContaining('A small atlas for the tests of the store') },
    });
  });

  test('[R4] the second start loads nothing again, and the shop’s sheets are there', async () => {
    const first = await start();
    expect(await first.desk['sheets.save']({ sheet, who: '', madeAgainst: null })).toMatchObject({ ok: true });
    await stop(first);
    told = [];
    const second = await start();
    expect(told).toEqual([]);
    expect(await second.desk['sheets.open']({ id: sheet.id })).toMatchObject({ ok: true, value: { sheet } });
  });

  test('[R4] a newer edition of a shipped pack takes the place of the one before; own sheets stay', async () => {
    const first = await start();
    await first.desk['sheets.save']({ sheet, who: '', madeAgainst: null });
    await stop(first);
    const head = path.join(packs, 'small-pack', 'pack.json');
    writeFileSync(head, readFileSync(head, 'utf8').replace('2026-03-02', '2026-04-01'));
    const second = await start();
    expect(await second.store.packs.list()).toMatchObject({ ok: true, value: [{ id: 'small', edition: '2026-04-01' }] });
    expect(await second.desk['sheets.open']({ id: sheet.id })).toMatchObject({ ok: true, value: { sheet } });
  });

  test('[R4] a shipped pack that went bad does not keep a filled atlas from opening', async () => {
    await stop(await start());
    const head = path.join(packs, 'small-pack', 'pack.json');
    writeFileSync(head, readFileSync(head, 'utf8').replace('2026-03-02', '2026-04-01'));
    writeFileSync(path.join(packs, 'small-pack', 'parts.csv'), 'id,slot\n');
    const house = await start();
    expect(told.join('\n')).toMatch(/parts\.csv/);
    expect(await house.store.packs.list()).toMatchObject({ ok: true, value: [{ edition: '2026-03-02' }] });
  });
});

describe('shipped packs that lean on each other', () => {
  const headOf = (folder: string, change: (head: Record<string, unknown>) => unknown): void => {
    const file = path.join(packs, folder, 'pack.json');
    writeFileSync(file, JSON.stringify(change(JSON.parse(readFileSync(file, 'utf8')))));
  };
  /** A pack of nothing but its head, in a folder that comes after the one that leans on it. */
  const putWords = (): void => {
    cpSync(path.join(packs, 'small-pack'), path.join(packs, 'words'), { recursive: true });
    rmSync(path.join(packs, 'words', 'sheets'), { recursive: true });
    for (const name of ['sources', 'stages', 'slots', 'ports', 'features', 'joints', 'makers', 'families', 'generations', 'models'])
      writeFileSync(path.join(packs, 'words', `${name}.json`), '[]');
    for (const name of ['parts', 'facts', 'allowed']) {
      const file = path.join(packs, 'words', `${name}.csv`);
      writeFileSync(file, `${readFileSync(file, 'utf8').split('\n')[0]}\n`);
    }
    headOf('words', (head) => ({ ...head, id: 'words' }));
    headOf('small-pack', (head) => ({ ...head, leansOn: ['words'] }));
  };
  const heldBy = async (house: House) => {
    const held = await house.store.packs.list();
    return held.ok ? held.value.map(({ id, edition }) => `${id} ${edition}`) : held.trouble;
  };

  test('[P15] so it does where this shop signed the one before; what somebody else signed stays, and why is told', async () => {
    const newer = (edition: string) => {
      const file = path.join(packs, 'small-pack', 'pack.json');
      writeFileSync(file, readFileSync(file, 'utf8').replace(/"edition": "[^"]+"/, `"edition": "${edition}"`));
    };
    const first = await start();
    await first.store.keys.make('Saltmarsh', '');
    expect((await first.store.packs.signHeld('small')).ok).toBe(true);
    await stop(first);
    newer('2027-01-01');
    const second = await start();
    expect(await second.store.packs.list()).toMatchObject({ value: [{ edition: '2027-01-01', signer: null }] });
    expect((await second.store.packs.signHeld('small')).ok).toBe(true);
    await stop(second);
    rmSync(path.join(data, 'signing-key.pem'));
    newer('2027-01-02');
    expect(await (await start()).store.packs.list()).toMatchObject({ value: [{ edition: '2027-01-01', signer: { name: 'Saltmarsh' } }] });
    expect(told.at(-1)).toContain('is not signed, and the edition the atlas holds is signed by Saltmarsh');
  });

  test('[A8] what others lean on comes with them as one change, and is loaded first when there are newer editions', async () => {
    putWords();
    const first = await start();
    expect(told).toEqual(['Filling the atlas from small-pack …']);
    expect(await heldBy(first)).toEqual(['small 2026-03-02', 'words 2026-03-02']);
    expect(existsSync(path.join(data, 'backups')), 'there was nothing to go back to').toBe(false);
    await stop(first);
    told = [];
    for (const folder of ['words', 'small-pack']) headOf(folder, (head) => ({ ...head, edition: '2026-04-01' }));
    expect(await heldBy(await start())).toEqual(['small 2026-04-01', 'words 2026-04-01']);
    expect(told).toEqual(['Filling the atlas from words …', 'Filling the atlas from small-pack …']);
  });

  test('[A8] an atlas from before there were two is given the words together with the newer world', async () => {
    await stop(await start());
    putWords();
    headOf('small-pack', (head) => ({ ...head, edition: '2026-04-01' }));
    expect(await heldBy(await start())).toEqual(['small 2026-04-01', 'words 2026-03-02']);
  });

  test('[A8] a world that was taken out stays out, and its words stay; when these go too, it is asked again and nothing comes by itself', async () => {
    putWords();
    const first = await start();
    expect(await first.store.packs.remove('small')).toMatchObject({ ok: true });
    await stop(first);
    told = [];
    const second = await opened(openHouse);
    expect(await heldBy(second)).toEqual(['words 2026-03-02']);
    expect(await second.store.packs.remove('words')).toMatchObject({ ok: true });
    await stop(second);
    expect(await heldBy(await opened(openHouse))).toEqual([]);
    expect(told).toEqual([]);
  });

  test('[A8] an atlas begun empty holds the words, which name no maker, and no world', async () => {
    putWords();
    const house = await opened(openHouse);
    expect(await beginAtlas(house.store, packs, 'empty')).toMatchObject({ ok: true });
    expect(await heldBy(house)).toEqual(['words 2026-03-02']);
  });

  test('[L1] begin does the same for scripts: once, by one of two words, and says what the atlas begins with', async () => {
    putWords();
    const begin = (...words: string[]) => kinplateRun(['begin', ...words, '--data', data], { shipped: packs });
    expect(await begin('full')).toMatchObject({ code: 64, out: '' });
    expect(existsSync(data), 'refused before anything is made').toBe(false);
    expect(await begin('invented')).toMatchObject({
      code: 0,
      out: `The atlas in ${data} begins with: A small atlas for the tests of the store, A small atlas for the tests of the store.\n`,
    });
    expect(await begin('empty')).toMatchObject({ code: 65, out: '', err: expect.stringContaining('holds packs already') });
    expect(await heldBy(await opened(openHouse))).toEqual(['small 2026-03-02', 'words 2026-03-02']);
  });
});

describe('a start that cannot be', () => {
  test('[R4] where the packs of the program are gone, beginning says so, and the atlas can still be opened', async () => {
    rmSync(packs, { recursive: true });
    const house = await opened(openHouse);
    for (const beginning of ['empty', 'invented'] as const)
      expect(await beginAtlas(house.store, packs, beginning)).toMatchObject({ ok: false, trouble: { code: 'no-packs', place: packs } });
  });

  test('[R4] a demo pack with faults names its file, and with a sound one the atlas is begun', async () => {
    const parts = path.join(packs, 'small-pack', 'parts.csv');
    const sound = readFileSync(parts, 'utf8');
    writeFileSync(parts, sound.replace('cw-quay-13,compressor-wheel', 'cw-quay-13,propeller'));
    const begun = await begunHouse(data, packs);
    if (begun.ok) throw new Error('it began');
    const { trouble } = begun;
    expect(trouble.code).toBe('pack-invalid');
    expect(JSON.stringify(trouble)).toMatch(/parts\.csv/);
    writeFileSync(parts, sound);
    expect((await start()).store.writable).toBe(true);
  });

  test('[R4] a data folder that cannot be made is said', async () => {
    writeFileSync(data, 'a file where a folder should be');
    expect(await faultAtStart()).toMatchObject({ code: 'data-folder', place: data });
    expect(readFileSync(data, 'utf8')).toBe('a file where a folder should be');
  });

  test('[R4] a damaged atlas is left byte for byte as it is', async () => {
    await stop(await start());
    const file = atlasFile(data);
    const bytes = readFileSync(file);
    bytes.fill(0x5a, 0, 4096);
    writeFileSync(file, bytes);
    expect(await faultAtStart()).toMatchObject({ code: 'database-damaged' });
    expect(readFileSync(file).equals(bytes)).toBe(true);
  });

  test('[R4] an atlas of a newer version is left as it is', async () => {
    await stop(await start());
    await closed(await sql("insert into migrations (number, name, hash) values (9000, 'of the future', 'x')"));
    const bytes = readFileSync(atlasFile(data));
    expect(await faultAtStart()).toMatchObject({ code: 'database-newer' });
    expect(readFileSync(atlasFile(data)).equals(bytes)).toBe(true);
  });

  test('[R4] a file that is no atlas is left as it is', async () => {
    mkdirSync(data);
    writeFileSync(atlasFile(data), 'a letter to the harbour master, long enough to be no database at all');
    const trouble = await faultAtStart();
    expect(trouble.code).toMatch(/^database-(damaged|foreign)$/);
    expect(readFileSync(atlasFile(data), 'utf8')).toContain('harbour master');
  });

  test('[R4] an atlas another program holds alone is said to be in use; when it lets go, the start succeeds', async () => {
    await stop(await start());
    const other = await sql('pragma locking_mode = exclusive; begin exclusive; create table held (x);');
    expect(await faultAtStart()).toMatchObject({ code: 'database-locked' });
    await closed(other);
    expect((await start()).store.writable).toBe(true);
  });
});

describe('what is shown when there is no start', () => {
  test('[R4] the page says the sentence and the place, and nothing in them becomes markup', () => {
    const page = faultPage({ code: 'x', place: '/tmp/<b>"a"', sentence: 'The file <script>alert(1)</script> & more.' }).get('/index.html');
    const html = new TextDecoder().decode(page?.body);
    expect(html).not.toMatch(/<script|<b>/);
    expect(html).toContain('&#60;script&#62;alert(1)&#60;/script&#62; &#38; more.');
    expect(html).toContain('&#60;b&#62;&#34;a&#34;');
  });

  test('[R4] a place the sentence names is not named a second time, and mending is advised for the folder that was opened', () => {
    const place = '/srv/shop/atlas.sqlite';
    const trouble = { code: 'database-damaged', place, sentence: `The atlas file is damaged: ${place}` };
    const html = new TextDecoder().decode(faultPage(trouble).get('/index.html')?.body);
    expect(html.split(place)).toHaveLength(2);
    expect(html).toContain('npm run kinplate -- mend --data &#34;/srv/shop&#34;.');
    expect(adviceFor({ ...trouble, code: 'mend-unfinished' })).toBe('To finish mending: npm run kinplate -- mend --data "/srv/shop"');
    expect(faultLines({ ...trouble, all: [{ ...trouble }, { ...trouble, sentence: 'a.json, row 2: found x, expected y.' }] })).toEqual([
      trouble.sentence,
      '  a.json, row 2: found x, expected y.',
    ]);
  });
});

describe('where data is kept', () => {
  test.each([
    ['linux', {}, '/home/ann/.local/share/kinplate'],
    ['linux', { XDG_DATA_HOME: '/data' }, '/data/kinplate'],
    ['linux', { XDG_DATA_HOME: 'relative' }, '/home/ann/.local/share/kinplate'],
    ['darwin', {}, '/home/ann/Library/Application Support/Kinplate'],
    ['linux', { KINPLATE_DATA: '/shop/atlas', XDG_DATA_HOME: '/data' }, '/shop/atlas'],
    ['linux', { KINPLATE_DATA: '' }, '/home/ann/.local/share/kinplate'],
  ] as const)('[R4] on %s with %o it is %s', (platform, env, folder) => {
    expect(defaultDataFolder(env, platform, '/home/ann')).toBe(folder);
  });

  test('[P5] backups lie beside the atlas, in 2 GiB unless another size is set; what is no size is said before anything is opened', async () => {
    expect(backupsOf('/shop/atlas.sqlite', {})).toEqual({ folder: path.join('/shop', 'backups') });
    expect(backupsOf('/shop/atlas.sqlite', { KINPLATE_BACKUPS_MIB: '512.5' })).toMatchObject({ atMost: 512.5 * 2 ** 20 });
    for (const KINPLATE_BACKUPS_MIB of ['0', '-1', 'much', 'Infinity'])
      expect(backupBytes({ KINPLATE_BACKUPS_MIB })).toContain(`“${KINPLATE_BACKUPS_MIB}”`);
    process.env.KINPLATE_BACKUPS_MIB = 'much';
    try {
      expect(await faultAtStart()).toMatchObject({ code: 'usage', sentence: expect.stringContaining('“much”') });
      expect(existsSync(atlasFile(data))).toBe(false);
    } finally {
      delete process.env.KINPLATE_BACKUPS_MIB;
    }
  });

  test('[R4] no atlas is made by asking where it would be', () => {
    expect(existsSync(data)).toBe(false);
    expect(atlasFile(data)).toBe(path.join(data, 'atlas.sqlite'));
  });
});
