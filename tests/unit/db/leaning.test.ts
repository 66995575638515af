import { cp, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { inspectPack, readPack } from '../../../db/packs/read.ts';
import { expandH7, freshFolder, freshStore, smallPack, troubleIn, valueIn } from './kit.ts';

const terms = ['stages', 'slots', 'ports', 'features', 'joints'] as const;

const edit = async (file: string, change: (held: never) => unknown): Promise<void> =>
  await writeFile(file, JSON.stringify(change(JSON.parse(await readFile(file, 'utf8')) as never)));

/** The small pack in two: its terms in a pack of their own, and the rest, which leans on it. */
const inTwo = async (): Promise<{ readonly parent: string; readonly words: string; readonly world: string }> => {
  const parent = freshFolder();
  const [words, world] = [join(parent, 'a folder of words'), join(parent, 'world')];
  await mkdir(words);
  await cp(smallPack, words, { recursive: true });
  await cp(smallPack, world, { recursive: true });
  await edit(join(words, 'pack.json'), (head: object) => ({ ...head, id: 'words', title: 'Words' }));
  await edit(join(world, 'pack.json'), (head: object) => ({ ...head, leansOn: ['words'] }));
  for (const name of terms) await writeFile(join(world, `${name}.json`), '[]');
  for (const name of ['makers', 'families', 'generations', 'models']) await writeFile(join(words, `${name}.json`), '[]');
  for (const name of ['parts', 'facts', 'allowed']) {
    const file = join(words, `${name}.csv`);
    await writeFile(file, `${(await readFile(file, 'utf8')).split('\n')[0]}\n`);
  }
  await rm(join(words, 'sheets'), { recursive: true, force: true });
  return { parent, words, world };
};

describe('[A8] a pack leans on another', () => {
  test('[A8] what it leans on is loaded with it, from beside it, and together they are what one pack was', async () => {
    const { world } = await inTwo();
    const one = await freshStore();
    valueIn(await one.packs.load(smallPack));
    const store = await freshStore();
    const loaded = valueIn(await store.packs.load(world));
    expect(loaded).toMatchObject({ pack: 'small', changed: true, with: [{ pack: 'words', changed: true }] });
    const { edition: _, ...atlas } = await store.atlas.read();
    const { edition: __, ...before } = await one.atlas.read();
    expect(atlas).toEqual(before);
    expect(valueIn(await store.packs.list()).map(({ id }) => id)).toEqual(['small', 'words']);
    expect(valueIn(await store.packs.load(world))).toMatchObject({ changed: false, with: [] });
  });

  test('[A8] where the atlas holds it already, it need not be beside', async () => {
    const { words, world } = await inTwo();
    const store = await freshStore();
    valueIn(await store.packs.load(words));
    await rm(words, { recursive: true });
    expect(valueIn(await store.packs.load(world))).toMatchObject({ pack: 'small', changed: true, with: [] });
  });

  test('[A8] where it is neither held nor beside, nothing is loaded, and what is missing is named by file and field', async () => {
    const { parent, words, world } = await inTwo();
    await edit(join(words, 'pack.json'), (head: object) => ({ ...head, id: 'other-words' }));
    const store = await freshStore();
    const refused = troubleIn(await store.packs.load(world));
    expect(refused).toMatchObject({ code: 'pack-invalid', place: expect.stringContaining(`${world}/pack.json`) });
    expect(refused.all).toEqual([
      expect.objectContaining({
        file: 'pack.json',
        row: expect.any(Number),
        column: 'leansOn.0',
        found: '"words"',
        expected: `the id of a pack the atlas holds, or of one beside this in ${parent}`,
      }),
    ]);
    expect(refused.sentence).toContain('"words"');
    expect(valueIn(await store.packs.list())).toEqual([]);
    expect(troubleIn(await readPack(world, { expandCode: expandH7 }))).toMatchObject({ all: [{ column: 'leansOn.0' }] });
    await edit(join(words, 'pack.json'), (head: object) => ({ ...head, id: 'words' }));
    await edit(join(words, 'slots.json'), () => []);
    expect(troubleIn(await readPack(world, { expandCode: expandH7 }))).toMatchObject({
      all: [{ column: 'leansOn', found: `a pack that is not sound in ${words}` }],
    });
  });

  test('[A8] both or neither: a fault in the pack that leans keeps what it leans on out, and the other way round', async () => {
    const { words, world } = await inTwo();
    await edit(join(world, 'models.json'), (models: readonly object[]) => models.map((model) => ({ ...model, family: 'nobody' })));
    const store = await freshStore();
    expect(troubleIn(await store.packs.load(world)).code).toBe('pack-invalid');
    expect(valueIn(await store.packs.list())).toEqual([]);
    await edit(join(words, 'slots.json'), () => []);
    expect(troubleIn(await store.packs.load(world))).toMatchObject({ code: 'pack-invalid', place: expect.stringContaining(words) });
    expect(valueIn(await store.packs.list())).toEqual([]);
  });

  test('[A8] the world can be taken out with the words left standing, the words not while it leans on them', async () => {
    const { words, world } = await inTwo();
    const alone = await freshStore();
    valueIn(await alone.packs.load(words));
    const store = await freshStore();
    valueIn(await store.packs.load(world));
    const needed = troubleIn(await store.packs.remove('words'));
    expect(needed).toMatchObject({ code: 'pack-needed' });
    expect(needed.sentence).toBe('The pack "words" was not removed: the pack "small" leans on it. Nothing was changed.');
    valueIn(await store.packs.remove('small'));
    expect(await store.atlas.read()).toEqual(await alone.atlas.read());
    valueIn(await store.packs.remove('words'));
    expect(valueIn(await store.packs.list())).toEqual([]);
  });

  test('[A8] a pack that leans though it speaks of nothing there keeps it all the same', async () => {
    const { world } = await inTwo();
    const parent = freshFolder();
    const [note, empty] = [join(parent, 'note'), join(parent, 'empty')];
    for (const folder of [note, empty]) {
      await cp(world, folder, { recursive: true });
      for (const name of ['sources', 'makers', 'families', 'generations', 'models']) await writeFile(join(folder, `${name}.json`), '[]');
      for (const name of ['parts', 'facts', 'allowed'])
        await writeFile(join(folder, `${name}.csv`), `${(await readFile(join(folder, `${name}.csv`), 'utf8')).split('\n')[0]}\n`);
      await rm(join(folder, 'sheets'), { recursive: true, force: true });
    }
    await edit(join(note, 'pack.json'), (head: object) => ({ ...head, id: 'note', leansOn: ['empty'] }));
    await edit(join(empty, 'pack.json'), ({ leansOn: _, ...head }: { leansOn: unknown }) => ({ ...head, id: 'empty' }));
    const store = await freshStore();
    valueIn(await store.packs.load(note));
    expect(troubleIn(await store.packs.remove('empty')).code).toBe('pack-needed');
  });

  test('[A8] an atlas from before the words stood apart takes the newer world with its words, though they say things otherwise now', async () => {
    const { words, world } = await inTwo();
    const store = await freshStore();
    valueIn(await store.packs.load(smallPack));
    await edit(join(words, 'slots.json'), (slots: readonly { id: string }[]) =>
      slots.map((slot) => (slot.id === 'compressor-wheel' ? { ...slot, name: 'wheel of the compressor' } : slot)),
    );
    await edit(join(words, 'features.json'), (features: readonly { id: string }[]) =>
      features.map((feature) => (feature.id === 'cw-exducer' ? { ...feature, name: 'diameter at the rim' } : feature)),
    );
    await edit(join(words, 'stages.json'), (stages: readonly object[]) => stages.map((stage) => ({ ...stage, after: [] })));
    await edit(join(world, 'pack.json'), (head: object) => ({ ...head, edition: '2026-04-01' }));
    expect(valueIn(await store.packs.load(world))).toMatchObject({ replaced: '2026-03-02', with: [{ pack: 'words' }] });
    const fresh = await freshStore();
    valueIn(await fresh.packs.load(world));
    const atlas = await store.atlas.read();
    expect(atlas).toEqual(await fresh.atlas.read());
    expect(atlas.slots.map(({ name }) => name)).toContain('wheel of the compressor');
    expect(atlas.stages.flatMap(({ after }) => after)).toEqual([]);
  });

  test('[A8] words another pack says otherwise, which is not on its way out, are still refused', async () => {
    const { words, world } = await inTwo();
    const store = await freshStore();
    valueIn(await store.packs.load(smallPack));
    await edit(join(words, 'slots.json'), (slots: readonly object[]) => slots.map((slot) => ({ ...slot, swapMinutes: 1 })));
    await edit(join(world, 'pack.json'), (head: object) => ({ ...head, id: 'other-world' }));
    expect(troubleIn(await store.packs.load(world)).code).toBe('pack-clash');
    expect(valueIn(await store.packs.list()).map(({ id }) => id)).toEqual(['small']);
  });

  test('[A8] read alone, it is read with what it leans on beside it; exported, it says what it leans on', async () => {
    const { world } = await inTwo();
    const { pack } = valueIn(await inspectPack(world, { expandCode: expandH7 }));
    expect(pack.head.leansOn).toEqual(['words']);
    const store = await freshStore();
    valueIn(await store.packs.load(world));
    const out = join(freshFolder(), 'out');
    valueIn(await store.packs.export('small', out));
    for (const [path, text] of canonicalText(pack)) expect(await readFile(join(out, path), 'utf8'), path).toBe(text);
  });

  test('[A8] packs that lean on each other, on themselves, or twice on one, are faults', async () => {
    const { words, world } = await inTwo();
    await edit(join(words, 'pack.json'), (head: object) => ({ ...head, leansOn: ['small'] }));
    const store = await freshStore();
    expect(troubleIn(await store.packs.load(world)).sentence).toContain('a circle: small → words → small');
    await edit(join(world, 'pack.json'), (head: object) => ({ ...head, leansOn: ['small'] }));
    expect(troubleIn(await store.packs.load(world)).sentence).toContain('a circle: small → small');
    await edit(join(world, 'pack.json'), (head: object) => ({ ...head, leansOn: ['words', 'words'] }));
    expect(troubleIn(await store.packs.load(world)).sentence).toContain('every pack once');
  });
});
