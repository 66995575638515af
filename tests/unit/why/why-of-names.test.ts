import { describe, expect, test } from 'vitest';
import { ruleNamed } from '../../../reasoner/compile/name-ids.ts';
import type { NameRule } from '../../../reasoner/compile/name-rule.ts';
import { answer, asId, type CompiledAtlas, explain, type Observation, type Sheet } from '../../../reasoner/index.ts';
import { unitOf } from '../../../reasoner/unit/unit.ts';
import { swapSetsOf } from '../../../reasoner/why/explain.ts';
import { number, quay } from '../plate/quay-atlas.ts';
import { sheetOf } from '../reasoner/little-atlas.ts';
import { seen, yard } from '../reasoner/yard-atlas.ts';

const why = (atlas: CompiledAtlas, name: string, observations: readonly Observation[], rest: Partial<Sheet> = {}) => {
  const { conflicts, swaps } = explain(atlas, sheetOf(observations, rest), asId(name));
  return { conflicts: conflicts?.found ?? [], swaps: swaps?.found ?? [] };
};
const sentences = (...asked: Parameters<typeof why>) => why(...asked).conflicts.map(({ sentence }) => sentence);

const pier = yard({
  families: { Cod: 'Quayside', Ling: 'Quayside', Lane: null },
  models: {
    'Cod 1': { wheel: 'a', shaft: 'a', front: 'a' },
    'Cod 2': { wheel: 'b', shaft: 'b', front: 'b' },
    'Ling 1': { wheel: 'c', shaft: 'c', front: 'c' },
    'Lane 1': { wheel: 'l', shaft: 'l', patternOf: 'Cod 1' },
    'Lane 2': { wheel: 'm', shaft: 'm', patternOf: 'Cod 2' },
  },
  without: ['back', 'elbow', 'plate'],
});

describe('of whom a conflict speaks (K2)', () => {
  test('[K2] of a model by its name, on whatever rung; of a core as the core of it', () => {
    const parts = seen({ wheel: 'c' });
    for (const id of ['model:cod-1', 'options:cod-1', 'service:cod-1'])
      expect(sentences(pier, id, parts), id).toEqual([
        'The wheel has c as its letter; every wheel listed for Quayside Cod 1 has a as its letter.',
      ]);
    expect(sentences(pier, 'core:cod-1', parts)).toEqual([
      'The wheel has c as its letter; every wheel listed for the core of Quayside Cod 1 with unidentified housings has a as its letter.',
    ]);
  });

  test('[K2] [N4] of a family as of one of its models, of their cores, or of the pattern cores after it', () => {
    const mixed = seen({ wheel: 'a', shaft: 'b' });
    expect(sentences(pier, 'family:cod', mixed)).toContain(
      'No model of the Quayside Cod family has a wheel with a as its letter and a shaft with b as its letter.',
    );
    expect(sentences(pier, 'family-core:cod', mixed)).toEqual([
      'No core of the Quayside Cod family has a wheel with a as its letter and a shaft with b as its letter.',
    ]);
    expect(sentences(pier, 'pattern-family:cod', seen({ wheel: 'l', shaft: 'm' }))).toEqual([
      'No pattern core after the Quayside Cod family has a wheel with l as its letter and a shaft with m as its letter.',
    ]);
    expect(sentences(pier, 'family:cod', seen({ wheel: 'c' }))).toEqual([
      'The wheel has c as its letter; every wheel listed for the Quayside Cod family, model not settled has a as its letter or b as its letter.',
    ]);
  });
});

describe('what a conflict touches (K1)', () => {
  const fitted = yard({
    families: { Cod: 'Quayside' },
    models: { 'Cod 1': { wheel: 'a', shaft: 'a', front: 'a' }, 'Cod 2': { wheel: 'b', shaft: 'b', front: 'b' } },
    fits: [{ a: 'shaft', b: 'front', pairs: ['aa', 'bb'] }],
    without: ['back', 'elbow', 'plate'],
  });

  test('[K1] the slots of its members and both ends of its joints, in the order of the atlas, and the strip-down to see it', () => {
    expect(why(fitted, 'service:cod-1', seen({ front: 'b' })).conflicts).toMatchObject([
      { slots: ['front'], minutes: 0, stage: 'as-received' },
      { slots: ['shaft', 'front'], minutes: 0, stage: 'as-received' },
    ]);
    expect(why(fitted, 'service:cod-1', seen({ wheel: 'b' })).conflicts).toMatchObject([
      { slots: ['wheel'], minutes: 40, stage: 'stripped' },
    ]);
    expect(why(fitted, 'service:cod-1', [], { absent: [asId('wheel')] }).conflicts).toMatchObject([
      { slots: ['wheel'], minutes: 0, stage: null },
    ]);
  });

  test('[K1] of two stages the later one', () => {
    const both = seen({ shaft: 'a', front: 'b' });
    const turned = answer(fitted, sheetOf([...both].reverse()));
    expect(turned.kind === 'verdict' && turned.unit.found).toMatchObject([{ slots: ['shaft', 'front'], minutes: 40, stage: 'stripped' }]);
    const found = answer(fitted, sheetOf(both));
    expect(found.kind === 'verdict' && found.unit.found).toMatchObject([{ slots: ['shaft', 'front'], minutes: 40, stage: 'stripped' }]);
    expect(found.kind === 'verdict' && found.unit.found[0]?.members.map(({ kind }) => kind)).toEqual([
      'observation',
      'observation',
      'joint',
    ]);
  });
});

describe('what would have to be exchanged (S1)', () => {
  test('[S1] cheapest first, each with the parts that do it, its minutes, and what it leaves', () => {
    const fitted = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a d', shaft: '~x ~y', front: 'a' }, 'Cod 2': { wheel: 'b', shaft: '~x ~y', front: 'b' } },
      fits: [{ a: 'wheel', b: 'shaft', pairs: ['ax', 'by', 'dx'] }],
      without: ['back', 'elbow', 'plate'],
    });
    const unit = unitOf(fitted, sheetOf(seen({ wheel: 'b', front: 'a' })));
    expect(swapSetsOf(unit, ruleNamed(fitted, asId('service:cod-1')) as NameRule)).toEqual({
      complete: true,
      found: [
        {
          slots: ['wheel'],
          parts: [{ slot: 'wheel', parts: ['wheel a', 'wheel d'], needs: [] }],
          plates: [],
          minutes: 50,
          work: 0,
          leaves: 'stands',
        },
      ],
    });
    // In a slot the name asks nothing of, whatever goes with the rest does.
    const shafted = unitOf(fitted, sheetOf(seen({ shaft: 'y' })));
    expect(swapSetsOf(shafted, ruleNamed(fitted, asId('service:cod-1')) as NameRule).found).toMatchObject([
      { slots: ['shaft'], parts: [{ slot: 'shaft', parts: ['shaft x'] }], leaves: 'open' },
    ]);
    // Two of its own parts that do not go together: either is exchanged, and the housing takes no strip-down.
    const crossed = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a d', front: 'a d' }, 'Cod 2': { wheel: 'b', front: 'b' } },
      fits: [{ a: 'wheel', b: 'front', pairs: ['aa', 'bb', 'dd'] }],
      without: ['shaft', 'back', 'elbow', 'plate'],
    });
    const both = unitOf(crossed, sheetOf(seen({ wheel: 'a', front: 'd' })));
    expect(swapSetsOf(both, ruleNamed(crossed, asId('service:cod-1')) as NameRule).found).toMatchObject([
      { slots: ['front'], parts: [{ parts: ['front a'] }], minutes: 10, leaves: 'stands' },
      { slots: ['wheel'], parts: [{ parts: ['wheel d'] }], minutes: 50, leaves: 'stands' },
    ]);
  });
});

describe('what can be exchanged for what (S1)', () => {
  test('[S1] [N4] for a family the parts of any of its models, in the order of the atlas', () => {
    const later = yard({
      families: { Ling: 'Quayside', Cod: 'Quayside' },
      models: { 'Ling 1': { wheel: 'a b c', shaft: 'q' }, 'Cod 1': { wheel: 'b', shaft: 'x' }, 'Cod 2': { wheel: 'a', shaft: 'x' } },
      without: ['front', 'back', 'elbow', 'plate'],
    });
    expect(why(later, 'family:cod', seen({ wheel: 'c' })).swaps).toMatchObject([
      { slots: ['wheel'], parts: [{ parts: ['wheel a', 'wheel b'] }] },
    ]);
  });

  test('[S1] [N4] be it in a slot that in doubt is of no matter to another of its models', () => {
    const doubtful = yard({
      families: { Cod: 'Quayside', Ling: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a', shaft: '~x ~y ~z' }, 'Cod 2': { wheel: 'b', shaft: 'x' }, 'Ling 1': { wheel: 'c', shaft: 'z' } },
      fits: [{ a: 'wheel', b: 'shaft', pairs: ['ax', 'ay', 'az', 'bx', 'cz'] }],
      without: ['front', 'back', 'elbow', 'plate'],
    });
    // The wheel of Cod 2 does not go on this shaft: that wheel is exchanged for Cod 1’s, or the shaft for Cod 2’s.
    expect(why(doubtful, 'family:cod', seen({ wheel: 'b', shaft: 'z' })).swaps.map(({ parts }) => parts.map((each) => each.parts))).toEqual(
      [[['shaft x']], [['wheel a']]],
    );
  });

  test('[S1] nothing, where on this rung no part belongs in a slot', () => {
    const optional = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: '+a +b', shaft: 'a' } },
      without: ['front', 'back', 'elbow', 'plate'],
    });
    const { swaps } = explain(optional, sheetOf(seen({ wheel: 'a' })), asId('model:cod-1'));
    expect(swaps).toEqual({ found: [], complete: true });
    const unit = unitOf(optional, sheetOf(seen({ wheel: 'a' })));
    expect(swapSetsOf(unit, ruleNamed(optional, asId('model:cod-1')) as NameRule)).toEqual({ found: [], complete: true });
  });
});

describe('the unit’s quarrel with itself (J1, K1)', () => {
  const own = (atlas: CompiledAtlas, observations: readonly Observation[], rest: Partial<Sheet> = {}) => {
    const found = answer(atlas, sheetOf(observations, rest));
    return found.kind === 'verdict' ? found.unit : null;
  };
  const two = yard({
    families: { Cod: 'Quayside' },
    models: { 'Cod 1': { wheel: 'a', shaft: 'a', front: 'a' }, 'Cod 2': { wheel: 'b', shaft: 'b', front: 'b' } },
    fits: [
      { a: 'wheel', b: 'shaft', pairs: ['aa', 'bb'] },
      { a: 'shaft', b: 'front', pairs: ['aa', 'bb'] },
    ],
    without: ['back', 'elbow', 'plate'],
  });
  const none = { found: [], complete: true, independent: { count: 0, exact: true } };

  test('[J1] a slot that holds nothing is no disagreement, be it one or several', () => {
    expect(own(two, [], { absent: [asId('wheel')] })).toEqual(none);
    expect(own(two, [], { absent: [asId('wheel'), asId('front')] })).toEqual(none);
  });

  test('[J1] beside one that is missing the others are still held against each other', () => {
    const parts = seen({ shaft: 'a', front: 'b' });
    expect(own(two, parts, { absent: [asId('wheel')] })?.found.map(({ slots }) => slots)).toEqual([['shaft', 'front']]);
    expect(own(two, parts)?.independent).toEqual({ count: 1, exact: true });
  });

  test('[O5] a plate whose number is not listed quarrels with nothing', () => {
    expect(own(quay, [number('P 777-5/1')])).toEqual(none);
  });
});
