import { cp, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type Head, headOf } from '../../../db/changes/journal.ts';
import { sqliteDriver } from '../../../db/driver/sqlite-driver.ts';
import { readChanged } from '../../../db/graph/read-changed.ts';
import { KeptAtlas } from '../../../electron/desk/kept-atlas.ts';
import type { Atlas, Part } from '../../../reasoner/index.ts';
import { filledStore, freshConnection, freshFolder, smallPack, valueIn } from '../db/kit.ts';

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

test('[H5] [B2] after an edit of one part what does not speak of it stands as it was compiled, and the rest is as of all of it read anew', async () => {
  const store = await filledStore();
  const kept = new KeptAtlas(store);
  const before = await kept.now();
  const [part] = before.data.parts as readonly [Part];
  const head = valueIn(await store.changes.head());
  const edit = { list: 'parts', put: { ...part, name: 'Another name' } };
  valueIn(await store.changes.make([edit], { who: '', why: '', source: '', head }));
  const after = await kept.now();
  expect(after.data).toEqual(await store.atlas.read());
  expect(after.names).toBe(before.names);
  expect(after.parts.get(part.id)?.name).toBe('Another name');
  expect(after.slots.filter((slot, n) => slot.parts !== before.slots[n]?.parts)).toHaveLength(1);
  // Another part comes in: all of it is read and compiled.
  const more = { list: 'parts', put: { ...part, id: 'one-more', numbers: [] } };
  valueIn(await store.changes.make([more], { who: '', why: '', source: '', head: valueIn(await store.changes.head()) }));
  const whole = await kept.now();
  expect(whole.data).toEqual(await store.atlas.read());
  expect(whole.names).not.toBe(after.names);
  // Two parts change places.
  const turned = (text: string) => text.replace(/^([^\n]*\n)([^\n]*\n)([^\n]*\n)/, '$1$3$2');
  valueIn(await store.packs.load(await edited('2026-05-01', { 'parts.csv': turned }), { holds: 'shop' }));
  const others = await kept.now();
  expect(others.data).toEqual(await store.atlas.read());
  // What the shop has itself comes before.
  expect(others.data.parts[2]?.id).toBe(part.id);
});

test('[H5] what was read is not followed along a journal it was not read under, as of an atlas that was put back', async () => {
  const file = join(freshFolder(), 'atlas.sqlite');
  const store = await filledStore({ file });
  const atlas = await store.atlas.read();
  const reader = sqliteDriver(await freshConnection(file));
  const head = await reader.read(headOf);
  const from = (then: Head) => reader.read((each) => readChanged(each, atlas, then));
  expect(await from(head)).toEqual(atlas);
  expect(await from({ ...head, id: 'another' as Head['id'] })).toBeNull();
  const [part] = atlas.parts as readonly [Part];
  valueIn(await store.changes.make([{ list: 'parts', put: { ...part, name: 'x' } }], { who: '', why: '', source: '', head: head.id }));
  expect((await from(head))?.parts[0]?.name).toBe('x');
  expect(await from({ ...head, id: 'another' as Head['id'] })).toBeNull();
  // Read when nothing was in it: what was loaded since is more than parts that say something else.
  expect(await from({ n: 0, id: '' })).toBeNull();
});
