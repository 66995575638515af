import { cp, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { KeptAtlas } from '../../../electron/desk/kept-atlas.ts';
import type { Atlas } from '../../../reasoner/index.ts';
import { filledStore, freshFolder, smallPack, valueIn } from '../db/kit.ts';

const edited = async (edition: string, edits: Readonly<Record<string, (text: string) => string>> = {}): Promise<string> => {
  const folder = join(freshFolder(), 'pack');
  await cp(smallPack, folder, { recursive: true });
  for (const [file, edit] of Object.entries({ 'pack.json': (text: string) => text.replace('2026-03-02', edition), ...edits }))
    await writeFile(join(folder, file), edit(await readFile(join(folder, file), 'utf8')));
  return folder;
};

test('[H5] an edition that says the same under another date, or other samples, compiles nothing anew; answers name the new edition', async () => {
  const store = await filledStore();
  const kept = new KeptAtlas(store);
  const atlas = await kept.now();
  expect(atlas.data.edition).toBe('small 2026-03-02');
  const story = (text: string) => text.replace('"title": "A Petrel', '"title": "Another Petrel');
  valueIn(await store.packs.load(await edited('2026-04-01', { 'sheets/found-01.json': story })));
  expect(await kept.now()).toBe(atlas);
  expect(atlas.data.edition).toBe('small 2026-04-01');
  valueIn(await store.packs.load(smallPack, { anyEdition: true }));
  expect(await kept.now()).toBe(atlas);
});

test('[H5] other contents are compiled anew, even under the same edition', async () => {
  const store = await filledStore();
  const read: Atlas[] = [];
  const kept = new KeptAtlas(store, undefined, (each) => read.push(each));
  const atlas = await kept.now();
  await kept.now();
  expect(read).toEqual([atlas.data]);
  const name = (text: string) => text.replace('journal set', 'set of journals');
  valueIn(await store.packs.load(await edited('2026-03-02', { 'parts.csv': name }), { anyEdition: true }));
  const now = await kept.now();
  expect(now).not.toBe(atlas);
  expect(read).toEqual([atlas.data, now.data]);
  expect(now.data.parts.map((part) => part.name)).toContain('set of journals');
  valueIn(await store.packs.remove('small'));
  expect((await kept.now()).data.parts).toEqual([]);
});
