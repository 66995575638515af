import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { readPack } from '../../../db/packs/read.ts';
import { copyOfSmallPack, expandH7, filledStore, freshFolder, freshStore, valueIn } from './kit.ts';

const recess = 'ch-recess-diameter';
const operation = {
  id: 'open-recess',
  name: 'open the recess',
  slot: 'compressor-housing',
  does: {
    kind: 'cut',
    cuts: [{ feature: recess, way: 'larger', most: 1, holds: { kind: 'grade', grade: 8 }, metal: [], moves: [] }],
  },
  takes: [],
  hours: 1.5,
  turning: false,
  cautions: ['On a fixture.'],
  source: 'shop-book',
};
const files = {
  'metals.json': [
    { id: 'cast-aluminium', name: 'cast aluminium', expansion: 21.5, source: 'shop-book' },
    { id: 'nickel', name: 'nickel', expansion: 13.5, disc: { density: 7900, young: 206, poisson: 0.3 }, source: 'shop-book' },
  ],
  'operations.json': [operation],
  'chains.json': [
    { id: 'gap', name: 'stack', leaves: 'gap', links: [{ feature: recess, times: 1 }], min: 0, max: 200, source: 'shop-book' },
  ],
  'rates.json': [
    { id: 'counter', name: 'counter prices', money: 'crowns', hour: 46, parts: [{ part: 'ch-tern', price: 118.5 }], source: 'shop-book' },
  ],
} as const;

const packWith = async (change: (name: string, content: unknown) => unknown = (_, content) => content): Promise<string> => {
  const folder = await copyOfSmallPack();
  for (const [name, content] of Object.entries(files)) await writeFile(join(folder, name), JSON.stringify(change(name, content)));
  return folder;
};

const faultsOf = async (folder: string): Promise<string[]> => {
  const read = await readPack(folder, { expandCode: expandH7 });
  return read.ok ? [] : (read.trouble.all ?? []).map(({ sentence }) => sentence);
};

describe('[F2] what a shop can do, in a pack', () => {
  test('[A6] loaded, read back and exported, it is what it was', async () => {
    const folder = await packWith();
    const pack = valueIn(await readPack(folder, { expandCode: expandH7 }));
    const store = await freshStore();
    valueIn(await store.packs.load(folder));
    const atlas = await store.atlas.read();
    expect(atlas.metals).toEqual(files['metals.json']);
    expect(atlas.operations).toEqual([operation]);
    expect(atlas.chains).toEqual(files['chains.json']);
    expect(atlas.rates).toEqual(files['rates.json']);
    const out = join(freshFolder(), 'out');
    valueIn(await store.packs.export('small', out));
    for (const [path, text] of canonicalText(pack)) expect(await readFile(join(out, path), 'utf8'), path).toBe(text);
  });

  test('[A6] a pack without such files reads as before, and none are written for it', async () => {
    const store = await filledStore();
    expect(await store.atlas.read()).toMatchObject({ metals: [], operations: [], chains: [], warmth: [], rates: [] });
    const out = join(freshFolder(), 'out');
    valueIn(await store.packs.export('small', out));
    await expect(readFile(join(out, 'operations.json'))).rejects.toThrow('ENOENT');
  });

  test('[A6] taking the pack out takes them out', async () => {
    const store = await freshStore();
    valueIn(await store.packs.load(await packWith()));
    valueIn(await store.packs.remove('small'));
    expect(await store.atlas.read()).toMatchObject({ metals: [], operations: [], chains: [], rates: [], parts: [] });
  });

  test.each([
    [
      'an operation on another slot’s feature',
      'operations.json',
      [{ ...operation, slot: 'compressor-wheel' }],
      /feature of compressor-housing.*feature of compressor-wheel/s,
    ],
    [
      'a cut in something that is no measure',
      'operations.json',
      [{ ...operation, does: { kind: 'cut', cuts: [{ ...operation.does.cuts[0], feature: 'bh-letters' }] }, slot: 'bearing-housing' }],
      /the mark "bh-letters".*a measure/s,
    ],
    [
      'a tolerance grade nobody has',
      'operations.json',
      [{ ...operation, does: { kind: 'cut', cuts: [{ ...operation.does.cuts[0], holds: { kind: 'grade', grade: 40 } }] } }],
      /18/,
    ],
    ['a price for a part nobody has', 'rates.json', [{ ...files['rates.json'][0], parts: [{ part: 'ch-heron', price: 1 }] }], /"ch-heron"/],
    ['a price less than nothing', 'rates.json', [{ ...files['rates.json'][0], hour: -1 }], /0/],
    [
      'a part priced twice',
      'rates.json',
      [
        {
          ...files['rates.json'][0],
          parts: [
            { part: 'ch-tern', price: 1 },
            { part: 'ch-tern', price: 2 },
          ],
        },
      ],
      /a second time/,
    ],
    [
      'a stack of what has no length',
      'chains.json',
      [{ ...files['chains.json'][0], links: [{ feature: 'cw-blades', times: 1 }] }],
      /the count "cw-blades".*a measure/s,
    ],
    ['limits the wrong way round', 'chains.json', [{ ...files['chains.json'][0], min: 3, max: 1 }], /no greater than/],
  ] as const)('[A6] %s is a fault with its file and row', async (_, file, content, expected) => {
    const folder = await packWith((name, plain) => (name === file ? content : plain));
    const faults = await faultsOf(folder);
    expect(faults.join('\n')).toMatch(expected);
    expect(faults.join('\n')).toContain(file);
  });

  test('[A6] a remark on a feature is of the feature’s kind, and is read back', async () => {
    const folder = await copyOfSmallPack();
    const features = JSON.parse(await readFile(join(folder, 'features.json'), 'utf8')) as Record<string, unknown>[];
    const blades = features.find(({ id }) => id === 'cw-blades') as Record<string, unknown>;
    blades.remarks = [{ value: { kind: 'count', from: 5, to: 5 }, sentence: 'Five blades: somebody has been at it.', source: 'shop-book' }];
    await writeFile(join(folder, 'features.json'), JSON.stringify(features));
    const store = await freshStore();
    valueIn(await store.packs.load(folder));
    expect((await store.atlas.read()).features.find(({ id }) => id === 'cw-blades')?.remarks).toEqual(blades.remarks);
    blades.remarks = [{ value: { kind: 'presence', present: true }, sentence: 'Wrong kind.', source: 'shop-book' }];
    await writeFile(join(folder, 'features.json'), JSON.stringify(features));
    expect((await faultsOf(folder)).join('\n')).toMatch(/a count, like the feature/);
  });
});
