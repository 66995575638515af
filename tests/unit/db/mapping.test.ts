import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { everyList } from '../../../db/atlas/lists.ts';
import { type MappedWord, mappingText, readMapping, readPack, type Store } from '../../../db/index.ts';
import { vocabularyLists } from '../../../db/packs/mapped-word.ts';
import { saidOf } from '../../../db/packs/mapping/propose.ts';
import type { Fault } from '../../../db/read/faults.ts';
import { expandH7, filledStore, freshFolder, freshStore, troubleIn, valueIn } from './kit.ts';
import { signerCalled } from './signer-called.ts';
import { type WharfPack, wharfPack, writeWharf } from './wharf-pack.ts';

/** The wharf's pack as a test wants it, in a folder of its own. */
const wharf = (spoil: (pack: WharfPack) => void = () => undefined): string => {
  const pack = wharfPack();
  spoil(pack);
  return writeWharf(join(freshFolder(), String(pack.head.id)), pack);
};
const featureOf = ({ lists }: WharfPack, id: string) => lists.features?.find((one) => one.id === id) as Record<string, unknown>;
const proposed = async (store: Store, folder: string) =>
  new Map(valueIn(await store.packs.words(folder)).map((word) => [`${word.list} ${word.id}`, word]));
const saidBy = async (store: Store, folder: string) => saidOf(valueIn(await store.packs.words(folder)));
const faultsIn = async (store: Store, folder: string, words: readonly MappedWord[]) =>
  (troubleIn(await store.packs.load(folder, { words })).all as readonly Fault[]).map(({ file, row, column, found, expected }) => ({
    file,
    row,
    column,
    found,
    expected,
  }));
const lineOf = (folder: string, file: string, text: string) =>
  readFileSync(join(folder, file), 'utf8')
    .split('\n')
    .findIndex((line) => line.includes(text)) + 1;
const slots: readonly MappedWord[] = [
  { list: 'slots', id: 'impeller', to: 'compressor-wheel' },
  { list: 'slots', id: 'bearings', to: 'bearing-set' },
];
const outOf = async (store: Store, id: string) => {
  const folder = join(freshFolder(), 'out');
  valueIn(await store.packs.export(id, folder));
  return {
    folder,
    text: (file: string) => readFileSync(join(folder, file), 'utf8'),
    json: (file: string) => JSON.parse(readFileSync(join(folder, file), 'utf8')),
  };
};

test('[P16] the lists whose words are mapped are those packs share', () => {
  expect(vocabularyLists).toEqual(everyList.filter(({ shared }) => shared).map(({ name }) => name));
});

describe('what is proposed of a pack’s words', () => {
  test('[P16] is what is called the same, by name, other words or their order, within what it is a part of, with why; and nothing for what nothing is like', async () => {
    const words = await proposed(await filledStore(), wharf());
    expect([...words.values()].map(({ list, id, to, why }) => [list, id, to, why])).toEqual([
      ['stages', 'received', 'as-received', 'Both are called “as received”.'],
      ['stages', 'stripped', 'core-stripped', 'Both are called “core stripped”.'],
      ['slots', 'impeller', 'compressor-wheel', '“compressor wheel” is a word for both.'],
      ['slots', 'bearings', 'bearing-set', 'Both are called “bearing set”.'],
      ['ports', 'bearings-rim', 'bs-outside', 'Both are called “outside”.'],
      ['features', 'imp-od', 'cw-exducer', 'Both are called by the same words: diameter, exducer.'],
      ['features', 'imp-blades', 'cw-blades', 'Both are called by the same words: blade, count, full.'],
      ['features', 'brg-type', 'bs-kind', 'Both are called “kind”.'],
    ]);
    expect(words.get('features brg-type')?.options).toEqual([
      { id: 'plain', name: 'journal bearings', to: 'journal' },
      { id: 'ball', name: 'Ball-bearing cartridge', to: 'cartridge' },
      { id: 'air', name: 'air bearings', to: null },
    ]);
    expect(words.get('features imp-od')?.otherwise).toEqual(['stage', 'minutes', 'instrument', 'resolution']);
    expect(words.get('stages stripped')).toMatchObject({ said: 'new', warnings: [], clashes: false, otherwise: ['minutes', 'after'] });
  });

  test('[P16] is never of another kind, and of two that are called alike it is neither: they are named as likely', async () => {
    const store = await filledStore();
    const folder = wharf((pack) => {
      Object.assign(featureOf(pack, 'imp-blades'), { kind: 'measure', unit: 'mm' });
      pack.facts[1] = 'w-imp,imp-blades,7,0,0,,';
      pack.sheets = [];
      pack.lists.features?.push({ ...featureOf(pack, 'imp-od'), id: 'imp-od-2' });
    });
    const words = await proposed(store, folder);
    expect(words.has('features imp-blades')).toBe(false);
    for (const id of ['imp-od', 'imp-od-2'])
      expect(words.get(`features ${id}`)).toMatchObject({
        to: null,
        why: null,
        likely: [{ id: 'cw-exducer', why: 'Both are called by the same words: diameter, exducer.' }],
      });
  });

  test.each([
    [{ from: 1, to: 5 }, { from: 20, to: 150 }, 'There 1 to 5 mm is plausible, here 20 to 150 mm: likely inches there, millimetres here.'],
    [
      { from: 10, to: 75 },
      { from: 20, to: 150 },
      'There 10 to 75 mm is plausible, here 20 to 150 mm: likely the radius there, the diameter here.',
    ],
    [
      { from: 40, to: 300 },
      { from: 20, to: 150 },
      'There 40 to 300 mm is plausible, here 20 to 150 mm: likely the diameter there, the radius here.',
    ],
    [{ from: 300, to: 400 }, { from: 20, to: 150 }, 'There 300 to 400 mm is plausible, here 20 to 150 mm.'],
    [{ from: 25, to: 160 }, { from: 20, to: 150 }, null],
    [{ from: 150, to: 400 }, { from: 20, to: 150 }, null],
    [{ from: 12, to: 20 }, { from: 20, to: 150 }, null],
  ])('[P16] where %o is plausible there and %o here, somebody must say whether the two are one', async (there, here, warning) => {
    const store = await freshStore();
    const ours = wharf((pack) => {
      featureOf(pack, 'imp-od').plausible = here;
      featureOf(pack, 'imp-od').id = 'our-od';
      pack.head.id = 'ours';
      pack.parts = pack.facts = pack.allowed = [];
      pack.lists.makers = pack.lists.families = pack.lists.models = pack.sheets = [];
    });
    valueIn(await store.packs.load(ours));
    const words = await proposed(
      store,
      wharf((pack) => {
        featureOf(pack, 'imp-od').plausible = there;
        pack.facts[0] = `w-imp,imp-od,${there.from + 1},0,0,,`;
      }),
    );
    const likely = [expect.objectContaining({ id: 'our-od' })];
    expect(words.get('features imp-od')).toMatchObject(
      warning === null ? { to: 'our-od', warnings: [] } : { to: null, warnings: [warning], likely },
    );
  });

  test('[P16] is nothing where parts have an option there is none for here, and that is said', async () => {
    const words = await proposed(
      await filledStore(),
      wharf((pack) => pack.facts.splice(2, 1, 'w-brg,brg-type,air,,,,')),
    );
    expect(words.get('features brg-type')).toMatchObject({
      to: null,
      options: null,
      warnings: ['Parts of the pack have “air bearings” (1 part), which there is no option for here.'],
      likely: [{ id: 'bs-kind', name: 'kind' }],
    });
  });
});

describe('a pack whose words are mapped', () => {
  test('[P16] stands with its parts, facts and sheets under the ids of the atlas, without the words that are said already, its figures as they were', async () => {
    const store = await filledStore();
    const folder = wharf();
    const words = await saidBy(store, folder);
    const loaded = valueIn(await store.packs.load(folder, { words }));
    expect(loaded.mapped).toEqual(words);
    const { text, json } = await outOf(store, 'wharf');
    expect(text('facts.csv')).toBe(
      'part,feature,value,lower,upper,code,source\nw-imp,cw-blades,7,,,,\nw-imp,cw-exducer,51.2,-0.05,0.05,,\nw-brg,bs-kind,journal|cartridge,,,,\n',
    );
    expect(text('parts.csv')).toContain('\nw-imp,compressor-wheel,Wharf impeller,');
    expect(text('allowed.csv')).toBe('model,slot,part,role\nwharf-1,bearing-set,w-brg,service\nwharf-1,compressor-wheel,w-imp,names\n');
    expect(json('sheets/wharf-sheet.json')).toMatchObject({
      observations: [
        { slot: 'compressor-wheel', feature: 'cw-blades' },
        { slot: 'bearing-set', feature: 'bs-kind', value: { option: 'journal' } },
      ],
      unseen: [{ slot: 'compressor-wheel', feature: 'cw-exducer' }],
    });
    expect([json('stages.json'), json('slots.json'), json('ports.json')]).toEqual([[], [], []]);
    // What stays its own speaks of what is here.
    expect(json('features.json')).toEqual([expect.objectContaining({ id: 'imp-colour', slot: 'compressor-wheel', stage: 'as-received' })]);
    expect(json('pack.json')).toMatchObject({ leansOn: ['small'], mapped: words });
    expect(valueIn(await store.packs.list()).find(({ id }) => id === 'wharf')).toMatchObject({
      mapped: words,
      signer: null,
      signedAsBrought: false,
    });
    const atlas = await store.atlas.read();
    expect(atlas.features.filter(({ slot }) => slot === 'compressor-wheel').map(({ id }) => id)).toEqual([
      'cw-blades',
      'cw-exducer',
      'imp-colour',
    ]);
  });

  test('[P16] is mapped alike in its next edition without a word, of which only what is new is asked', async () => {
    const store = await filledStore();
    const folder = wharf();
    valueIn(await store.packs.load(folder, { words: await saidBy(store, folder) }));
    expect(valueIn(await store.packs.load(folder))).toMatchObject({ changed: false });
    const next = wharf((pack) => {
      pack.head.edition = '2026-03-01';
      pack.facts[1] = 'w-imp,imp-blades,8,,,,';
      pack.lists.features?.push({
        id: 'brg-wet',
        slot: 'bearings',
        name: 'need of water',
        kind: 'presence',
        stage: 'stripped',
        minutes: 1,
      });
    });
    const words = await proposed(store, next);
    expect(words.get('features imp-od')).toMatchObject({ to: 'cw-exducer', said: 'kept', why: 'It was mapped so before.' });
    expect([...words.values()].filter(({ said }) => said === 'new').map(({ id, to }) => [id, to])).toEqual([['brg-wet', 'bs-needs-water']]);
    expect(valueIn(await store.packs.load(next))).toMatchObject({
      replaced: '2026-02-01',
      change: [expect.anything(), expect.anything(), expect.anything()],
    });
    const { text, json } = await outOf(store, 'wharf');
    expect(text('facts.csv')).toContain('w-imp,cw-blades,8,');
    expect(json('features.json').map(({ id }: { id: string }) => id)).toEqual(['imp-colour', 'brg-wet']);
  });

  test('[P16] that stood with its own words is mapped in the same edition, is taken back whole, and is made its own again', async () => {
    const store = await filledStore();
    const folder = wharf();
    valueIn(await store.packs.load(folder));
    const before = (await outOf(store, 'wharf')).folder;
    const words = await proposed(store, folder);
    // What stands as its own was left so by somebody.
    expect(words.get('features imp-od')).toMatchObject({ to: null, said: 'own', likely: [{ id: 'cw-exducer' }] });
    const mapping = saidOf(
      [...words.values()].map((word) => ({
        ...word,
        to: word.likely[0]?.id ?? null,
        options:
          word.id === 'brg-type'
            ? [
                { id: 'plain', name: '', to: 'journal' },
                { id: 'ball', name: '', to: 'cartridge' },
              ]
            : null,
      })),
    );
    expect(valueIn(await store.packs.load(folder, { words: mapping }))).toMatchObject({ changed: true, replaced: '2026-02-01' });
    const last = valueIn(await store.changes.list(null, 1, null))[0]?.change as number;
    valueIn(await store.changes.undo(last, false, { who: 'Osk', why: '', head: valueIn(await store.changes.head()) }));
    for (const file of ['pack.json', 'facts.csv', 'features.json', 'slots.json'])
      expect((await outOf(store, 'wharf')).text(file)).toBe(readFileSync(join(before, file), 'utf8'));
    valueIn(await store.packs.load(folder, { words: mapping }));
    const own = mapping.map(({ list, id }) => ({ list, id }));
    expect(valueIn(await store.packs.load(folder, { words: own }))).toMatchObject({ changed: true, mapped: [] });
    expect((await outOf(store, 'wharf')).text('pack.json')).toBe(readFileSync(join(before, 'pack.json'), 'utf8'));
    // Other contents under the same edition are as little let in as ever.
    const other = wharf((pack) => {
      pack.facts[1] = 'w-imp,imp-blades,9,,,,';
    });
    expect(troubleIn(await store.packs.load(other, { words: mapping }))).toMatchObject({ code: 'pack-same-edition' });
  });
});

describe('what cannot be mapped', () => {
  const exducer: MappedWord = { list: 'features', id: 'imp-od', to: 'cw-exducer' };
  const kind: MappedWord = { list: 'features', id: 'brg-type', to: 'bs-kind', options: { plain: 'journal', ball: 'cartridge', air: null } };

  test('[P16] is refused at the entry that was brought, by file, row and field: another kind, unit or slot, no such place, no such option', async () => {
    const store = await filledStore();
    const folder = wharf((pack) => {
      Object.assign(featureOf(pack, 'imp-od'), { unit: 'deg' });
    });
    const row = (text: string, below: number) => lineOf(folder, 'features.json', `"id": "${text}"`) + below;
    expect(
      await faultsIn(store, folder, [
        ...slots,
        exducer,
        { list: 'features', id: 'imp-blades', to: 'bh-water' },
        { list: 'features', id: 'imp-colour', to: 'nowhere' },
        { ...kind, options: { plain: 'sleeve', wood: 'journal' } },
        { list: 'stages', id: 'received', as: 'as-received' },
      ]),
    ).toEqual([
      {
        file: 'stages.json',
        row: 3,
        column: '[0].id',
        found: '"received", to be called "as-received"',
        expected: 'an id no other stage of this pack or the atlas has',
      },
      {
        file: 'features.json',
        row: row('imp-od', 4),
        column: '[0].unit',
        found: 'deg, of "imp-od", which is mapped onto "cw-exducer"',
        expected: 'mm, as “cw-exducer” has it; or another feature',
      },
      {
        file: 'features.json',
        row: row('imp-blades', 1),
        column: '[1].slot',
        found: 'compressor-wheel, of "imp-blades", which is mapped onto "bh-water"',
        expected: 'bearing-housing, as “bh-water” has it; or another feature',
      },
      {
        file: 'features.json',
        row: row('imp-blades', 3),
        column: '[1].kind',
        found: 'count, of "imp-blades", which is mapped onto "bh-water"',
        expected: 'presence, as “bh-water” has it; or another feature',
      },
      {
        file: 'features.json',
        row: row('imp-colour', 0),
        column: '[2].id',
        found: '"imp-colour", mapped onto "nowhere"',
        expected: 'the id of a feature of the atlas',
      },
      {
        file: 'features.json',
        row: row('brg-type', 4),
        column: '[3].options',
        found: '"plain", mapped onto "sleeve"',
        expected: 'an option of "bs-kind": journal, cartridge',
      },
      {
        file: 'features.json',
        row: row('brg-type', 4),
        column: '[3].options',
        found: 'no option "wood", which is mapped',
        expected: 'options of "brg-type": plain, ball, air',
      },
      expect.objectContaining({ file: 'facts.csv', row: 3 }),
      expect.objectContaining({ file: 'facts.csv', row: 4 }),
    ]);
    expect(valueIn(await store.packs.list()).map(({ id }) => id)).toEqual(['small']);
  });

  test('[P16] is an option a part has and there is none for, and two features of one part that are one here and say two things; what says the same is said once', async () => {
    const store = await filledStore();
    const two = (value: string) => (pack: WharfPack) => {
      pack.lists.features?.push({ ...featureOf(pack, 'imp-od'), id: 'imp-major' });
      pack.facts = ['w-imp,imp-od,51.2,-0.05,0.05,,', `w-imp,imp-major,${value},-0.05,0.05,,`, 'w-brg,brg-type,air,,,,'];
      pack.sheets = [];
    };
    const words = [...slots, exducer, { ...exducer, id: 'imp-major' }, kind];
    expect(await faultsIn(store, wharf(two('51.3')), words)).toEqual([
      {
        file: 'facts.csv',
        row: 3,
        column: 'feature',
        found: '"imp-major", which is one with "imp-od" here and says otherwise of w-imp (row 2)',
        expected: 'features of one part that are mapped onto one to say the same',
      },
      {
        file: 'facts.csv',
        row: 4,
        column: 'value',
        found: 'the option "air" of "brg-type", which is mapped onto "bs-kind"',
        expected: 'an option that is mapped onto one of "bs-kind": journal, cartridge',
      },
    ]);
    const same = wharf((pack) => {
      two('51.2')(pack);
      pack.facts[2] = 'w-brg,brg-type,ball,,,,';
    });
    valueIn(await store.packs.load(same, { words }));
    expect((await outOf(store, 'wharf')).text('facts.csv')).toContain('\nw-imp,cw-exducer,51.2,-0.05,0.05,,\nw-brg,bs-kind,cartridge,');
  });

  test('[P16] is a word no pack brings, and a mapping that cannot be read, by line', async () => {
    const store = await filledStore();
    const folder = wharf();
    const text = mappingText('wharf', valueIn(await store.packs.words(folder)));
    const words = valueIn(readMapping(text, 'm.json'));
    expect(words.map(({ at: _at, ...word }) => word)).toEqual(await saidBy(store, folder));
    const line = (of: string, sign: string) => of.split('\n').findIndex((each) => each.includes(sign)) + 1;
    const typo = text.replace('"imp-od"', '"imp-odd"');
    const refused = troubleIn(await store.packs.load(folder, { words: valueIn(readMapping(typo, 'm.json')) }));
    expect(refused.all).toMatchObject([
      {
        file: 'm.json',
        row: line(typo, 'imp-odd') - 2,
        found: '"imp-odd" of features',
        expected: 'an entry the pack brings, or has from a pack it leans on',
      },
    ]);
    expect(refused.place).toMatch(/^m\.json, row \d+/);
    for (const [bad, found, sign] of [
      [text.replace('"options": {', '"optionen": {'), 'the field "optionen"', 'optionen'],
      [text.replace('"list": "slots"', '"list": "makers"'), '"makers"', 'makers'],
      [text.replace('"id": "stripped"', '"id": "received"'), '"received" of stages a second time', '"core stripped"'],
      [text.replace('"to": "cw-exducer"', '"to": "cw-exducer", "as": "x"'), expect.stringContaining('imp-od'), '"x"'],
    ] as const) {
      const { all } = troubleIn(readMapping(bad, 'm.json'));
      expect(all, bad).toMatchObject([{ file: 'm.json', found }]);
      expect(Math.abs(((all as readonly Fault[])[0]?.row ?? 0) - line(bad, sign))).toBeLessThan(7);
    }
    expect(troubleIn(readMapping('{', 'm.json')).all).toMatchObject([{ expected: expect.stringContaining('JSON, with') }]);
  });

  test('[P16] the check of a pack finds the same, and a mapped pack is sound there', async () => {
    const store = await filledStore();
    const folder = wharf();
    const words = await saidBy(store, folder);
    expect(valueIn(await store.packs.check(folder, { words }))).toMatchObject({ sound: true, faults: [], held: null });
    const wrong = [...words.filter(({ id }) => id !== 'imp-blades'), { list: 'features', id: 'imp-blades', to: 'cw-exducer' } as const];
    const { sound, faults } = valueIn(await store.packs.check(folder, { words: wrong }));
    expect(sound).toBe(false);
    expect(faults[0]).toMatchObject({
      file: 'features.json',
      column: '[1].kind',
      found: 'count, of "imp-blades", which is mapped onto "cw-exducer"',
    });
    valueIn(await store.packs.load(folder, { words }));
    expect(valueIn(await store.packs.check(folder))).toMatchObject({ sound: true, held: { same: true } });
    expect(valueIn(await store.packs.check(folder, { words: words.map(({ list, id }) => ({ list, id })) }))).toMatchObject({
      sound: true,
      held: { same: false },
    });
  });
});

describe('a pack that leans on words that were mapped', () => {
  /** The wharf's words in a pack of their own, beside what leans on it. */
  const inTwo = () => {
    const parent = freshFolder();
    const [words, world] = [wharfPack(), wharfPack()];
    Object.assign(words.head, { id: 'wharf-words', title: 'Words of the wharf' });
    for (const list of ['makers', 'families', 'models']) words.lists[list] = [];
    words.parts = words.facts = words.allowed = [];
    words.sheets = [];
    for (const list of ['sources', 'stages', 'slots', 'ports', 'features', 'joints']) world.lists[list] = [];
    world.head.leansOn = ['wharf-words'];
    return { words: writeWharf(join(parent, 'words'), words), world: writeWharf(join(parent, 'world'), world) };
  };

  test('[P16] is read by what was said of them, whether they came before it or with it, and by what is said of them today', async () => {
    const { words, world } = inTwo();
    const [one, other] = [await filledStore(), await freshStore()];
    valueIn(await one.packs.load(words, { words: await saidBy(one, words) }));
    expect(valueIn(await one.packs.words(world))).toEqual([]);
    const loaded = valueIn(await one.packs.load(world));
    expect(loaded.mapped.map(({ id }) => id)).toEqual(['impeller', 'bearings', 'imp-od', 'imp-blades', 'brg-type']);
    const { text, json } = await outOf(one, 'wharf');
    expect(text('facts.csv')).toContain('w-brg,bs-kind,journal|cartridge,');
    expect(json('pack.json')).toMatchObject({ leansOn: ['wharf-words', 'small'] });

    valueIn(await other.packs.load((await outOf(one, 'small')).folder));
    expect(valueIn(await other.packs.load(world, { words: await saidBy(other, world) })).with).toMatchObject([{ pack: 'wharf-words' }]);
    const alike = await outOf(other, 'wharf');
    for (const file of ['pack.json', 'parts.csv', 'facts.csv', 'allowed.csv']) expect(alike.text(file)).toBe(text(file));
  });

  test('[P16] goes out as it is held, and comes into an atlas of those words as any other', async () => {
    const { words, world } = inTwo();
    const [one, other] = [await filledStore(), await freshStore()];
    valueIn(await one.packs.load(words, { words: await saidBy(one, words) }));
    valueIn(await one.packs.load(world));
    for (const id of ['small', 'wharf-words', 'wharf']) valueIn(await other.packs.load((await outOf(one, id)).folder));
    expect(valueIn(await other.packs.list()).map(({ hash }) => hash)).toEqual(valueIn(await one.packs.list()).map(({ hash }) => hash));
    expect(valueIn(await other.packs.words(world))).toEqual([]);
    expect(valueIn(await other.packs.load(world))).toMatchObject({ changed: false });
  });
});

describe('an entry of the atlas’s own id that is another thing', () => {
  const clashing = (pack: WharfPack) => {
    featureOf(pack, 'imp-colour').id = 'cw-exducer';
    featureOf(pack, 'imp-blades').id = 'cw-blades';
    pack.facts[1] = 'w-imp,cw-blades,7,,,,';
    pack.facts.push('w-imp,cw-exducer,red,,,,');
    pack.sheets = [];
  };

  test('[P16] keeps a pack out until it is called otherwise; where it is the same thing, the atlas’s word holds', async () => {
    const store = await filledStore();
    const folder = wharf(clashing);
    expect(troubleIn(await store.packs.load(folder)).code).toBe('pack-clash');
    const words = await proposed(store, folder);
    expect(words.get('features cw-blades')).toMatchObject({
      to: 'cw-blades',
      clashes: true,
      why: 'It has the same id and is called the same.',
    });
    expect(words.get('features cw-exducer')).toMatchObject({ to: null, clashes: true, likely: [] });
    const said = saidOf([...words.values()]);
    expect((await faultsIn(store, folder, said))[0]).toEqual({
      file: 'features.json',
      row: lineOf(folder, 'features.json', '"id": "cw-exducer"'),
      column: '[2].id',
      found: '"cw-exducer", which is another feature here, and "imp-od" is mapped onto that',
      expected: 'it to be mapped too, or called otherwise',
    });
    valueIn(await store.packs.load(folder, { words: [...said, { list: 'features', id: 'cw-exducer', as: 'imp-colour' }] }));
    expect((await outOf(store, 'wharf')).text('facts.csv')).toBe(
      'part,feature,value,lower,upper,code,source\nw-imp,imp-colour,red,,,,\nw-imp,cw-blades,7,,,,\nw-imp,cw-exducer,51.2,-0.05,0.05,,\nw-brg,bs-kind,journal|cartridge,,,,\n',
    );
    expect(valueIn(await store.packs.load(folder))).toMatchObject({ changed: false });
  });
});

describe('a signed pack whose words are mapped', () => {
  test('[P16] [P15] is taken by whoever signed what was brought, is said to be signed as that, and goes out without the signature', async () => {
    const store = await filledStore();
    const tern = await signerCalled('Tern Works');
    valueIn(await store.keys.trust(tern, 'Osk'));
    const folder = wharf();
    const brought = valueIn(await readPack(folder, { expandCode: expandH7 }));
    await tern.signs(folder, brought);
    const words = await saidBy(store, folder);
    expect(valueIn(await store.packs.load(folder, { words })).signer).toMatchObject({ name: 'Tern Works' });
    expect(valueIn(await store.packs.list()).find(({ id }) => id === 'wharf')).toMatchObject({
      signer: { name: 'Tern Works' },
      signedAsBrought: true,
    });
    const [last] = valueIn(await store.changes.list(null, 1, null));
    expect(last?.source).toMatch(
      /^The list of the Osterhal wharf, edition 2026-02-01, signed by Tern Works \(.*\) as it was brought, mapped onto the words of the atlas$/,
    );
    const out = await outOf(store, 'wharf');
    expect(existsSync(join(out.folder, 'signature.json'))).toBe(false);
    expect(valueIn(await store.packs.verify(out.folder))).toMatchObject({ signer: null });
    // The next edition, unsigned, is asked about as ever.
    const next = wharf((pack) => {
      pack.head.edition = '2026-05-01';
    });
    expect(troubleIn(await store.packs.load(next)).code).toBe('pack-signer');
    // Whoever alters a byte of it is found out, mapped or not.
    writeFileSync(join(folder, 'facts.csv'), readFileSync(join(folder, 'facts.csv'), 'utf8').replace('51.2', '51.3'));
    expect(troubleIn(await store.packs.load(folder, { words })).code).toBe('pack-signature');
  });

  test('[P16] [P15] that leans on words that are held as mapped is held to its signature by its files as they stand', async () => {
    const store = await filledStore();
    const tern = await signerCalled('Tern Works');
    valueIn(await store.keys.trust(tern, 'Osk'));
    const parent = freshFolder();
    const words = wharf((pack) => {
      pack.head.id = 'wharf-words';
      pack.lists.makers = pack.lists.families = pack.lists.models = [];
      pack.parts = pack.facts = pack.allowed = [];
      pack.sheets = [];
    });
    const world = wharfPack();
    for (const list of ['sources', 'stages', 'slots', 'ports', 'features']) world.lists[list] = [];
    world.head.leansOn = ['wharf-words'];
    const folder = writeWharf(join(parent, 'world'), world);
    const beside = await freshStore();
    valueIn(await beside.packs.load(words));
    valueIn(await beside.packs.load(folder));
    const { folder: written } = await outOf(beside, 'wharf');
    await tern.signs(written, valueIn(await readPack(written, { expandCode: expandH7, beside: () => beside.atlas.read() })));
    valueIn(await store.packs.load(words, { words: await saidBy(store, words) }));
    expect(valueIn(await store.packs.load(written)).signer).toMatchObject({ name: 'Tern Works' });
    writeFileSync(join(written, 'facts.csv'), readFileSync(join(written, 'facts.csv'), 'utf8').replace('51.2', '51.3'));
    expect(troubleIn(await store.packs.load(written)).code).toBe('pack-signature');
  });
});
