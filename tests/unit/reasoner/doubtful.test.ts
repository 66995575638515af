import { describe, expect, it } from 'vitest';
import { compileAtlas } from '../../../reasoner/index.ts';
import { liveWithin } from '../../../reasoner/names/status.ts';
import { type Unit, type UnitSlot, unitOf } from '../../../reasoner/unit/unit.ts';
import { blades, littleAtlas, marked, sheetOf } from './little-atlas.ts';

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
