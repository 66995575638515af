import { describe, expect, test } from 'vitest';
import { type AsFound, leftOf } from '../../../reasoner/fits/work/left.ts';
import type { Cut, Doing, Fact, FeatureId, Operation } from '../../../reasoner/index.ts';

const id = (text: string): FeatureId => text as FeatureId;
const mm = (nominal: number, lower = 0, upper = 0): Fact => ({ kind: 'measure', nominal, lower, upper });

const operation = (does: Doing, rest: Partial<Operation> = {}): Operation =>
  ({ id: 'op', name: 'open it', slot: 'housing', does, takes: [], hours: 1, turning: false, cautions: [], source: 's', ...rest }) as never;
const cut = (rest: Partial<Cut> = {}): Operation =>
  operation({
    kind: 'cut',
    cuts: [{ feature: id('recess'), way: 'larger', most: 1.5, holds: { kind: 'grade', grade: 8 }, metal: [], moves: [], ...rest }],
  });

/** Ranges in thousandths, so that they can be compared as they are written. */
const left = (operations: Operation | readonly Operation[], facts: Record<string, Fact>, feature = 'recess'): readonly unknown[] =>
  leftOf([operations].flat() as readonly Operation[], id(feature), (each) => facts[each]).map(({ fact }: AsFound['left'][number]) => {
    if (fact.kind === 'measure')
      return [fact.nominal + fact.lower, fact.nominal + fact.upper].map((size) => Math.round(size * 1000) / 1000);
    return fact.kind === 'count' ? [fact.from, fact.to] : fact.kind === 'choice' ? fact.anyOf : fact;
  });

describe('[O2] what an operation could have left of a dimension', () => {
  const recess = { recess: mm(80, -0.02, 0.05) };

  test('[O2] a cut goes on from the end of the limits, as far as the operation takes it and no further', () => {
    expect(left(cut(), recess)).toEqual([[80.05, 81.55]]);
    expect(left(cut({ way: 'smaller' }), recess)).toEqual([[78.48, 79.98]]);
  });

  test('[O2] the wall ends it sooner, its thickest good example, by as much as a diameter eats into it', () => {
    const wall = { feature: id('wall'), leaves: 3 };
    const facts = { ...recess, wall: mm(3.5, -0.2, 0.1) };
    expect(left(cut({ metal: [{ ...wall, per: 1 }] }), facts)).toEqual([[80.05, 80.65]]);
    expect(left(cut({ metal: [{ ...wall, per: 2 }] }), facts)).toEqual([[80.05, 81.25]]);
    expect(left(cut({ metal: [{ ...wall, per: 2, leaves: 3.6 }] }), facts), 'no metal to give').toEqual([]);
    expect(left(cut({ metal: [{ ...wall, per: 2, leaves: 3.599 }] }), facts)).toEqual([[80.05, 80.052]]);
  });

  test('[A5] a wall that is not known bounds nothing; of a dimension that is not known nothing is said', () => {
    const metal = [{ feature: id('wall'), per: 2 as const, leaves: 3 }];
    expect(left(cut({ metal }), recess)).toEqual([[80.05, 81.55]]);
    expect(left(cut({ metal }), { ...recess, wall: { kind: 'not known' } })).toEqual([[80.05, 81.55]]);
    expect(left(cut(), { recess: { kind: 'not known' } })).toEqual([]);
    expect(left(cut(), {})).toEqual([]);
  });

  test('[O2] the wall is left thinner, by all the cuts of the setting, and never thinner than must be left', () => {
    const both = operation({
      kind: 'cut',
      cuts: ['inducer', 'exducer'].map((feature) => ({
        feature: id(feature),
        way: 'larger',
        most: 0.6,
        holds: { kind: 'tolerance', tolerance: 0.05 },
        metal: [{ feature: id('wall'), per: 2, leaves: 4 }],
        moves: [],
      })),
    });
    const facts = { inducer: mm(30), exducer: mm(42) };
    expect(left(both, { ...facts, wall: mm(5, -0.2, 0.2) }, 'wall')).toEqual([[4.2, 4.8]]);
    expect(left(both, { ...facts, wall: mm(4.3, -0.2, 0.2) }, 'wall')).toEqual([[4, 4.1]]);
  });

  test('[O2] what moves with a cut moves either way it can', () => {
    const moves = [{ feature: id('tip'), times: -0.5 }];
    expect(left(cut({ moves }), { ...recess, tip: mm(3.4, -0.02, 0.06) }, 'tip')).toEqual([[2.63, 3.38]]);
    expect(left(cut({ moves: [{ feature: id('tip'), times: 1 }] }), { ...recess, tip: mm(3.4, -0.02, 0.06) }, 'tip')).toEqual([
      [3.46, 4.96],
    ]);
  });

  test('[O2] what two cuts of one setting move apart goes either way, by each alone; a cut with no metal to take moves nothing', () => {
    const cuts = [1, -0.5].map((times, i) => ({
      ...(cut({ moves: [{ feature: id('tip'), times }] }).does as Extract<Doing, { kind: 'cut' }>).cuts[0],
      feature: id(`face ${i}`),
      most: 1,
    }));
    expect(left(operation({ kind: 'cut', cuts } as never), { tip: mm(3) }, 'tip')).toEqual([
      [2.5, 3],
      [3, 4],
    ]);
    const thin = cut({ metal: [{ feature: id('wall'), per: 1, leaves: 4 }], moves: [{ feature: id('tip'), times: 1 }] });
    expect(left(thin, { ...recess, tip: mm(3), wall: mm(3.5) }, 'tip')).toEqual([]);
  });

  test('[O2] a ring leaves at least twice its wall less, from the part that leaves it most room, and as much less as one likes', () => {
    const ring = (way: 'larger' | 'smaller') =>
      operation({ kind: 'ring', feature: id('recess'), way, wall: 2.4, holds: { kind: 'grade', grade: 8 } });
    expect(left(ring('smaller'), recess)).toEqual([[0, 75.25]]);
    const [[from, to]] = left(ring('larger'), recess) as [[number, number]];
    expect(from).toBe(84.78);
    expect(to).toBeGreaterThan(100_000);
  });

  test('[O2] another circle of holes lies on the land, with any bolt the shop works with', () => {
    const circle = operation({
      kind: 'drill a circle',
      count: id('count'),
      diameter: id('circle'),
      bolt: id('bolt'),
      land: { inner: id('inner'), outer: id('outer') },
      holes: { m5: 5.5, m6: 6.6 },
      edge: 2,
      within: 0.1,
    });
    const facts: Record<string, Fact> = {
      count: { kind: 'count', from: 6, to: 6 },
      circle: mm(100, -0.1, 0.1),
      bolt: { kind: 'choice', anyOf: ['m6'] },
      inner: mm(85, -0.5, 0.5),
      outer: mm(115, -0.5, 0.5),
    };
    expect(left(circle, facts, 'circle')).toEqual([
      [94, 99.9],
      [100.1, 106],
    ]);
    expect(left(circle, facts, 'count')).toEqual([
      [1, 5],
      [7, Number.MAX_SAFE_INTEGER],
    ]);
    expect(left(circle, facts, 'bolt')).toEqual([['m5']]);
    const narrow = { ...facts, outer: mm(103, -0.5, 0.4) };
    for (const feature of ['circle', 'count', 'bolt']) expect(left(circle, narrow, feature), `${feature}, no room on the land`).toEqual([]);
    expect(left(circle, { ...facts, inner: { kind: 'not known' } }, 'circle')).toEqual([
      [9.5, 99.9],
      [100.1, 106],
    ]);
  });

  test('[O2] a face made anew is what is offered and it was not; what is needed is not made away with', () => {
    const offers = operation({
      kind: 'remake',
      offers: [
        { feature: id('count'), kind: 'count', from: 3, to: 8 },
        { feature: id('circle'), kind: 'measure', from: 50, to: 120, within: 0.06 },
        { feature: id('bolt'), kind: 'choice', anyOf: ['m5', 'm6'] },
        { feature: id('ports'), kind: 'presence' },
      ],
    });
    expect(left(offers, { count: { kind: 'count', from: 4, to: 5 } }, 'count')).toEqual([
      [3, 3],
      [6, 8],
    ]);
    expect(left(offers, { circle: mm(119, -0.1, 0.1) }, 'circle')).toEqual([
      [49.94, 118.9],
      [119.1, 120.06],
    ]);
    expect(left(offers, { bolt: { kind: 'choice', anyOf: ['m5', 'm7'] } }, 'bolt')).toEqual([['m6']]);
    expect(left(offers, { bolt: { kind: 'choice', anyOf: ['m5', 'm6'] } }, 'bolt')).toEqual([]);
    expect(left(offers, { ports: { kind: 'presence', present: false } }, 'ports')).toEqual([{ kind: 'presence', present: true }]);
    expect(left(offers, { ports: { kind: 'presence', present: true } }, 'ports')).toEqual([]);
  });

  test('[O2] only a part that can take the operation; one that comes in several metals, or whose metal is not known, may be of the right one', () => {
    const aluminium = { ...cut(), takes: [{ feature: id('metal'), anyOf: ['aluminium'] }] } as Operation;
    const of = (...anyOf: string[]): Record<string, Fact> => ({ ...recess, metal: { kind: 'choice', anyOf } });
    expect(left(aluminium, of('iron'))).toEqual([]);
    expect(left(aluminium, of('iron', 'aluminium'))).toEqual([[80.05, 81.55]]);
    expect(left(aluminium, recess)).toEqual([[80.05, 81.55]]);
  });

  test('[O2] each operation by itself, in the order of the atlas', () => {
    const ring = {
      ...operation({ kind: 'ring', feature: id('recess'), way: 'smaller', wall: 2.4, holds: { kind: 'grade', grade: 8 } }),
      id: 'ring',
    } as Operation;
    expect(leftOf([cut(), ring], id('recess'), (each) => recess[each as 'recess']).map((each) => each.operation)).toEqual(['op', 'ring']);
  });
});
