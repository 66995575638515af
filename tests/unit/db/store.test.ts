import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readPack } from '../../../db/index.ts';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { asId, type SheetId } from '../../../reasoner/index.ts';
import { keepSheet } from './keep-sheet.ts';
import { expandH7, filledStore, freshStore, noon, smallPack, valueIn } from './kit.ts';

test('the small pack reads and is canonical to the byte', async () => {
  const pack = valueIn(await readPack(smallPack, { expandCode: expandH7 }));
  const files = canonicalText(pack);
  const onDisk = (await readdir(smallPack, { recursive: true, withFileTypes: true })).filter((entry) => entry.isFile()).length;
  expect(files.size).toBe(onDisk);
  for (const [path, text] of files) expect(text, path).toBe(await readFile(join(smallPack, path), 'utf8'));
});

test('[A1] the store hands over the atlas as the pack has it', async () => {
  const pack = valueIn(await readPack(smallPack, { expandCode: expandH7 }));
  const store = await filledStore();
  const { edition, models, ...rest } = await store.atlas.read();
  const { head, sheets: _, allowed, models: packModels, ...lists } = pack;
  expect(rest).toEqual(lists);
  expect(edition).toBe(`${head.id} ${head.edition}`);
  expect(models.map(({ allowed: _allowed, ...model }) => model)).toEqual(packModels);
  expect(models.flatMap((model) => model.allowed.map((each) => ({ model: model.id, ...each })))).toEqual(allowed);
});

test('the same pack twice changes nothing', async () => {
  const store = await filledStore();
  const before = await store.atlas.read();
  expect(valueIn(await store.packs.load(smallPack))).toMatchObject({ changed: false, replaced: null });
  expect(await store.atlas.read()).toEqual(before);
});

test('a sample is copied to the shop’s own on its first save, and shows again when the copy is removed', async () => {
  const store = await filledStore();
  const id = asId<SheetId>('found-01');
  expect(valueIn(await store.sheets.list()).map((sheet) => [sheet.id, sheet.origin])).toEqual([
    ['found-01', 'sample'],
    ['planned-01', 'sample'],
  ]);
  const sheet = valueIn(await store.sheets.open(id));
  expect(valueIn(await keepSheet(store, { ...sheet, title: 'Turns like a top' }))).toMatchObject({
    origin: 'own',
    savedAt: noon.toISOString(),
  });
  expect(valueIn(await store.sheets.list()).map((each) => [each.id, each.origin, each.title])).toEqual([
    ['found-01', 'own', 'Turns like a top'],
    ['planned-01', 'sample', 'A Rowan housing on a Tern core'],
  ]);
  expect(valueIn(await store.sheets.open(id)).title).toBe('Turns like a top');
  valueIn(await store.sheets.remove(id));
  expect(valueIn(await store.sheets.open(id))).toEqual(sheet);
});

test('an empty atlas is an atlas', async () => {
  const store = await freshStore();
  expect(await store.atlas.read()).toMatchObject({ edition: '', parts: [], models: [] });
});
