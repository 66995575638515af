import { describe, expect, it } from 'vitest';
import { compileAtlas, type Feature } from '../../../reasoner/index.ts';
import { type Entry, enteredOf, weighable } from '../../../reasoner/odds/entered.ts';
import { littleAtlas } from '../reasoner/little-atlas.ts';

const atlas = compileAtlas(littleAtlas);
const [slot, tip] = [atlas.slots[1] as (typeof atlas.slots)[number], atlas.features.get('wheel.tip' as never) as Feature];
const facts = slot.factsOf(tip.id);
const read = (value: number, u: number): Entry => ({ value: { kind: 'measure', value }, sure: { kind: 'measured', u } });

describe('sizes entered more than once', () => {
  it('[Q1] of one size the eight best measured count, in their order; eight all do', () => {
    const nine = [0.03, 0.01, 0.05, 0.02, 0.04, 0.06, 0.01, 0.02, 0.03].map((u) => read(40, u));
    expect(weighable(tip, facts, nine)).toEqual(nine.filter((_, at) => at !== 5));
    const eight = nine.slice(0, 8);
    expect(weighable(tip, facts, eight)).toEqual(eight);
  });

  it('[Q1] a size entered without its uncertainty is taken as read to a nanometre: what lies a tenth of a thousandth beyond the limits is a slip', () => {
    const fact = facts.distinct.find((each) => each.kind === 'measure');
    if (fact?.kind !== 'measure') throw new Error('no size');
    const greatest = fact.nominal + fact.upper + (tip.wear?.above ?? 0);
    const of = (value: number): number =>
      enteredOf(tip, facts, [{ value: { kind: 'measure', value }, sure: { kind: 'seen' } }], 0.1).likelihood[
        facts.distinct.indexOf(fact)
      ] as number;
    expect(of(greatest + 1e-4)).toBeCloseTo(0.1, 12);
    expect(of(greatest - 1e-4)).toBeGreaterThan(1);
  });
});
