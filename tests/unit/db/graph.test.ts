import { describe, expect, test } from 'vitest';
import { asId, type FamilyId, type Fit, type JointId, type MakerId, type ModelId, type PartId } from '../../../reasoner/index.ts';
import { filledStore, troubleIn, valueIn } from './kit.ts';

const family = (id: string) => asId<FamilyId>(id);
const model = (id: string) => asId<ModelId>(id);
const part = (id: string) => asId<PartId>(id);
const read = (steps: readonly { from: { name: string }; how: string; to: { name: string } }[] | null) =>
  steps?.map((step) => `${step.from.name} ${step.how} ${step.to.name}`);

describe('[A3] what may sit where', () => {
  test('a model’s page lists every part by slot with its role, and the parts that superseded them', async () => {
    const page = valueIn(await (await filledStore()).graph.model(model('petrel-13')));
    expect(page.slots.map(({ slot, parts }) => [slot, parts.map((each) => [each.part.id, each.role, each.inPlaceOf?.id ?? null])])).toEqual(
      [
        ['compressor-housing', [['ch-petrel', 'names', null]]],
        [
          'compressor-wheel',
          [
            ['cw-petrel-13', 'names', null],
            ['cw-petrel-13-b', 'names', 'cw-petrel-13'],
            ['cw-petrel-13-c', 'names', 'cw-petrel-13'],
          ],
        ],
        ['bearing-housing', [['bh-petrel', 'names', null]]],
        ['bearing-set', [['bs-cartridge', 'names', null]]],
      ],
    );
    expect(page).toMatchObject({
      family: { id: 'petrel' },
      maker: { id: 'merrowby' },
      generation: { id: 'petrel-1' },
      patternOf: null,
      from: 1988,
      to: 2001,
    });
  });

  test('a part’s page says where it may sit, and through which part where it is not listed itself', async () => {
    const store = await filledStore();
    expect(valueIn(await store.graph.part(part('cw-petrel-13-c'))).sitsIn).toEqual([
      {
        model: { kind: 'model', id: 'petrel-13', name: 'Petrel 13 Cartridge' },
        role: 'names',
        inPlaceOf: { kind: 'part', id: 'cw-petrel-13', name: 'Petrel 13 compressor wheel' },
      },
    ]);
    expect(valueIn(await store.graph.part(part('bh-tern'))).sitsIn.map((each) => [each.model.id, each.role])).toEqual([
      ['tern-4', 'names'],
      ['tern-9', 'names'],
    ]);
  });

  test('[A5] a part’s page keeps what is not known, and the source of each fact', async () => {
    const store = await filledStore();
    expect(valueIn(await store.graph.part(part('ch-petrel'))).facts[1]).toEqual({
      feature: 'ch-recess-diameter',
      fact: { kind: 'not known' },
      source: 'shop-book',
    });
    expect(valueIn(await store.graph.part(part('ch-rowan'))).facts.map(({ source }) => source)).toEqual(['shop-book', 'bench']);
  });
});

test('the chain of supersession reads from the oldest, whichever part is asked of', async () => {
  const store = await filledStore();
  for (const id of ['cw-petrel-13', 'cw-petrel-13-b', 'cw-petrel-13-c']) {
    expect(valueIn(await store.graph.supersession(part(id))).map((each) => each.id)).toEqual([
      'cw-petrel-13',
      'cw-petrel-13-b',
      'cw-petrel-13-c',
    ]);
  }
  expect(valueIn(await store.graph.supersession(part('bh-tern'))).map((each) => each.id)).toEqual(['bh-tern']);
});

describe('models that share a core', () => {
  test('one bearing housing under two wheels is not one core', async () => {
    expect(valueIn(await (await filledStore()).graph.sharesCore(model('tern-4')))).toEqual([]);
  });
});

describe('descent', () => {
  test('ancestors and descendants by descent and succession, each with the edge that leads to it', async () => {
    const store = await filledStore();
    expect(valueIn(await store.graph.descent(family('petrel'))).ancestors).toMatchObject([
      { family: { id: 'tern' }, via: { id: 'petrel' }, how: 'descends from' },
    ]);
    expect(valueIn(await store.graph.descent(family('tern'))).descendants).toMatchObject([
      { family: { id: 'petrel' }, via: { id: 'tern' } },
    ]);
    expect(valueIn(await store.graph.descent(family('rowan')))).toEqual({ ancestors: [], descendants: [] });
  });
});

describe('the shortest reason two families are related', () => {
  test.each([
    ['petrel', 'tern', ['Petrel succeeds Tern']],
    ['tern', 'petrel', ['Tern is succeeded by Petrel']],
    ['quay-group', 'petrel', ['Quay workshop is made to the pattern of Petrel']],
    ['rowan', 'tern', ['Rowan is built with Tern 9 compressor wheel', 'Tern 9 compressor wheel sits also in Tern']],
    [
      'rowan',
      'quay-group',
      [
        'Rowan is built with Tern 9 compressor wheel',
        'Tern 9 compressor wheel sits also in Tern',
        'Tern is succeeded by Petrel',
        'Petrel is the pattern for Quay workshop',
      ],
    ],
    ['tern', 'tern', []],
  ])('from %s to %s', async (a, b, steps) => {
    expect(read(valueIn(await (await filledStore()).graph.related(family(a), family(b))).steps)).toEqual(steps);
  });

  test('the maker’s name counts only when nothing else joins them', async () => {
    const store = await filledStore();
    const page = valueIn(await store.graph.maker(asId<MakerId>('merrowby')));
    expect(page.families.map((each) => each.id)).toEqual(['tern', 'petrel']);
    const steps = valueIn(await store.graph.related(family('tern'), family('petrel'))).steps;
    expect(steps?.some((step) => step.from.kind === 'maker')).toBe(false);
  });
});

describe('what else a part fits', () => {
  const judge =
    (verdicts: Readonly<Record<string, Fit['verdict']>>) =>
    async () =>
    (joint: JointId, a: PartId, b: PartId): Fit => ({ joint, a, b, verdict: verdicts[`${a} ${b}`] ?? 'drops in', findings: [] });

  test('partners across every joint, the part on its own side, those that drop in first and those that fail left out', async () => {
    const store = await filledStore();
    const answer = valueIn(
      await store.graph.fits(
        part('bh-tern'),
        judge({ 'ch-tern bh-tern': 'not known', 'ch-petrel bh-tern': 'will not fit', 'bs-journal bh-tern': 'after work' }),
      ),
    );
    expect(answer.partners.map(({ joint, part: other, fit }) => [joint, other.id, fit.verdict])).toEqual([
      ['housing-on-core', 'ch-rowan', 'drops in'],
      ['housing-on-core', 'ch-tern', 'not known'],
      ['bearings-in-housing', 'bs-cartridge', 'drops in'],
      ['bearings-in-housing', 'bs-journal', 'after work'],
    ]);
    const fromAbove = valueIn(await store.graph.fits(part('ch-tern'), judge({})));
    expect(fromAbove.partners.map(({ fit }) => [fit.a, fit.b])).toEqual([
      ['ch-tern', 'bh-tern'],
      ['ch-tern', 'bh-petrel'],
      ['ch-tern', 'bh-quay'],
    ]);
  });
});

test('pages of families and makers', async () => {
  const store = await filledStore();
  expect(valueIn(await store.graph.family(family('petrel')))).toMatchObject({
    maker: { id: 'merrowby' },
    descendsFrom: [{ id: 'tern' }],
    succeeds: [{ id: 'tern' }],
    succeededBy: [],
    patterns: [{ id: 'quay-group' }],
    generations: [{ id: 'petrel-1' }, { id: 'petrel-2' }],
    models: [{ id: 'petrel-13' }],
  });
  const maker = valueIn(await store.graph.maker(asId<MakerId>('merrowby')));
  expect(maker.tradeNames.map(({ name }) => name)).toEqual(['Lisle Air Engines', 'Lisle-Merrowby', 'Merrowby']);
  expect(maker.grammar).toEqual([
    'family: one of Tern, Petrel',
    'running size: a whole number from 1 to 22, after a space',
    'bearing set: the word Cartridge, after a space; may be left out',
  ]);
});

test('the vocabulary is the atlas’s own terms, makers, families and models', async () => {
  const store = await filledStore();
  const atlas = await store.atlas.read();
  const vocabulary = valueIn(await store.atlas.vocabulary());
  expect(vocabulary).toMatchObject({
    edition: atlas.edition,
    packs: [{ id: 'small', edition: '2026-03-02', invented: true }],
    counts: { makers: 2, families: 4, models: 5, parts: 15 },
    stages: atlas.stages,
    slots: atlas.slots,
    ports: atlas.ports,
    features: atlas.features,
    joints: atlas.joints,
    sources: atlas.sources,
  });
  expect(vocabulary.makers).toEqual(atlas.makers.map(({ grammar: _grammar, ...maker }) => maker));
  expect(vocabulary.models).toEqual(atlas.models.map(({ id, name, family: of }) => ({ id, name, family: of })));
});

test('an id the atlas does not have is a trouble that names it', async () => {
  const store = await filledStore();
  const asked = [
    store.graph.maker(asId('nobody')),
    store.graph.family(family('nobody')),
    store.graph.model(model('nobody')),
    store.graph.part(part('nobody')),
    store.graph.descent(family('nobody')),
    store.graph.related(family('tern'), family('nobody')),
    store.graph.supersession(part('nobody')),
    store.graph.fits(part('nobody'), () => {
      throw new Error('not reached');
    }),
  ];
  for (const outcome of await Promise.all(asked))
    expect(troubleIn(outcome)).toMatchObject({ code: 'not-found', sentence: expect.stringContaining('"nobody"') });
});
