import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Pack } from '../../../db/atlas/pack.ts';
import { readPack, type Store } from '../../../db/index.ts';
import { canonicalText } from '../../../db/packs/canonical.ts';
import type { Atlas } from '../../../reasoner/index.ts';
import { demoPack, expandCode, freshFolder, freshStore, valueIn, vocabularyPack } from './kit.ts';
import { NaiveGraph } from './naive-graph.ts';

const loaded = async (): Promise<Store> => {
  const store = await freshStore({ expandCode });
  valueIn(await store.packs.load(demoPack));
  return store;
};

let pack: Pack;
let words: Pack;
beforeAll(async () => {
  pack = valueIn(await readPack(demoPack, { expandCode }));
  words = valueIn(await readPack(vocabularyPack, { expandCode }));
});

test.each([
  ['the demo pack', demoPack, () => pack],
  ['the vocabulary', vocabularyPack, () => words],
])('%s is canonical to the byte', async (_, folder, read) => {
  const files = canonicalText(read());
  const onDisk = (await readdir(folder, { recursive: true, withFileTypes: true })).filter((entry) => entry.isFile()).length;
  expect(onDisk).toBe(files.size);
  for (const [path, text] of files) expect(await readFile(join(folder, path), 'utf8'), path).toBe(text);
});

test('[A1] loaded, read back and exported it is the same', async () => {
  const store = await loaded();
  const atlas = await store.atlas.read();
  expect(atlas.parts).toEqual(pack.parts);
  expect(atlas.features).toEqual(words.features);
  expect(atlas.models.reduce((sum, model) => sum + model.allowed.length, 0)).toBe(pack.allowed.length);
  const parent = freshFolder();
  for (const [each, name] of [
    [pack, 'world'],
    [words, 'words'],
  ] as const) {
    valueIn(await store.packs.export(each.head.id, join(parent, name)));
    expect(valueIn(await store.packs.load(join(parent, name)))).toMatchObject({ changed: false });
  }
  expect(valueIn(await readPack(join(parent, 'world'), { expandCode }))).toEqual(pack);
  expect(valueIn(await readPack(join(parent, 'words'), { expandCode }))).toEqual(words);
});

test('every number of every part is found by its first letters and by itself', async () => {
  const store = await loaded();
  for (const part of pack.parts.filter((_, index) => index % 7 === 0)) {
    for (const number of part.numbers) {
      const found = valueIn(await store.graph.search(number.toLowerCase().replace(/[^a-z0-9]/g, ''), 50));
      expect(
        found.map((hit) => hit.node.id),
        number,
      ).toContain(part.id);
    }
  }
});

describe('the graph answers as a plain reading of the atlas does', () => {
  let store: Store;
  let atlas: Atlas;
  let naive: NaiveGraph;
  const prepare = async () => {
    store = await loaded();
    atlas = await store.atlas.read();
    naive = new NaiveGraph(atlas);
  };

  test('[A3] what may sit in every slot of every model, and every model that shares its core', async () => {
    await prepare();
    for (const model of atlas.models) {
      const page = valueIn(await store.graph.model(model.id));
      for (const slot of atlas.slots) {
        const sitting = page.slots.find((each) => each.slot === slot.id)?.parts ?? [];
        const expected = [...naive.maySit(model, slot.id)];
        expect(sitting.map(({ part, role }) => [part.id, role]).sort(), `${model.id} ${slot.id}`).toEqual(expected.sort());
      }
      expect(page.sharesCore.map(({ id }) => id).sort(), model.id).toEqual(naive.sharesCore(model).sort());
    }
  });

  test('the line of descent of every family', async () => {
    await prepare();
    for (const family of atlas.families) {
      const { ancestors } = valueIn(await store.graph.descent(family.id));
      expect(ancestors.map((line) => line.family.id).sort()).toEqual([...naive.ancestors(family.id)].sort());
    }
  });

  test('the shortest relation of every two families: no shorter one exists, and its steps lead from the one to the other', async () => {
    await prepare();
    for (const a of atlas.families) {
      for (const b of atlas.families) {
        const { steps } = valueIn(await store.graph.related(a.id, b.id));
        const distance = naive.distance(a.id, b.id);
        if (steps === null) {
          expect(distance, `${a.id} ${b.id}`).toBeNull();
          continue;
        }
        const nodes = [a.id as string, ...steps.map((step) => step.to.id as string)];
        expect(steps.map((step) => step.from.id)).toEqual(nodes.slice(0, -1));
        expect(nodes.at(-1)).toBe(b.id);
        if (distance !== null) expect(steps.filter((step) => step.to.kind === 'family').length, `${a.id} ${b.id}`).toBe(distance);
      }
    }
  });
});
