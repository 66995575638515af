import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { emptyAtlas } from '../../../db/atlas/pack.ts';
import { readPack } from '../../../db/index.ts';
import type { Fault } from '../../../db/read/faults.ts';
import { type Family, faultOfListedName, type Maker, type Model } from '../../../reasoner/index.ts';
import { begunHouse } from '../electron/begun-house.ts';
import { copyOfSmallPack, demoPack, expandCode, expandH7, freshFolder, freshStore, troubleIn, valueIn } from './kit.ts';

const asked = { expandCode: expandH7, faultOfName: faultOfListedName };
type Entry<T> = { -readonly [K in keyof T]: T[K] };
interface Files {
  readonly models: Entry<Model>[];
  readonly makers: Entry<Maker>[];
}

const packWith = async (change: (files: Files) => void): Promise<string> => {
  const folder = await copyOfSmallPack();
  const json = async (file: string) => JSON.parse(await readFile(join(folder, file), 'utf8'));
  const files: Files = { models: await json('models.json'), makers: await json('makers.json') };
  change(files);
  await writeFile(join(folder, 'models.json'), JSON.stringify(files.models, null, 2));
  await writeFile(join(folder, 'makers.json'), JSON.stringify(files.makers, null, 2));
  return folder;
};
const faultsOf = async (folder: string): Promise<readonly Fault[]> =>
  (troubleIn(await readPack(folder, asked)).all ?? []) as readonly Fault[];
/** The small pack's first model is of its first maker, who has a grammar; its fourth of one who has none, its fifth of nobody. */
const [first, second, grammarless, nameless] = [0, 1, 3, 4] as const;

describe('[A4] a grammar reads every name its maker lists, or the pack is at fault', () => {
  test('[A4] as it comes, the small pack is sound, and so is the demo pack', async () => {
    valueIn(await readPack(await copyOfSmallPack(), asked));
    const demo = valueIn(await readPack(demoPack, { expandCode, faultOfName: faultOfListedName }));
    expect(demo.makers.filter(({ grammar }) => grammar !== null).length).toBeGreaterThan(3);
  });

  test('[A4] a name it cannot read is named with file, row, what was found and what was expected', async () => {
    const folder = await packWith(({ models }) => {
      (models[first] as Entry<Model>).name = 'Heron the Second';
    });
    const text = await readFile(join(folder, 'models.json'), 'utf8');
    const row = text.slice(0, text.indexOf('Heron')).split('\n').length;
    const found = await faultsOf(folder);
    expect(found).toMatchObject([{ file: 'models.json', row, column: '[0].name', found: 'the name "Heron the Second"' }]);
    expect(found[0]?.expected).toMatch(/^a name the grammar of .+ can read: “Heron the Second” stands where/);
  });

  test('[A4] a name it would write otherwise would be read as no model', async () => {
    let written = '';
    const folder = await packWith(({ models }) => {
      const model = models[first] as Entry<Model>;
      written = model.name;
      model.name = model.name.toLowerCase();
    });
    expect((await faultsOf(folder)).map(({ expected }) => expected)).toEqual([
      expect.stringMatching(`^"${written}", which is how the grammar`),
    ]);
  });

  test('[A4] a name that breaks what the grammar demands', async () => {
    const folder = await packWith(({ makers }) => {
      const { grammar } = makers[0] as Maker;
      const [word] = grammar?.tokens ?? [];
      if (grammar === null || word?.reads.kind !== 'word') throw new Error('the first maker names its families by a word');
      const last = grammar.tokens.at(-1);
      (grammar.demands as unknown[]).push({
        when: { token: word.id, is: word.reads.words },
        // biome-ignore lint/suspicious/noThenProperty: the word of the grammar.
        then: { token: last?.id, present: true },
        because: 'every one says how it runs',
      });
    });
    const found = await faultsOf(folder);
    expect(found.length).toBeGreaterThan(0);
    for (const fault of found) expect(fault.expected).toContain('every one says how it runs');
  });

  test('[A4] two models of one maker under one name, of which only one could be read', async () => {
    let before = '';
    const folder = await packWith(({ models }) => {
      before = models[first]?.id ?? '';
      (models[second] as Entry<Model>).name = models[first]?.name ?? '';
    });
    expect(await faultsOf(folder)).toMatchObject([
      { column: '[1].name', found: expect.stringContaining('a second time'), expected: `a name of its own ("${before}" has this one)` },
    ]);
  });

  test('[A4] without a grammar, or without a maker, every listed name is a name', async () => {
    const folder = await packWith(({ models }) => {
      for (const index of [grammarless, nameless]) (models[index] as Entry<Model>).name = 'The thing in the corner';
    });
    valueIn(await readPack(folder, asked));
  });

  test('[A4] a new grammar that does not read what another pack lists is a fault beside the grammar', async () => {
    const folder = await copyOfSmallPack();
    const families = JSON.parse(await readFile(join(folder, 'families.json'), 'utf8')) as Family[];
    const models = JSON.parse(await readFile(join(folder, 'models.json'), 'utf8')) as Model[];
    const beside = (name: string) => async () => ({
      ...emptyAtlas,
      models: [{ id: 'beside', name, family: families[0]?.id, patternOf: null, allowed: [] } as unknown as Model],
    });
    const faults = troubleIn(await readPack(folder, { ...asked, beside: beside('Heron') })).all as readonly Fault[];
    expect(faults).toMatchObject([{ file: 'makers.json', column: '[0].grammar', found: expect.stringContaining('"Heron"') }]);
    // A name that another pack's model of this maker has already.
    const twice = troubleIn(await readPack(folder, { ...asked, beside: beside(String(models[first]?.name)) })).all as readonly Fault[];
    expect(twice).toMatchObject([{ file: 'models.json', column: '[0].name', expected: 'a name of its own ("beside" has this one)' }]);
  });

  test('[A4] it is refused at every door: at loading, and where the atlas is filled for the first time', async () => {
    const folder = await packWith(({ models }) => {
      (models[first] as Entry<Model>).name = 'Heron';
    });
    const store = await freshStore({ faultOfName: faultOfListedName });
    expect(troubleIn(await store.packs.load(folder)).sentence).toContain('"Heron"');
    expect(valueIn(await store.packs.list())).toEqual([]);
    const opened = await begunHouse(freshFolder(), join(folder, '..'));
    expect(opened).toMatchObject({ ok: false, trouble: { code: 'pack-invalid' } });
  });
});
