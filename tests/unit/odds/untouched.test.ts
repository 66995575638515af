import { describe, expect, it } from 'vitest';
import { compileAtlas, type Observation, type OddsAnswer, oddsOf, type Sheet, startingAssumptions } from '../../../reasoner/index.ts';
import { groundOf } from '../../../reasoner/odds/ground.ts';
import { posteriorOf } from '../../../reasoner/odds/posterior.ts';
import { weighAll } from '../../../reasoner/odds/weigh-checks.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const found = demoPack.sheets.find(({ id }) => id === 's07-true-petrel') as Sheet;
const untouched: Sheet = { ...found, observations: [], absent: [], unseen: [] };
const [first] = found.observations as [Observation];
const without = (answer: OddsAnswer) => ({ ...answer, checks: null });
const dropsOf = (answer: OddsAnswer) => (answer.kind === 'odds' ? answer.checks.map(({ feature, drop }) => [feature, drop] as const) : []);

describe('nothing seen', () => {
  it('[Q1] is weighed once, and again where something counts, a slot is empty or other shares are taken for granted', () => {
    const ground = groundOf(demo);
    const of = (sheet: Sheet, assumptions = startingAssumptions) => posteriorOf(ground, sheet, assumptions);
    const { joint } = of(untouched);
    const told: Observation = { ...first, sure: { kind: 'told' } };
    expect(of({ ...untouched, title: 'another' }).joint).toBe(joint);
    expect(of({ ...untouched, observations: [told] }).joint).toBe(joint);
    expect(of({ ...untouched, observations: [first] }).joint).not.toBe(joint);
    expect(of({ ...untouched, absent: [first.slot] }).joint).not.toBe(joint);
    for (const share of Object.keys(startingAssumptions)) {
      const others = { ...startingAssumptions, [share]: 0.03 };
      expect(of(untouched, others).assumptions).toBe(others);
      expect(of(untouched).joint, share).not.toBe(of(untouched, others).joint);
    }
    const [look, again] = [weighAll(of(untouched)), weighAll(of({ ...untouched, title: 'one more' }))];
    expect(look.length).toBeGreaterThan(100);
    for (const [at, each] of look.entries()) expect(each).toBe(again[at]);
  });

  it('[Q1] says what a newly opened atlas says, whatever was asked before: of a slot that is empty, of what could not be seen, of other shares', () => {
    const others = { ...startingAssumptions, slip: 0.2, stranger: 0.2 };
    const refused: Sheet = { ...untouched, unseen: [{ slot: first.slot, feature: first.feature, why: 'may not be opened' }] };
    const empty: Sheet = { ...untouched, absent: [first.slot] };
    const asked = [untouched, refused, empty, { ...untouched, observations: [first] }, found];
    for (const assumptions of [startingAssumptions, others, startingAssumptions])
      for (const sheet of asked) {
        const [kept, fresh] = [oddsOf(demo, { ...sheet }, assumptions), oddsOf(compileAtlas(demo.data), { ...sheet }, assumptions)];
        expect(without(kept)).toEqual(without(fresh));
        expect(dropsOf(kept).map(([feature]) => feature)).toEqual(dropsOf(fresh).map(([feature]) => feature));
        // In what order sums are made may leave rounding behind.
        for (const [at, [feature, drop]] of dropsOf(kept).entries())
          expect(drop, feature).toBeCloseTo(dropsOf(fresh)[at]?.[1] as number, 11);
      }
  });
});
