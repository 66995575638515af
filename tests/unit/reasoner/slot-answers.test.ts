import { describe, expect, test } from 'vitest';
import { answer, asId, type CompiledAtlas, compileAtlas, type Observation, type Sheet, type SlotAnswer } from '../../../reasoner/index.ts';
import { chose, littleAtlas, marked, saw, sheetOf } from './little-atlas.ts';
import { seen, type Yard, yard } from './yard-atlas.ts';

const slotsOf = (atlas: CompiledAtlas, observations: readonly Observation[], rest: Partial<Sheet> = {}) => {
  const found = answer(atlas, sheetOf(observations, rest), { explain: 'none' });
  if (found.kind !== 'verdict') throw new Error('this unit contradicts itself');
  return (id: string): SlotAnswer => found.slots.find(({ slot }) => slot === asId(id)) as SlotAnswer;
};
/** Of each part that fell out at a joint, the slot that had no partner for it. */
const fell = ({ removedByJoints }: SlotAnswer): Record<string, string> =>
  Object.fromEntries(
    removedByJoints.map(({ part, because }) => [part, because.kind === 'joint' ? `${because.joint} ${because.other}` : because.kind]),
  );
const core: Pick<Yard, 'families'> = { families: { Cod: 'Quayside' } };

describe('what a slot may hold (C1)', () => {
  const atlas = yard({
    ...core,
    models: { 'Cod 1': { wheel: 'a b c d', shaft: 'x y' } },
    fits: [{ a: 'wheel', b: 'shaft', pairs: ['ax', 'by', 'cx', 'dy'] }],
    without: ['back', 'elbow', 'plate'],
  });

  test('[C1] every part that agrees, in the order of the atlas whatever each goes together with', () => {
    expect(slotsOf(atlas, [])('wheel')).toMatchObject({
      candidates: ['wheel a', 'wheel b', 'wheel c', 'wheel d'],
      listed: 4,
      removedByObservations: 0,
      removedByJoints: [],
      machined: [],
      silent: [],
      numberNotListed: null,
      doubtful: false,
      absent: false,
    });
  });

  test('[C1] [J1] what was read of it and what its neighbours leave no partner are told apart', () => {
    const wheel = slotsOf(atlas, [saw('wheel.fit-0', { kind: 'choice', option: 'ax' }), ...seen({ shaft: 'x' })])('wheel');
    expect([wheel.candidates, wheel.removedByObservations, wheel.removedByJoints]).toEqual([['wheel a'], 3, []]);
    const beside = slotsOf(atlas, seen({ shaft: 'x' }))('wheel');
    expect([beside.candidates, beside.removedByObservations]).toEqual([['wheel a', 'wheel c'], 0]);
    expect(fell(beside)).toEqual({ 'wheel b': 'fit-0 shaft', 'wheel d': 'fit-0 shaft' });
  });

  test('[C1] a missing slot holds nothing', () => {
    expect(slotsOf(atlas, [], { absent: [asId('shaft')] })('shaft')).toMatchObject({
      candidates: [],
      listed: 2,
      removedByObservations: 2,
      absent: true,
    });
  });
});

describe('parts that fall out at a joint (J1)', () => {
  const chain: Yard = {
    ...core,
    models: {
      'Cod 1': { wheel: 'a', shaft: 'x', front: 'm', back: 'p' },
      'Cod 2': { wheel: 'b', shaft: 'y', front: 'n', back: 'q' },
    },
    fits: [
      { a: 'front', b: 'back', pairs: ['mp', 'nq'] },
      { a: 'shaft', b: 'front', pairs: ['xm', 'yn'] },
      { a: 'wheel', b: 'shaft', pairs: ['ax', 'by'] },
    ],
    without: ['elbow', 'plate'],
  };

  test('[J1] one slot after another, each with the neighbour that has no partner left for it', () => {
    const fromWheel = slotsOf(yard(chain), seen({ wheel: 'a' }));
    expect((['wheel', 'shaft', 'front', 'back'] as const).map((slot) => fell(fromWheel(slot)))).toEqual([
      {},
      { 'shaft y': 'fit-2 wheel' },
      { 'front n': 'fit-1 shaft' },
      { 'back q': 'fit-0 front' },
    ]);
    const fromBack = slotsOf(yard(chain), seen({ back: 'q' }));
    expect((['wheel', 'shaft', 'front', 'back'] as const).map((slot) => fell(fromBack(slot)))).toEqual([
      { 'wheel a': 'fit-2 shaft' },
      { 'shaft x': 'fit-1 front' },
      { 'front m': 'fit-0 back' },
      {},
    ]);
  });

  test('[J1] so also where the joints are listed the other way about', () => {
    const slot = slotsOf(yard({ ...chain, fits: [...(chain.fits ?? [])].reverse() }), seen({ back: 'q' }));
    expect((['wheel', 'shaft', 'front'] as const).map((each) => fell(slot(each)))).toEqual([
      { 'wheel a': 'fit-0 shaft' },
      { 'shaft x': 'fit-1 front' },
      { 'front m': 'fit-2 back' },
    ]);
  });

  test('[J1] of two joints that would take a part the first of the atlas is named', () => {
    const both = yard({
      ...core,
      models: { 'Cod 1': { wheel: 'a', shaft: 'x', front: 'm' }, 'Cod 2': { wheel: 'b', shaft: 'y', front: 'n' } },
      fits: [
        { a: 'shaft', b: 'front', pairs: ['xm', 'yn'] },
        { a: 'wheel', b: 'front', pairs: ['am', 'bn'] },
      ],
      without: ['back', 'elbow', 'plate'],
    });
    expect(fell(slotsOf(both, seen({ wheel: 'a', shaft: 'x' }))('front'))).toEqual({ 'front n': 'fit-0 shaft' });
  });

  test('[J1] where each joint leaves a partner and the whole does not, no joint is blamed', () => {
    const ring = yard({
      ...core,
      models: { 'Cod 1': { wheel: 'a b c', shaft: 'x y z', front: 'm n o' } },
      fits: [
        { a: 'wheel', b: 'shaft', pairs: ['ax', 'by', 'cz'] },
        { a: 'shaft', b: 'front', pairs: ['xm', 'yn', 'zo'] },
        { a: 'front', b: 'wheel', pairs: ['mb', 'na', 'oc'] },
      ],
      without: ['back', 'elbow', 'plate'],
    });
    const slot = slotsOf(ring, []);
    expect(slot('wheel').candidates).toEqual(['wheel c']);
    expect(fell(slot('wheel'))).toEqual({ 'wheel a': 'together', 'wheel b': 'together' });
    expect(fell(slot('front'))).toEqual({ 'front m': 'together', 'front n': 'together' });
  });

  test('[J1] [J3] a doubtful slot, which may hold any part, takes nothing', () => {
    const atlas = yard({
      ...chain,
      fits: [
        { a: 'shaft', b: 'front', pairs: ['xn', 'ym'] },
        { a: 'wheel', b: 'shaft', pairs: ['ax', 'by'] },
        { a: 'front', b: 'back', pairs: ['mp', 'nq'] },
      ],
    });
    // The wheel does not go on the shaft: which of the two is not as listed nobody knows, so what goes on that shaft says nothing.
    const slot = slotsOf(atlas, seen({ wheel: 'a', shaft: 'y', back: 'p' }));
    expect((['wheel', 'shaft', 'front', 'back'] as const).map((each) => slot(each).doubtful)).toEqual([true, true, false, false]);
    expect(fell(slot('front'))).toEqual({ 'front n': 'fit-2 back' });
  });
});

describe('what the atlas is silent about (O3)', () => {
  test('[O3] is said of each part left, each feature once, and of no part that is out', () => {
    const { parts } = littleAtlas;
    const like = (id: string, facts: object) =>
      ({
        ...(parts.find((each) => each.id === asId('shaft/cartridge')) as (typeof parts)[number]),
        id: asId(id),
        facts,
      }) as (typeof parts)[number];
    const atlas = compileAtlas({
      ...littleAtlas,
      parts: [...parts, like('shaft/silent', {}), like('shaft/out', { 'shaft.end': { kind: 'choice', anyOf: ['6'] } })],
    });
    const weld = chose('shaft.weld', 'friction');
    const shaft = slotsOf(atlas, [chose('shaft.end', '7'), weld, { ...weld, id: asId('again') }, chose('shaft.bearing', 'cartridge')])(
      'shaft',
    );
    expect(shaft.candidates).toEqual(['shaft/lane', 'shaft/silent']);
    expect(shaft.silent).toEqual([
      { part: 'shaft/lane', features: ['shaft.bearing'] },
      { part: 'shaft/silent', features: ['shaft.end', 'shaft.weld', 'shaft.bearing'] },
    ]);
    expect(slotsOf(atlas, [marked('housing.cast-name', 'QUAYSIDE')])('shaft').silent).toEqual([]);
  });
});
