import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { readPack } from '../../../db/packs/read.ts';
import { copyOfSmallPack, expandH7, filledStore, freshFolder, freshStore, valueIn } from './kit.ts';

const blades = {
  id: 'wheel-front',
  slot: 'compressor-wheel',
  drawing: 'compressor blades',
  feeds: { fullBlades: 'cw-blades', exducer: 'cw-exducer' },
};

const packWith = async (...drawings: readonly unknown[]): Promise<string> => {
  const folder = await copyOfSmallPack();
  await writeFile(join(folder, 'drawings.json'), JSON.stringify(drawings));
  return folder;
};

const faultsOf = async (...drawings: readonly unknown[]) => {
  const read = await readPack(await packWith(...drawings), { expandCode: expandH7 });
  return read.ok ? [] : (read.trouble.all ?? []).map(({ place, sentence }) => ({ place, sentence }));
};

describe('[A6] which drawing shows a slot, from which features', () => {
  test('[A6] loaded, given to the window in the order of the pack, read back and exported, it is what it was', async () => {
    const other = { ...blades, id: 'again', feeds: {} };
    const folder = await packWith(blades, other);
    const store = await freshStore();
    valueIn(await store.packs.load(folder));
    expect((await store.atlas.read()).drawings).toEqual([blades, other]);
    expect(valueIn(await store.atlas.vocabulary()).drawings).toEqual([blades, other]);
    const out = join(freshFolder(), 'out');
    valueIn(await store.packs.export('small', out));
    for (const [path, text] of canonicalText(valueIn(await readPack(folder, { expandCode: expandH7 }))))
      expect(await readFile(join(out, path), 'utf8'), path).toBe(text);
    valueIn(await store.packs.remove('small'));
    expect(valueIn(await store.atlas.vocabulary()).drawings).toEqual([]);
  });

  test('[A6] a pack that says nothing of drawings has none', async () => {
    expect(valueIn(await (await filledStore()).atlas.vocabulary()).drawings).toEqual([]);
  });

  test('[A6] a drawing the program has not, a role the drawing has not, and a slot or feature nobody has, are faults where they stand', async () => {
    expect(await faultsOf({ ...blades, drawing: 'exploded view' })).toMatchObject([
      { place: expect.stringMatching(/drawings\.json.*drawing/), sentence: expect.stringContaining('exploded view') },
    ]);
    expect(await faultsOf({ ...blades, feeds: { ...blades.feeds, blades: 'cw-blades' } })).toMatchObject([
      { place: expect.stringMatching(/drawings\.json.*feeds/), sentence: expect.stringContaining('blades') },
    ]);
    expect(await faultsOf({ ...blades, slot: 'gearbox' })).not.toEqual([]);
    expect(await faultsOf({ ...blades, feeds: { exducer: 'cw-nothing' } })).toMatchObject([
      { place: expect.stringMatching(/feeds\.exducer/), sentence: expect.stringContaining('cw-nothing') },
    ]);
  });

  test('[A6] a feature of another slot, or of another kind than its role, is a fault', async () => {
    expect(await faultsOf({ ...blades, feeds: { exducer: 'ch-recess-diameter' } })).toMatchObject([
      { sentence: expect.stringMatching(/a feature of compressor-housing.*a feature of compressor-wheel/) },
    ]);
    expect(await faultsOf({ ...blades, feeds: { exducer: 'cw-blades' } })).toMatchObject([
      { sentence: expect.stringMatching(/the count "cw-blades".*a measure/) },
    ]);
  });
});
