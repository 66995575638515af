import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { ChangeMade, Edit, HeadId, Store } from '../../../db/index.ts';
import type { Atlas, Part, PartId } from '../../../reasoner/index.ts';
import { copyOfSmallPack, filledStore, freshFolder, smallPack, troubleIn, valueIn } from './kit.ts';

const headOf = async (store: Store): Promise<HeadId> => valueIn(await store.changes.look([])).head;

const make = async (store: Store, edits: readonly Edit[], why = 'measured again'): Promise<ChangeMade> =>
  valueIn(await store.changes.make(edits, { who: 'Ines', why, source: 'the bench', head: await headOf(store) }));

const undo = async (store: Store, change: number | null, rest = false) =>
  store.changes.undo(change ?? 0, rest, { who: 'Bram', why: 'a slip', head: await headOf(store) });

const partIn = (atlas: Atlas, id: string): Part | undefined => atlas.parts.find((part) => part.id === id);
const putPart = async (store: Store, id: string, change: (part: Part) => object): Promise<Edit> => {
  const part = partIn(await store.atlas.read(), id) as Part;
  return { list: 'parts', put: { ...part, ...change(part) } };
};

const modelPut = ({ allowed: _allowed, ...model }: Atlas['models'][number]) => model;

const blades = (n: number) => ({ kind: 'count', from: n, to: n });
const withBlades = (n: number) => (part: Part) => ({ facts: { ...part.facts, 'cw-blades': blades(n) } });

const newWheel = {
  id: 'own-wheel',
  slot: 'compressor-wheel',
  name: 'Wheel from the Harlow job',
  maker: null,
  numbers: ['K 77-1'],
  facts: { 'cw-blades': blades(9) },
  source: 'shop-book',
};

/** What the packs say, and what is reasoned over, as one text. */
const everything = async (store: Store): Promise<string> => {
  const { edition: _edition, ...atlas } = await store.atlas.read();
  return JSON.stringify(atlas);
};

const exported = async (store: Store, pack: string): Promise<string> => {
  const folder = join(freshFolder(), 'out');
  valueIn(await store.packs.export(pack, folder));
  return readFile(join(folder, 'facts.csv'), 'utf8');
};

describe('the shop’s own words', () => {
  test('[H1] a new part stands in a pack of the shop’s own, which leans on what it speaks of, and is found like any other', async () => {
    const store = await filledStore();
    const seen = valueIn(await store.changes.look([{ list: 'parts', put: newWheel }]));
    expect(seen.faults).toEqual([]);
    expect(seen.counts).toContainEqual({ of: 'parts', added: 1, altered: 0, removed: 0 });
    expect(seen.cells).toContainEqual(
      expect.objectContaining({ own: true, list: 'parts', id: 'own-wheel', field: 'name', before: null, after: newWheel.name }),
    );
    expect(partIn(await store.atlas.read(), 'own-wheel')).toBeUndefined();

    await make(store, [{ list: 'parts', put: newWheel }]);
    expect(partIn(await store.atlas.read(), 'own-wheel')).toEqual(newWheel);
    expect(valueIn(await store.graph.search('K77-1', 5))[0]).toMatchObject({ node: { id: 'own-wheel' } });
    const packs = valueIn(await store.packs.list());
    expect(packs.map(({ id, invented }) => [id.replace(/[0-9a-f]{8}$/, '…'), invented])).toEqual([
      ['shop-…', false],
      ['small', true],
    ]);
    expect(valueIn(await store.changes.entry('parts', 'own-wheel')).packs).toEqual([
      { id: packs[0]?.id, title: packs[0]?.title, own: true },
    ]);
    expect(troubleIn(await store.packs.remove('small'))).toMatchObject({ code: 'pack-needed' });
  });

  test('[H3] a change calls by name what it brings, renames or takes away, and where ids are said it says of which list', async () => {
    const store = await filledStore();
    const calledBy = async (...edits: readonly Edit[]) => valueIn(await store.changes.look(edits)).called;
    const book = { id: 'bench-book', title: 'The bench book', kind: 'measured in the shop' };
    const wheel = { ...newWheel, source: 'bench-book', supersedes: 'cw-tern-4' };
    const bring: Edit[] = [
      { list: 'sources', put: book },
      { list: 'parts', put: wheel },
    ];
    const own = { list: 'parts', id: 'own-wheel', name: newWheel.name };
    const bookCalled = { list: 'sources', id: 'bench-book', name: 'The bench book' };
    // Of what stands already the atlas tells: the part it supersedes is not among them.
    expect(await calledBy(...bring)).toEqual(expect.arrayContaining([own, bookCalled]));
    expect((await calledBy(...bring)).filter(({ list }) => list !== 'pack')).toHaveLength(2);
    const { cells } = valueIn(await store.changes.look(bring));
    const leads = Object.fromEntries(cells.filter(({ id }) => id === 'own-wheel').map(({ field, leadsTo }) => [field, leadsTo]));
    expect(leads).toEqual({ null: null, slot: 'slots', name: null, numbers: null, supersedes: 'parts', source: 'sources', facts: null });
    expect(await calledBy(await putPart(store, 'cw-tern-9', () => ({ name: 'Nine-bladed wheel' })))).toEqual([
      { list: 'parts', id: 'cw-tern-9', name: 'Nine-bladed wheel' },
    ]);
    // Another field of it says nothing of what it is called.
    expect(await calledBy(await putPart(store, 'cw-tern-9', withBlades(9)))).toEqual([]);

    const { change } = await make(store, bring);
    const away = valueIn(await undo(store, change));
    const known = [...valueIn(await store.changes.one(away.change ?? 0)).called].filter(({ list }) => list !== 'pack');
    expect(known).toEqual(expect.arrayContaining([own, bookCalled]));
  });

  test('[H1] of a pack’s entry the shop’s word is reasoned over, and the pack still says its own, to the byte', async () => {
    const store = await filledStore();
    const before = await exported(store, 'small');
    await make(store, [await putPart(store, 'cw-tern-9', withBlades(9))]);
    expect(partIn(await store.atlas.read(), 'cw-tern-9')?.facts['cw-blades' as never]).toEqual(blades(9));
    expect(valueIn(await store.changes.entry('parts', 'cw-tern-9')).words).toEqual([
      { pack: 'small', field: 'facts', line: 'cw-blades', own: blades(9), said: blades(8) },
    ]);
    expect(await exported(store, 'small')).toBe(before);
    // The same edition once more changes nothing, and takes nothing back.
    expect(valueIn(await store.packs.load(smallPack)).changed).toBe(false);
    expect(partIn(await store.atlas.read(), 'cw-tern-9')?.facts['cw-blades' as never]).toEqual(blades(9));
    // Said as the pack says it, it is no word of the shop's any more.
    await make(store, [await putPart(store, 'cw-tern-9', withBlades(8))]);
    expect(valueIn(await store.changes.entry('parts', 'cw-tern-9')).words).toEqual([]);
  });

  test('[H1] the version of the atlas is that of what is reasoned over, the shop’s words among it', async () => {
    const store = await filledStore();
    const first = valueIn(await store.atlas.state()).version;
    const { change } = await make(store, [await putPart(store, 'cw-tern-9', withBlades(9))]);
    expect(valueIn(await store.atlas.state()).version).not.toBe(first);
    valueIn(await undo(store, change));
    expect(valueIn(await store.atlas.state()).version).toBe(first);
  });

  test('[H1] the shop lets go of a pack’s part, and of where another may sit', async () => {
    const store = await filledStore();
    const { change } = await make(store, [
      { list: 'parts', drop: 'cw-quay-13' },
      { disallow: { model: 'quay-13' as never, part: 'cw-quay-13' as PartId as never } },
    ]);
    const atlas = await store.atlas.read();
    expect(partIn(atlas, 'cw-quay-13')).toBeUndefined();
    expect(atlas.models.find(({ id }) => id === 'quay-13')?.allowed.map(({ part }) => part)).toEqual(['bh-quay', 'bs-journal']);
    expect((await exported(store, 'small')).includes('cw-quay-13')).toBe(true);
    valueIn(await undo(store, change));
    expect(partIn(await store.atlas.read(), 'cw-quay-13')).toBeDefined();
    expect(valueIn(await store.changes.entry('parts', 'cw-quay-13')).words).toEqual([]);
  });

  test('[H1] a part that is taken out and put in again by one change is still the pack’s, with the shop’s word on it', async () => {
    const store = await filledStore();
    const before = await everything(store);
    const again = await putPart(store, 'cw-tern-9', withBlades(9));
    const { change } = await make(store, [{ list: 'parts', drop: 'cw-tern-9' }, again]);
    const { packs, words } = valueIn(await store.changes.entry('parts', 'cw-tern-9'));
    expect(packs.map(({ id }) => id)).toEqual(['small']);
    expect(words).toContainEqual({ pack: 'small', field: 'facts', line: 'cw-blades', own: blades(9), said: blades(8) });
    valueIn(await undo(store, change));
    expect(await everything(store)).toBe(before);
  });

  test('[H4] what cannot be is told all at once, each with its edit and field, and nothing is made', async () => {
    const store = await filledStore();
    const before = await everything(store);
    const edits: Edit[] = [
      { list: 'parts', put: { ...newWheel, slot: 'nowhere', facts: { 'bh-water': { kind: 'presence', present: true } } } },
      { list: 'makers', put: { id: 'x' } },
      { list: 'wheels', put: { id: 'x' } },
      { list: 'parts', drop: 'no-such' },
      { disallow: { model: 'tern-4' as never, part: 'cw-tern-9' as never } },
    ];
    const seen = valueIn(await store.changes.look(edits));
    // What a pack has beside its lists is none of them.
    for (const list of ['head', 'sheets', 'allowed']) {
      const { faults } = valueIn(await store.changes.look([{ list, drop: 'found-01' }]));
      expect(faults.map(({ sentence }) => sentence)).toEqual([
        expect.stringContaining(`${list} “found-01”: found no such list, expected a list of the atlas: sources, `),
      ]);
      expect(troubleIn(await store.changes.entry(list, 'found-01')).code).toBe('not-found');
      expect(troubleIn(await store.changes.stoodEntry('2026-01-01T00:00:00.000Z', list, 'found-01')).code).toBe('not-found');
    }
    expect(seen.faults.map(({ edit, list, id, field }) => [edit, list, id, field])).toEqual(
      expect.arrayContaining([
        [1, 'makers', 'x', 'name'],
        [2, 'wheels', 'x', null],
        [3, 'parts', 'no-such', null],
        [4, 'allowed', 'tern-4', 'cw-tern-9'],
      ]),
    );
    const second = valueIn(await store.changes.look(edits.slice(0, 1)));
    expect(second.faults.map(({ edit, list, id, field, found }) => [edit, list, id, field, found])).toEqual([
      [0, 'parts', 'own-wheel', 'slot', '"nowhere"'],
      [0, 'parts', 'own-wheel', 'facts.bh-water', 'a feature of bearing-housing'],
    ]);
    const trouble = troubleIn(await store.changes.make(edits.slice(0, 1), { who: '', why: '', source: '', head: await headOf(store) }));
    expect(trouble.code).toBe('edit-invalid');
    expect(trouble.all?.map(({ place }) => place)).toEqual(['parts/own-wheel/slot', 'parts/own-wheel/facts.bh-water']);
    expect(await everything(store)).toBe(before);
    expect(valueIn(await store.changes.list(null, 10, null)).map(({ kind }) => kind)).toEqual(['pack loaded']);
  });

  test('[H3] what is only suspicious of the edited entries is said of them, and of no others', async () => {
    const store = await filledStore();
    const odd = { kind: 'measure', nominal: 46.1, lower: 0.05, upper: 0.05 };
    const edits = [await putPart(store, 'cw-tern-4', (part) => ({ facts: { ...part.facts, 'cw-exducer': odd } }))];
    const { warnings, faults } = valueIn(await store.changes.look(edits));
    expect(faults).toEqual([]);
    expect(warnings.map(({ place }) => place)).toEqual(['parts/cw-tern-4']);
    expect(warnings[0]?.sentence).toMatch(/^part “cw-tern-4”, facts\.cw-exducer: /);
    expect(valueIn(await store.changes.look([await putPart(store, 'cw-quay-13', withBlades(9))])).warnings).toEqual([]);
  });

  test('[A7] a model of a pack may rest on a part of the shop’s own, and nothing takes that away unseen', async () => {
    const store = await filledStore();
    const { models } = await store.atlas.read();
    const model = models.find(({ id }) => id === 'tern-4') ?? (models[0] as (typeof models)[number]);
    const naming = model.allowed.filter(({ role }) => role !== 'service');
    const allow = (role: 'names' | 'service') =>
      ({ allow: { model: model.id, slot: 'compressor-wheel', part: 'own-wheel', role } }) as Edit;
    const moved: Edit[] = [
      ...naming.map(({ part }) => ({ disallow: { model: model.id, part } })),
      { list: 'parts', put: newWheel },
      allow('names'),
    ];
    // Without a part of the shop's in their place it is left without a name.
    const bare = valueIn(await store.changes.look(moved.slice(0, naming.length)));
    expect(bare.faults.map(({ list, id }) => [list, id])).toEqual([['models', model.id]]);
    expect(bare.faults[0]?.found).toContain('with no part listed as names or option');
    expect(valueIn(await store.changes.look([...moved.slice(0, -1), allow('service')])).faults).toHaveLength(1);
    const seen = valueIn(await store.changes.look(moved));
    expect(seen.faults).toEqual([]);
    await make(store, moved);

    // What the shop lists counts where it is asked what a model lists nothing for.
    const again = valueIn(await store.changes.look([{ list: 'models', put: { ...modelPut(model), name: `${model.name} B` } }]));
    expect(again.faults).toEqual([]);
    expect(again.warnings.map(({ found }) => found).filter((found) => found.includes('compressor wheel'))).toEqual([]);

    const asService = valueIn(await store.changes.look([allow('service')]));
    expect(asService.faults.map(({ list, id }) => [list, id])).toEqual([['models', model.id]]);
    const own = valueIn(await store.packs.list()).find(({ id }) => id.startsWith('shop-'))?.id ?? '';
    const refused = troubleIn(await store.packs.remove(own));
    expect([refused.code, refused.sentence]).toEqual([
      'pack-needed',
      expect.stringContaining(`the model "${model.id}" of the pack "small" would be left with no part listed as names or option`),
    ]);
    // A newer edition of the pack is taken as it is reasoned over, with the shop's words.
    const newer = await copyOfSmallPack();
    const head = await readFile(join(newer, 'pack.json'), 'utf8');
    await writeFile(join(newer, 'pack.json'), head.replace('2026-03-02', '2026-05-01'));
    expect(valueIn(await store.packs.load(newer)).changed).toBe(true);
    expect(valueIn(await store.packs.check(newer)).faults).toEqual([]);
  });

  test('[A7] an edition that no longer lists what names another pack’s model is refused, with the model', async () => {
    const store = await filledStore();
    const { models } = await store.atlas.read();
    const model = models.find(({ id }) => id === 'tern-4') ?? (models[0] as (typeof models)[number]);
    const head = JSON.parse(await readFile(join(smallPack, 'pack.json'), 'utf8'));
    const gale = async (edition: string, role: string): Promise<string> => {
      const folder = join(freshFolder(), 'gale');
      await mkdir(folder);
      const files = {
        'pack.json': JSON.stringify({ ...head, id: 'gale', title: 'Gale', edition, leansOn: ['small'] }),
        ...Object.fromEntries(
          ['stages', 'slots', 'ports', 'features', 'joints', 'makers', 'families', 'generations', 'models', 'sources'].map((name) => [
            `${name}.json`,
            '[]',
          ]),
        ),
        'parts.csv': 'id,slot,name,maker,numbers,pattern_of,supersedes,source\ngale-wheel,compressor-wheel,Gale wheel,,,,,shop-book\n',
        'facts.csv': 'part,feature,value,lower,upper,code,source\n',
        'allowed.csv': `model,slot,part,role\n${model.id},compressor-wheel,gale-wheel,${role}\n`,
      };
      for (const [name, text] of Object.entries(files)) await writeFile(join(folder, name), text);
      return folder;
    };
    valueIn(await store.packs.load(await gale('2026-01-01', 'names')));
    const edits = model.allowed.filter(({ role }) => role !== 'service').map(({ part }): Edit => ({ disallow: { model: model.id, part } }));
    await make(store, edits);
    const before = await everything(store);
    const newer = await gale('2026-02-01', 'service');
    const refused = troubleIn(await store.packs.load(newer));
    expect([refused.code, refused.sentence]).toEqual([
      'pack-needed',
      expect.stringContaining(`the model "${model.id}" of the pack "small"`),
    ]);
    expect(valueIn(await store.packs.check(newer)).faults.map(({ code }) => code)).toHaveLength(1);
    expect(troubleIn(await store.packs.remove('gale')).code).toBe('pack-needed');
    expect(await everything(store)).toBe(before);
    valueIn(await store.packs.load(await gale('2026-02-01', 'option')));
  });

  test('[H3] an edit that leaves another pack speaking of nothing is a fault, with what speaks of it', async () => {
    const store = await filledStore();
    const seen = valueIn(await store.changes.look([{ list: 'parts', drop: 'cw-petrel-13' }]));
    expect(seen.faults.map(({ list, id, field }) => [list, id, field])).toEqual(
      expect.arrayContaining([
        ['parts', 'cw-petrel-13-b', 'supersedes'],
        ['parts', 'cw-quay-13', 'patternOf'],
        ['allowed', 'petrel-13', 'cw-petrel-13'],
      ]),
    );
  });
});

describe('the history', () => {
  test('[H2] says who, when, why and from where, what was altered, and of one thing all that was done to it', async () => {
    const store = await filledStore();
    const { change } = await make(store, [{ list: 'parts', put: newWheel }, await putPart(store, 'cw-tern-9', withBlades(9))]);
    const [newest, first] = valueIn(await store.changes.list(null, 10, null));
    expect(newest).toMatchObject({
      change,
      kind: 'edited',
      who: 'Ines',
      why: 'measured again',
      source: 'the bench',
      at: '2026-03-04T12:00:00.000Z',
      undoes: null,
      undoneBy: null,
    });
    expect(newest?.packs).toHaveLength(2);
    expect(newest).toMatchObject({
      of: [
        { list: 'parts', id: 'own-wheel', name: newWheel.name },
        { list: 'parts', id: 'cw-tern-9', name: null },
      ],
      ofInAll: 2,
    });
    expect(first).toMatchObject({ kind: 'pack loaded', packs: ['small'], of: [], ofInAll: 0 });
    expect(valueIn(await store.changes.one(change ?? 0)).altered).toContainEqual({
      pack: 'small',
      own: false,
      list: 'parts',
      id: 'cw-tern-9',
      field: 'facts',
      line: 'cw-blades',
      before: blades(8),
      after: blades(9),
      leadsTo: null,
    });
    const said = valueIn(await store.graph.part('cw-tern-9' as PartId)).facts;
    expect(said.find(({ feature }) => feature === 'cw-blades')).toMatchObject({
      fact: blades(9),
      packSays: { fact: blades(8), source: 'shop-book' },
    });
    expect(said.filter((fact) => 'packSays' in fact)).toHaveLength(1);
    expect(valueIn(await store.changes.list(null, 10, { list: 'parts', id: 'own-wheel' })).map((each) => each.change)).toEqual([change]);
    expect(valueIn(await store.changes.list(null, 10, { list: 'parts', id: 'cw-tern-9' })).map(({ kind }) => kind)).toEqual([
      'edited',
      'pack loaded',
    ]);
    expect(valueIn(await store.changes.list(change, 10, null)).map(({ kind }) => kind)).toEqual(['pack loaded']);
  });

  test('[H4] a change is undone whole where nothing rests on it, and the undoing too', async () => {
    const store = await filledStore();
    const before = await everything(store);
    const { change } = await make(store, [{ list: 'parts', put: newWheel }, await putPart(store, 'cw-tern-9', withBlades(9))]);
    const after = await everything(store);
    const undone = valueIn(await undo(store, change));
    expect(await everything(store)).toBe(before);
    expect(valueIn(await store.changes.list(null, 1, null))[0]).toMatchObject({ kind: 'undone', undoes: change, who: 'Bram' });
    expect(valueIn(await store.changes.one(change ?? 0)).undoneBy).toBe(undone.change);
    valueIn(await undo(store, undone.change));
    expect(await everything(store)).toBe(after);
    // Nothing is left of it to undo.
    expect(valueIn(await undo(store, undone.change)).change).toBeNull();
  });

  test('[H4] what something later rests on is named and left; the rest can be undone', async () => {
    const store = await filledStore();
    const { change } = await make(store, [{ list: 'parts', put: newWheel }, await putPart(store, 'cw-tern-9', withBlades(9))]);
    await make(store, [{ list: 'parts', put: { ...newWheel, id: 'own-later', numbers: [], supersedes: 'own-wheel' } }]);
    await make(store, [await putPart(store, 'cw-tern-9', withBlades(10))]);
    const seen = valueIn(await store.changes.lookUndo(change ?? 0));
    expect(seen.disputes.map(({ list, id, field, line }) => [list, id, field, line])).toEqual([
      ['parts', 'cw-tern-9', 'facts', 'cw-blades'],
      ['parts', 'own-wheel', null, null],
    ]);
    expect(seen.faults).toEqual([]);
    const refused = troubleIn(await undo(store, change));
    expect([refused.code, refused.all?.map(({ place }) => place)]).toEqual(['undo-disputed', ['parts/cw-tern-9', 'parts/own-wheel']]);
    const { change: third } = await make(store, [
      { list: 'parts', put: { ...newWheel, name: 'By another name' } },
      await putPart(store, 'cw-tern-4', withBlades(7)),
    ]);
    await make(store, [await putPart(store, 'cw-tern-4', withBlades(6))]);
    valueIn(await undo(store, third, true));
    const atlas = await store.atlas.read();
    expect(partIn(atlas, 'own-wheel')?.name).toBe(newWheel.name);
    expect(partIn(atlas, 'cw-tern-4')?.facts['cw-blades' as never]).toEqual(blades(6));
  });

  test('[H4] what was new stays whole where something of it was changed, or said beside it, since', async () => {
    const store = await filledStore();
    const other = { ...newWheel, id: 'own-other', numbers: [] };
    const { change } = await make(store, [
      { list: 'parts', put: newWheel },
      { list: 'parts', put: other },
      { list: 'parts', put: { ...newWheel, id: 'own-third', numbers: [] } },
    ]);
    await make(store, [
      { list: 'parts', put: { ...newWheel, name: 'Another name' } },
      { list: 'parts', put: { ...other, facts: { ...other.facts, 'cw-exducer': { kind: 'not known' } } } },
    ]);
    const { faults, disputes } = valueIn(await store.changes.lookUndo(change ?? 0));
    expect([faults, disputes.map(({ id, field, line, present }) => [id, field, line, present])]).toEqual([
      [],
      [
        ['own-wheel', 'name', null, 'Another name'],
        ['own-other', 'facts', 'cw-exducer', { kind: 'not known' }],
      ],
    ]);
    valueIn(await undo(store, change, true));
    const atlas = await store.atlas.read();
    expect(atlas.parts.filter(({ id }) => id.startsWith('own-'))).toEqual([
      { ...newWheel, name: 'Another name' },
      { ...other, facts: { ...other.facts, 'cw-exducer': { kind: 'not known' } } },
    ]);
  });

  test('[H4] what a sample sheet of a pack, or what may sit in a model, speaks of later stays, and no more than that', async () => {
    const store = await filledStore();
    const atlas = await store.atlas.read();
    const feature = { ...atlas.features.find(({ id }) => (id as string) === 'cw-blades'), id: 'cw-colour', name: 'Colour' };
    const model = { ...atlas.models.find(({ id }) => (id as string) === 'tern-4'), id: 'own-tern', name: 'Tern 5' };
    const { allowed: _allowed, ...put } = model as typeof model & { allowed: unknown };
    const { change } = await make(store, [
      { list: 'features', put: feature },
      { list: 'features', put: { ...feature, id: 'own-wheel', name: 'Called as the part is' } },
      { list: 'parts', put: newWheel },
      { list: 'models', put },
      { allow: { model: 'own-tern' as never, slot: 'compressor-wheel' as never, part: 'own-wheel' as never, role: 'names' } },
      { allow: { model: 'own-tern' as never, slot: 'bearing-set' as never, part: 'bs-journal' as never, role: 'service' } },
    ]);
    const folder = await copyOfSmallPack();
    const head = JSON.parse(await readFile(join(folder, 'pack.json'), 'utf8')) as object;
    await writeFile(join(folder, 'pack.json'), JSON.stringify({ ...head, edition: '2026-05-01' }));
    const sheet = join(folder, 'sheets', (await readdir(join(folder, 'sheets')))[0] as string);
    const said = JSON.parse(await readFile(sheet, 'utf8')) as { unseen?: object[] };
    const unseen = [...(said.unseen ?? []), { slot: 'compressor-wheel', feature: 'cw-colour', why: 'could not see' }];
    await writeFile(sheet, JSON.stringify({ ...said, unseen }));
    valueIn(await store.packs.load(folder));
    const seen = valueIn(await store.changes.lookUndo(change ?? 0));
    expect([seen.faults, seen.disputes.map(({ list, id }) => [list, id])]).toEqual([[], [['features', 'cw-colour']]]);
    await make(store, [
      { list: 'models', put: { ...put, id: 'own-later', name: 'Tern 6', patternOf: 'own-tern' } },
      { allow: { model: 'own-later' as never, slot: 'compressor-wheel' as never, part: 'cw-tern-4' as never, role: 'names' } },
    ]);
    const more = valueIn(await store.changes.lookUndo(change ?? 0));
    expect(more.faults).toEqual([]);
    expect(more.disputes.map(({ list, id, field }) => [list, id, field])).toEqual(
      expect.arrayContaining([
        ['features', 'cw-colour', null],
        ['parts', 'own-wheel', null],
        ['models', 'own-tern', null],
        ['allowed', 'own-tern', 'own-wheel'],
        ['allowed', 'own-tern', 'bs-journal'],
      ]),
    );
    expect(more.disputes).toHaveLength(5);
    valueIn(await undo(store, change, true));
    const left = await store.atlas.read();
    expect(left.features.some(({ id }) => (id as string) === 'own-wheel')).toBe(false);
    expect(left.models.find(({ id }) => (id as string) === 'own-tern')?.allowed.map(({ part }) => part)).toEqual([
      'own-wheel',
      'bs-journal',
    ]);
  });

  test('[H4] a pack that was loaded or taken out is brought back the same way, with the shop’s words on it', async () => {
    const store = await filledStore();
    await make(store, [await putPart(store, 'cw-tern-9', withBlades(9))]);
    const [before, said] = [await everything(store), await exported(store, 'small')];
    valueIn(await store.packs.remove('small'));
    expect((await store.atlas.read()).parts).toEqual([]);
    const [removal] = valueIn(await store.changes.list(null, 1, null));
    valueIn(await undo(store, removal?.change ?? 0));
    expect(await everything(store)).toBe(before);
    expect(await exported(store, 'small')).toBe(said);
    expect(valueIn(await store.changes.entry('parts', 'cw-tern-9')).words).toHaveLength(1);
    expect(valueIn(await store.packs.load(smallPack)).changed).toBe(false);
  });
});

describe('what was done to packs, undone', () => {
  test('[H4] a pack loaded again under the same edition says itself what it said before, and the shop says nothing of it; so when that is undone, and once more', async () => {
    const store = await filledStore();
    const first = await exported(store, 'small');
    const folder = await copyOfSmallPack();
    const facts = await readFile(join(folder, 'facts.csv'), 'utf8');
    await writeFile(join(folder, 'facts.csv'), facts.replace('cw-tern-9,cw-blades,8', 'cw-tern-9,cw-blades,11'));
    // Nothing the pack says of itself is altered.
    expect(valueIn(await store.packs.load(folder, { anyEdition: true })).changed).toBe(true);
    const second = await exported(store, 'small');
    expect(second).not.toBe(first);
    for (const says of [first, second, first]) {
      const [last] = valueIn(await store.changes.list(null, 1, null));
      valueIn(await undo(store, last?.change ?? 0));
      expect(await exported(store, 'small')).toBe(says);
      expect(valueIn(await store.changes.entry('parts', 'cw-tern-9')).words).toEqual([]);
    }
  });

  test('[H4] the shop’s own pack, taken out and brought back, is its own again', async () => {
    const store = await filledStore();
    await make(store, [{ list: 'parts', put: newWheel }]);
    const before = await everything(store);
    const own = valueIn(await store.changes.entry('parts', 'own-wheel')).packs[0]?.id ?? '';
    valueIn(await store.packs.remove(own));
    expect(partIn(await store.atlas.read(), 'own-wheel')).toBeUndefined();
    const [removal] = valueIn(await store.changes.list(null, 1, null));
    const { change } = valueIn(await undo(store, removal?.change ?? 0));
    expect(await everything(store)).toBe(before);
    expect(valueIn(await store.changes.entry('parts', 'own-wheel')).packs).toMatchObject([{ id: own, own: true }]);
    // It is altered as ever, and nothing is left of the undoing that stands in the way of the next.
    await make(store, [{ list: 'parts', put: { ...newWheel, name: 'Another name' } }]);
    const { faults, disputes } = valueIn(await store.changes.lookUndo(change ?? 0));
    expect([faults, disputes.map(({ id, field }) => [id, field])]).toEqual([[], [['own-wheel', 'name']]]);
  });

  test('[H4] a pack that something later rests on keeps that, with what it leans on there, and the rest of it goes', async () => {
    const store = await filledStore();
    const [loading] = valueIn(await store.changes.list(null, 1, null));
    await make(store, [
      { list: 'parts', put: { ...newWheel, supersedes: 'cw-quay-13' } },
      await putPart(store, 'cw-tern-9', withBlades(9)),
    ]);
    const disputed = valueIn(await store.changes.lookUndo(loading?.change ?? 0));
    expect(disputed.faults).toEqual([]);
    const named = disputed.disputes.map(({ list, id, field, line }) => [list, id, field, line]);
    expect(named).toEqual(
      expect.arrayContaining([
        ['parts', 'cw-quay-13', null, null],
        ['parts', 'cw-tern-9', 'facts', 'cw-blades'],
      ]),
    );
    expect(named.some(([list]) => list === 'pack')).toBe(false);
    valueIn(await undo(store, loading?.change ?? 0, true));
    const atlas = await store.atlas.read();
    // Of what the wheel of the Quay is a pattern of, and so on.
    expect(atlas.parts.map(({ id }) => id as string)).toEqual(['own-wheel', 'cw-tern-9', 'cw-petrel-13', 'cw-quay-13']);
    expect(partIn(atlas, 'cw-tern-9')?.facts['cw-blades' as never]).toEqual(blades(9));
    expect(valueIn(await store.changes.entry('parts', 'cw-tern-9')).words).toHaveLength(1);
  });
});

test('[H4] what stays of a pack keeps the shop’s word on it, and what the pack says under that', async () => {
  const store = await filledStore();
  await make(store, [await putPart(store, 'cw-tern-9', withBlades(9))]);
  valueIn(await store.packs.remove('small'));
  const [removal] = valueIn(await store.changes.list(null, 1, null));
  const { change } = valueIn(await undo(store, removal?.change ?? 0));
  await make(store, [{ list: 'parts', put: { ...newWheel, supersedes: 'cw-tern-9' } }]);
  valueIn(await undo(store, change, true));
  expect((await store.atlas.read()).parts.map(({ id }) => id as string)).toEqual(['own-wheel', 'cw-tern-9']);
  expect(valueIn(await store.changes.entry('parts', 'cw-tern-9')).words).toMatchObject([{ own: blades(9), said: blades(8) }]);
  expect(await exported(store, 'small')).toContain('cw-tern-9,cw-blades,8');
});

test('[H4] what was taken out and put in again otherwise gets back what it does not say by now', async () => {
  const store = await filledStore();
  await make(store, [{ list: 'parts', put: newWheel }]);
  const { change } = await make(store, [{ list: 'parts', drop: 'own-wheel' }]);
  await make(store, [{ list: 'parts', put: { ...newWheel, name: 'Another name', facts: {} } }]);
  expect(valueIn(await store.changes.lookUndo(change ?? 0)).disputes.map(({ field }) => field)).toEqual(['name']);
  valueIn(await undo(store, change, true));
  expect(partIn(await store.atlas.read(), 'own-wheel')).toEqual({ ...newWheel, name: 'Another name' });
});

describe('two at once', () => {
  test('[H4] a change made of an older head goes in beside what others changed since, and is refused where they changed the same', async () => {
    const store = await filledStore();
    const head = await headOf(store);
    const tern9 = await putPart(store, 'cw-tern-9', withBlades(9));
    const tern4 = await putPart(store, 'cw-tern-4', withBlades(5));
    const otherwise = await putPart(store, 'cw-tern-9', withBlades(11));
    const saying = { who: 'Ines', why: '', source: '', head };
    valueIn(await store.changes.make([tern9], saying));
    valueIn(await store.changes.make([tern4], saying));
    const atlas = await store.atlas.read();
    expect([partIn(atlas, 'cw-tern-9'), partIn(atlas, 'cw-tern-4')].map((part) => part?.facts['cw-blades' as never])).toEqual([
      blades(9),
      blades(5),
    ]);
    const refused = troubleIn(await store.changes.make([otherwise], saying));
    expect([refused.code, refused.all?.map(({ place }) => place)]).toEqual(['changed-since', ['cw-tern-9']]);
    // What is there already is no quarrel.
    expect(valueIn(await store.changes.make([tern9], saying)).change).toBeNull();
    expect(troubleIn(await store.changes.make([tern9], { ...saying, head: 'f'.repeat(64) as HeadId })).code).toBe('changed-since');
  });
});

test('[H4] a word about a pack that was taken out meanwhile does not bring it back', async () => {
  const store = await filledStore();
  const head = await headOf(store);
  valueIn(await store.packs.remove('small'));
  const drop: Edit[] = [{ list: 'parts', drop: 'ch-petrel' }, { disallow: { model: 'petrel-13' as never, part: 'ch-petrel' as never } }];
  expect(valueIn(await store.changes.make(drop, { who: 'Ines', why: '', source: '', head })).change).toBeNull();
  expect(valueIn(await store.packs.list())).toEqual([]);
});

test('[H4] nothing is left to undo of an edit whose pack was taken out since: what it altered is named', async () => {
  const store = await filledStore();
  const { change } = await make(store, [
    { list: 'parts', drop: 'ch-petrel' },
    { disallow: { model: 'petrel-13' as never, part: 'ch-petrel' as never } },
  ]);
  valueIn(await store.packs.remove('small'));
  const seen = valueIn(await store.changes.lookUndo(change ?? 0));
  expect([seen.faults, seen.cells]).toEqual([[], []]);
  expect(seen.disputes.map(({ list, id, field }) => [list, id, field])).toContainEqual(['parts', 'ch-petrel', null]);
  expect(valueIn(await undo(store, change, true)).change).toBeNull();
  expect(valueIn(await store.packs.list())).toEqual([]);
});

/** The small pack of a later day, with facts as a function makes them. */
const newerEdition = async (change: (facts: string) => string): Promise<string> => {
  const folder = await copyOfSmallPack();
  const head = JSON.parse(await readFile(join(folder, 'pack.json'), 'utf8')) as object;
  await writeFile(join(folder, 'pack.json'), JSON.stringify({ ...head, edition: '2026-05-01' }));
  await writeFile(join(folder, 'facts.csv'), change(await readFile(join(folder, 'facts.csv'), 'utf8')));
  return folder;
};

describe('a newer edition of a pack', () => {
  test('[H4] leaves the shop’s words that it does not speak against, and those it says itself are the pack’s from now on', async () => {
    const store = await filledStore();
    await make(store, [await putPart(store, 'cw-tern-9', withBlades(9)), await putPart(store, 'cw-tern-4', withBlades(9))]);
    const newer = await newerEdition((facts) =>
      facts.replace('cw-tern-4,cw-blades,8', 'cw-tern-4,cw-blades,9').replace('cw-quay-13,cw-blades,7', 'cw-quay-13,cw-blades,5'),
    );
    expect(valueIn(await store.packs.load(newer))).toMatchObject({ changed: true, disputes: [] });
    const atlas = await store.atlas.read();
    expect(['cw-tern-9', 'cw-tern-4', 'cw-quay-13'].map((id) => partIn(atlas, id)?.facts['cw-blades' as never])).toEqual([
      blades(9),
      blades(9),
      blades(5),
    ]);
    expect(valueIn(await store.changes.entry('parts', 'cw-tern-9')).words).toHaveLength(1);
    expect(valueIn(await store.changes.entry('parts', 'cw-tern-4')).words).toEqual([]);
  });

  test('[H4] says a third thing: refused until somebody says whose word holds, of all or one by one', async () => {
    const store = await filledStore();
    await make(store, [await putPart(store, 'cw-tern-9', withBlades(9)), await putPart(store, 'cw-tern-4', withBlades(9))]);
    const newer = await newerEdition((facts) =>
      facts.replace('cw-tern-4,cw-blades,8', 'cw-tern-4,cw-blades,10').replace('cw-tern-9,cw-blades,8', 'cw-tern-9,cw-blades,11'),
    );
    const preview = valueIn(await store.packs.preview(newer));
    expect(preview.disputes.map(({ cell, own, before, after }) => [cell, own, before, after])).toEqual([
      ['parts/cw-tern-4/facts/cw-blades', blades(9), blades(8), blades(10)],
      ['parts/cw-tern-9/facts/cw-blades', blades(9), blades(8), blades(11)],
    ]);
    const before = await everything(store);
    expect(troubleIn(await store.packs.load(newer))).toMatchObject({ code: 'pack-disputed' });
    expect(await everything(store)).toBe(before);
    valueIn(await store.packs.load(newer, { holds: ({ id }) => (id === 'cw-tern-9' ? 'pack' : 'shop') }));
    const atlas = await store.atlas.read();
    expect(['cw-tern-9', 'cw-tern-4'].map((id) => partIn(atlas, id)?.facts['cw-blades' as never])).toEqual([blades(11), blades(9)]);
    expect(valueIn(await store.changes.entry('parts', 'cw-tern-4')).words).toEqual([
      { pack: 'small', field: 'facts', line: 'cw-blades', own: blades(9), said: blades(10) },
    ]);
  });

  test('[H4] lets go of a part the shop has its word on: kept by the shop’s word, or gone with the pack’s', async () => {
    const without = async (): Promise<string> => {
      const folder = await newerEdition((facts) => facts.replace(/^cw-quay-13,.*\n/gm, ''));
      for (const file of ['parts.csv', 'allowed.csv']) {
        const text = await readFile(join(folder, file), 'utf8');
        await writeFile(join(folder, file), text.replace(/^.*cw-quay-13,.*\n/gm, ''));
      }
      return folder;
    };
    for (const holds of ['shop', 'pack'] as const) {
      const store = await filledStore();
      await make(store, [await putPart(store, 'cw-quay-13', withBlades(9))]);
      const newer = await without();
      expect(valueIn(await store.packs.preview(newer)).disputes.map(({ cell }) => cell)).toEqual(['parts/cw-quay-13']);
      valueIn(await store.packs.load(newer, { holds }));
      expect(partIn(await store.atlas.read(), 'cw-quay-13')?.facts['cw-blades' as never]).toEqual(holds === 'shop' ? blades(9) : undefined);
    }
  });
});
