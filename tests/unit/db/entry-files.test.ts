import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readPack } from '../../../db/index.ts';
import type { Fault } from '../../../db/read/faults.ts';
import { wordedIds } from '../../../seed-data/make/vocabulary/other-words.ts';
import { demoAtlas, demoPack } from '../seed/demo-atlas.ts';
import { copyOfSmallPack, expandH7, filledStore, freshFolder, troubleIn, valueIn } from './kit.ts';

const instrument = { id: 'rule', name: 'steel rule', unit: 'mm', resolution: 0.5, u: 0.29, basis: 'one step', source: 'bench' };
const numbering = [
  {
    id: 'serials',
    name: 'serial number',
    says: 'serial number',
    from: 1974,
    to: null,
    pieces: [
      { before: '', kind: 'fixed', text: 'M' },
      { before: ' ', kind: 'slot', codes: { FLAG: 'bearing-housing' } },
      { before: '-', kind: 'year', figures: 2 },
      { before: '-', kind: 'check digit', weights: [2, 3], modulus: 11, stamps: 'complement', ten: 'X' },
    ],
  },
];

/** The small pack with instruments, other words, and numbers of its first maker; changed by `change` before it is read. */
const packWith = async (
  change: (parts: { instruments: unknown[]; makers: Record<string, unknown>[]; features: Record<string, unknown>[] }) => void,
) => {
  const folder = await copyOfSmallPack();
  const read = async (file: string) => JSON.parse(await readFile(join(folder, file), 'utf8')) as Record<string, unknown>[];
  const [makers, features] = [await read('makers.json'), await read('features.json')];
  const instruments: unknown[] = [{ ...instrument }];
  Object.assign(makers[0] as object, { numbering: structuredClone(numbering) });
  Object.assign(features[0] as object, { alsoCalled: ['letters'] });
  change({ instruments, makers, features });
  for (const [file, value] of Object.entries({ 'makers.json': makers, 'features.json': features, 'instruments.json': instruments }))
    await writeFile(join(folder, file), JSON.stringify(value, null, 2));
  return folder;
};

describe('[A6] other words, number patterns and instruments are data', () => {
  test('[A6] they load into the store, are read back as they were written, and exported the same to the byte', async () => {
    const folder = await packWith(({ makers }) => Object.assign(makers[0] as object, {}));
    const store = await filledStore();
    valueIn(await store.packs.load(folder, { anyEdition: true }));
    const atlas = await store.atlas.read();
    expect(atlas.instruments).toEqual([instrument]);
    expect(atlas.makers[0]?.numbering).toEqual(numbering);
    expect(atlas.features[0]?.alsoCalled).toEqual(['letters']);
    expect(valueIn(await store.atlas.vocabulary()).instruments).toEqual([instrument]);
    const out = join(freshFolder(), 'out');
    valueIn(await store.packs.export('small', out));
    const again = valueIn(await readPack(out, { expandCode: expandH7 }));
    expect(again).toEqual(valueIn(await readPack(folder, { expandCode: expandH7 })));
  });

  test.each<[string, (parts: Parameters<Parameters<typeof packWith>[0]>[0]) => void, string, string]>([
    [
      'an instrument without a known source',
      ({ instruments }) => Object.assign(instruments[0] as object, { source: 'nowhere' }),
      'instruments.json',
      '[0].source',
    ],
    [
      'an instrument that is never off',
      ({ instruments }) => Object.assign(instruments[0] as object, { u: 0 }),
      'instruments.json',
      '[0].u',
    ],
    [
      'a code for a slot there is not',
      ({ makers }) =>
        Object.assign((makers[0] as { numbering: typeof numbering }).numbering[0]?.pieces[1] as object, { codes: { FLAG: 'nowhere' } }),
      'makers.json',
      '[0].numbering[0].pieces[1].codes.FLAG',
    ],
    [
      'a check digit before any figure',
      ({ makers }) => (makers[0] as { numbering: typeof numbering }).numbering[0]?.pieces.splice(0, 3),
      'makers.json',
      '[0].numbering[0].pieces[0].kind',
    ],
    [
      'two figures of a year of nobody knows which century',
      ({ makers }) => Object.assign((makers[0] as { numbering: typeof numbering }).numbering[0] as object, { from: null }),
      'makers.json',
      '[0].numbering[0].from',
    ],
    [
      'a year of make that is letters',
      ({ features }) => Object.assign(features.find(({ kind }) => kind === 'mark') as object, { says: 'year of make' }),
      'features.json',
      'says',
    ],
    [
      'a word said twice',
      ({ features }) => Object.assign(features[0] as object, { alsoCalled: ['eye', 'Eye'] }),
      'features.json',
      '[0].alsoCalled',
    ],
  ])('[A6] %s is named with file and place', async (_, change, file, place) => {
    const trouble = troubleIn(await readPack(await packWith(change), { expandCode: expandH7 }));
    const faults = (trouble.all ?? []) as readonly Fault[];
    expect(faults.map((fault) => `${fault.file} ${fault.column}`).join('\n')).toContain(`${file} `);
    expect(faults.map(({ column }) => column ?? '').join('\n')).toContain(place);
  });

  test('[A6] the demo pack’s other words are of things that exist, and never the name of another of the same slot', () => {
    const ids = new Set<string>([
      ...demoPack.slots.map(({ id }) => id),
      ...demoPack.features.flatMap(({ id, options = [] }) => [id, ...options.map((option) => `${id}.${option.id}`)]),
    ]);
    for (const id of wordedIds) expect(ids, id).toContain(id);
    for (const { slot, name, alsoCalled = [] } of demoAtlas.features) {
      const others = demoAtlas.features.filter((other) => other.slot === slot && other.name !== name).map((other) => other.name);
      for (const word of alsoCalled) expect(others).not.toContain(word);
    }
  });
});
