import { existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Pack, readPack } from '../../../../db/index.ts';
import type { GatheredPack } from '../../../../db/mend/gather-packs.ts';
import { packFolders } from '../../../../db/mend/pack-folders.ts';
import { expandH7, freshFolder, smallPack, valueIn } from '../kit.ts';

let pack: Pack;
beforeAll(async () => {
  pack = valueIn(await readPack(smallPack, { expandCode: expandH7 }));
});

const recovered = (id: string, ...leansOn: readonly string[]): GatheredPack => ({
  id,
  edition: '2026-03-05',
  pack: { ...pack, head: { ...pack.head, id, edition: '2026-03-05', ...(leansOn.length === 0 ? {} : { leansOn }) } } as Pack,
  signature: null,
  from: 'damaged file',
});
const lost = (id: string): GatheredPack => ({ id, edition: '2026-03-01', pack: null, signature: null, from: null });

/** Folders of packs that come with the program: their heads, which is all that is read of them here. */
const shipping = (heads: Readonly<Record<string, { readonly id: string; readonly leansOn?: readonly string[] }>> = {}): string => {
  const folder = freshFolder();
  for (const [name, head] of Object.entries(heads)) {
    mkdirSync(join(folder, name));
    writeFileSync(join(folder, name, 'pack.json'), JSON.stringify({ edition: '2026-03-09', ...head }));
  }
  writeFileSync(join(folder, 'README.md'), 'no pack');
  return folder;
};
const foldersOf = async (packs: readonly GatheredPack[], shipped: string, complete = true) => {
  const folder = join(freshFolder(), 'recovered', 'packs');
  const found = await packFolders({ packs, complete, own: null }, folder, shipped);
  return { found, folder, ids: found.map(({ id }) => id) };
};

describe('packs as folders', () => {
  test('[P3] one that was recovered is written, and told from one that comes with the program anyway', async () => {
    const shipped = shipping({ own: { id: 'known' } });
    const { found, folder } = await foldersOf([recovered('own'), recovered('known')], shipped);
    expect(found).toEqual([
      { id: 'own', edition: '2026-03-05', from: 'damaged file', folder: join(folder, 'pack-01'), ships: false },
      { id: 'known', edition: '2026-03-05', from: 'damaged file', folder: join(folder, 'pack-02'), ships: true },
    ]);
    expect(JSON.parse(readFileSync(join(folder, 'pack-01', 'pack.json'), 'utf8'))).toMatchObject({ id: 'own', edition: '2026-03-05' });
    expect(valueIn(await readPack(join(folder, 'pack-02'), { expandCode: expandH7 })).parts).toEqual(pack.parts);
  });

  test('[P3] one that was not comes with the program, in its edition there; or is told to be lost', async () => {
    const shipped = shipping({ one: { id: 'known' } });
    const { found, folder } = await foldersOf([lost('own'), lost('known'), recovered('other')], shipped);
    expect(found).toEqual([
      { id: 'own', edition: '2026-03-01', from: null, folder: null, ships: false },
      { id: 'known', edition: '2026-03-09', from: 'shipped', folder: join(shipped, 'one'), ships: true },
      { id: 'other', edition: '2026-03-05', from: 'damaged file', folder: join(folder, 'pack-03'), ships: false },
    ]);
    expect(existsSync(join(folder, 'pack-01'))).toBe(false);
  });

  test('[P3] an atlas that had none gets those that come with the program, by their names', async () => {
    const shipped = shipping({ b: { id: 'second' }, a: { id: 'first' } });
    const expected = [
      { id: 'first', edition: '2026-03-09', from: 'shipped', folder: join(shipped, 'a'), ships: true },
      { id: 'second', edition: '2026-03-09', from: 'shipped', folder: join(shipped, 'b'), ships: true },
    ];
    expect((await foldersOf([], shipped, false)).found).toEqual(expected);
    expect((await foldersOf([], shipped, true)).found).toEqual(expected);
  });

  test('[P3] one of which nothing can be loaded gets them too, where it is not known which packs it had', async () => {
    const shipped = shipping({ a: { id: 'first' } });
    expect((await foldersOf([lost('own')], shipped, false)).ids).toEqual(['own', 'first']);
    expect((await foldersOf([lost('own')], shipped, true)).ids).toEqual(['own']);
    expect((await foldersOf([lost('own'), recovered('other')], shipped, false)).ids).toEqual(['own', 'other']);
    expect((await foldersOf([lost('own'), lost('first')], shipped, false)).ids).toEqual(['own', 'first']);
  });

  test('[P3] where none comes with the program there is none', async () => {
    expect((await foldersOf([], shipping())).found).toEqual([]);
    expect((await foldersOf([], join(freshFolder(), 'none'))).found).toEqual([]);
  });

  test.skipIf(process.platform === 'win32')('[P3] the folder they are written to is its owner’s alone', async () => {
    const { folder } = await foldersOf([], shipping());
    expect(statSync(folder).mode & 0o777).toBe(0o700);
  });
});

describe('the order packs are loaded in', () => {
  test('[P3] what others lean on comes first, once, and what is not there is passed over', async () => {
    const { ids } = await foldersOf(
      [recovered('top', 'middle', 'base', 'gone'), recovered('middle', 'base'), recovered('base'), lost('away')],
      shipping(),
    );
    expect(ids).toEqual(['base', 'middle', 'top', 'away']);
  });

  test('[P3] packs that stand in order keep it, be they recovered or shipped', async () => {
    const shipped = shipping({ a: { id: 'base' }, b: { id: 'beside', leansOn: ['base'] } });
    expect((await foldersOf([recovered('own', 'beside'), lost('beside'), lost('base'), recovered('last')], shipped)).ids).toEqual([
      'base',
      'beside',
      'own',
      'last',
    ]);
    expect((await foldersOf([recovered('b'), recovered('a')], shipping())).ids).toEqual(['b', 'a']);
  });

  test('[P3] packs that lean on each other in a circle are all there; loading them says what is wrong', async () => {
    const shipped = shipping({ a: { id: 'a', leansOn: ['b'] }, b: { id: 'b', leansOn: ['a', 'b'] } });
    expect((await foldersOf([], shipped)).ids).toEqual(['b', 'a']);
  });
});
