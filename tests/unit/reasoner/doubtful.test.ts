import { describe, expect, it } from 'vitest';
import { answer, compileAtlas, type Observation, type Verdict } from '../../../reasoner/index.ts';
import { liveWithin } from '../../../reasoner/names/status.ts';
import { type Unit, type UnitSlot, unitOf } from '../../../reasoner/unit/unit.ts';
import { blades, chose, littleAtlas, marked, sheetOf } from './little-atlas.ts';

const atlas = compileAtlas(littleAtlas);
const slotOf = (unit: Unit, slot: string): UnitSlot => unit.slots.find(({ of }) => String(of.data.id) === slot) as UnitSlot;
const numbersOf = (slot: UnitSlot, ...ids: readonly string[]): ReadonlySet<number> =>
  new Set(ids.map((id) => slot.of.parts.findIndex((part) => String(part.id) === id)));

describe('whether what a slot may hold is all of one origin (N3)', () => {
  it('[N3] a slot that is not doubtful: all of its live parts, some, or none', () => {
    const housing = slotOf(unitOf(atlas, sheetOf([marked('housing.cast-name', 'QUAY AIR')])), 'housing');
    expect(housing.doubtful).toBe(false);
    expect(liveWithin(housing, numbersOf(housing, 'housing/cod'))).toEqual({ all: true, some: true });
    expect(liveWithin(housing, numbersOf(housing, 'housing/ling'))).toEqual({ all: false, some: false });
    const any = slotOf(unitOf(atlas, sheetOf([])), 'housing');
    expect(liveWithin(any, numbersOf(any, 'housing/cod'))).toEqual({ all: false, some: true });
    expect(liveWithin(any, null)).toEqual({ all: false, some: false });
  });

  it('[N3] a doubtful slot settles nothing, even where only one part agrees with what was seen of it', () => {
    // The housing named so is bored for 40 mm; the wheel of six blades has 50: not both are listed parts.
    const unit = unitOf(atlas, sheetOf([marked('housing.cast-name', 'QUAY AIR'), blades(6)]));
    const housing = slotOf(unit, 'housing');
    expect(housing.doubtful).toBe(true);
    expect(liveWithin(housing, numbersOf(housing, 'housing/cod'))).toEqual({ all: false, some: true });
    const wheel = slotOf(unit, 'wheel');
    expect(liveWithin(wheel, numbersOf(wheel, 'wheel/ling'))).toEqual({ all: false, some: true });
  });
});

describe('a slot of which the atlas lists no part at all', () => {
  const kept = ({ slot }: { readonly slot: string }): boolean => slot !== 'housing' && slot !== 'plate';
  const bare = compileAtlas({
    ...littleAtlas,
    parts: littleAtlas.parts.filter(kept),
    models: littleAtlas.models.map((model) => ({ ...model, allowed: model.allowed.filter(kept) })),
  });
  const verdictOf = (observations: readonly Observation[]): Verdict => {
    const found = answer(bare, sheetOf(observations), { explain: 'none' });
    if (found.kind !== 'verdict') throw new Error('this unit contradicts itself');
    return found;
  };
  const slots = ({ slots }: Verdict) =>
    Object.fromEntries(slots.map(({ slot, listed, doubtful }) => [slot, doubtful ? 'doubtful' : listed]));

  it('[A5] [K1] is no quarrel of the unit with itself, nor is the slot in doubt', () => {
    const found = verdictOf([blades(6)]);
    expect(found.unit).toEqual({ found: [], complete: true, independent: { count: 0, exact: true } });
    expect(found.findings).toEqual([]);
    expect(slots(found)).toEqual({ housing: 0, wheel: 3, shaft: 4, plate: 0 });
  });

  it('[K1] leaves the quarrel of the others what it is', () => {
    const found = verdictOf([chose('wheel.bore', '6'), chose('shaft.end', '7')]);
    expect(found.unit.found.map(({ slots }) => slots)).toEqual([['wheel', 'shaft']]);
    expect(slots(found)).toEqual({ housing: 0, wheel: 'doubtful', shaft: 'doubtful', plate: 0 });
  });
});
