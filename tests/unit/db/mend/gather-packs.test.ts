import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openStore, type Pack, readPack } from '../../../../db/index.ts';
import { gatherPacks } from '../../../../db/mend/gather-packs.ts';
import { expandH7, freshFolder, smallPack, valueIn } from '../kit.ts';
import { at, editPage, emptyStoreFirst, fileOf, sourcesOf, writeRows } from './small-file.ts';

const empty = emptyStoreFirst();
let loaded: string;
let pack: Pack;
beforeAll(async () => {
  loaded = join(mkdtempSync(join(tmpdir(), 'kinplate-packs-')), 'loaded.sqlite');
  const store = valueIn(await openStore(loaded, { expandCode: expandH7 }));
  valueIn(await store.packs.load(smallPack));
  await store.close();
  pack = valueIn(await readPack(smallPack, { expandCode: expandH7 }));
});
afterAll(() => rmSync(dirname(loaded), { recursive: true, force: true }));

const sourceOf = sourcesOf(empty);
/** A copy of an atlas with the small pack, changed as somebody could have who asks nothing. */
const atlasWith = async (...statements: readonly string[]): Promise<string> => {
  const file = join(freshFolder(), 'atlas.sqlite');
  copyFileSync(loaded, file);
  await writeRows(
    file,
    statements.map((sql) => ({ sql, params: [] })),
  );
  return file;
};
const packsOf = (damaged: string, ...backups: readonly string[]) =>
  gatherPacks(sourceOf(damaged), () => backups.map((file) => sourceOf(file, at)), empty.layouts);
const mine = () => ({ id: 'small', edition: '2026-03-02', pack, signature: null as string | null, from: 'damaged file' });
const otherName = `update parts set name = 'another' where n = 1`;
/** A fact of no part, of a number no driver binds. */
const noneBinds = (value: string, index: number): string =>
  `insert into facts (part, feature, kind, nominal) values (${90_000 + index}, 1, 'measure', ${value})`;
const headless = (file: string): string => {
  const bytes = readFileSync(file);
  bytes.fill(0, 0, 16);
  writeFileSync(file, bytes);
  return file;
};

describe('packs of a damaged atlas', () => {
  test('[P3] one that is whole is taken of the file itself, and no backup is asked', async () => {
    const nobody = () => {
      throw new Error('a backup was asked for');
    };
    expect(await gatherPacks(sourceOf(await atlasWith()), nobody, empty.layouts)).toEqual({ packs: [mine()], complete: true, own: null });
    const signed = await atlasWith(`update packs set signer = 'a key', signature = 'a text'`);
    expect((await packsOf(signed)).packs).toEqual([{ ...mine(), signature: 'a text' }]);
  });

  test('[P3] where SQLite cannot open the file any more it is taken off its pages, whatever else cannot be put', async () => {
    const file = await atlasWith(...['9e999', '9000000000'].map(noneBinds));
    expect((await packsOf(headless(file))).packs).toEqual([mine()]);
    // What is put together so is held to its hash as well.
    expect((await packsOf(headless(await atlasWith(otherName)))).packs).toEqual([
      { id: 'small', edition: '2026-03-02', pack: null, signature: null, from: null },
    ]);
  });

  test('[P3] one that is not what was loaded comes of the newest backup where it is whole; else only its name is known', async () => {
    const damaged = await atlasWith(otherName);
    const none = await fileOf(empty, {});
    const [bad, older, oldest] = [await atlasWith(otherName), await atlasWith(), await atlasWith()];
    expect((await packsOf(damaged, none, bad, older, oldest)).packs).toEqual([{ ...mine(), from: { file: older, at } }]);
    expect((await packsOf(damaged, none, bad)).packs).toEqual([
      { id: 'small', edition: '2026-03-02', pack: null, signature: null, from: null },
    ]);
  });

  test('[P3] which packs there were is asked of backups only where the file does not say', async () => {
    const backup = await atlasWith();
    expect(await packsOf(await fileOf(empty, {}), backup)).toEqual({ packs: [], complete: true, own: null });
    const spoilt = await atlasWith();
    editPage(spoilt, 'A small atlas for the tests', 'wipe');
    expect(await packsOf(spoilt, backup)).toEqual({ packs: [{ ...mine(), from: { file: backup, at } }], complete: false, own: null });
    expect(await packsOf(spoilt)).toEqual({ packs: [], complete: false, own: null });
  });

  test.each(['id', 'edition', 'hash'])('[P3] a head whose %s is bytes is none', async (column) => {
    const file = await atlasWith(`update packs set ${column} = cast(${column} as blob)`);
    expect((await packsOf(file)).packs).toEqual([]);
  });
});
