import type { Assumptions } from '../answer/assumptions.ts';
import type { CompiledSlot } from '../compile/compiled.ts';
import { keptFor } from '../plain/kept-for.ts';
import { LastFew } from '../plain/last-few.ts';
import { sameValue } from '../plain/same-value.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { type Before, chancesBefore } from './built.ts';
import { entriesThatCount } from './entries-that-count.ts';
import type { OddsGround } from './ground.ts';
import { type SlotLikelihood, slotGround, slotLikelihood } from './slot-likelihood.ts';

/** What one slot's likelihood hangs on beside the shares that `Before` hangs on. */
interface Held {
  readonly entered: readonly Observation[];
  readonly slip: number;
}

/** Of a slot so many are kept: with slips and without, of two sheets. Who enters something of one slot has left the others as they were. */
const mostKept = 4;

const lastOf = keptFor(
  (_: Before) =>
    new LastFew<Held, SlotLikelihood>(
      mostKept,
      (a, b) => a.slip === b.slip && a.entered.length === b.entered.length && a.entered.every((each, i) => sameValue(each, b.entered[i])),
    ),
);

/** By slot, its entries against its parts. What was told, or noted of a slot that holds nothing, is of no part of the unit. */
export const slotsOf = (ground: OddsGround, sheet: Sheet, assumptions: Assumptions): SlotLikelihood[] => {
  const absent = new Set(sheet.absent);
  return ground.atlas.slots.map((slot) => {
    ground.atlas.pulse();
    const empty = absent.has(slot.data.id);
    const entered = empty ? [] : sheet.observations.filter((each) => each.slot === slot.data.id && each.sure.kind !== 'told');
    return entered.length === 0 ? likelihoodOf(ground, slot, [], assumptions, empty) : lastLikelihood(ground, slot, entered, assumptions);
  });
};

const lastLikelihood = (
  ground: OddsGround,
  slot: CompiledSlot,
  entered: readonly Observation[],
  assumptions: Assumptions,
): SlotLikelihood => {
  const before = chancesBefore(ground.built.seats[slot.number] ?? [], slot.parts.length, assumptions);
  const { slip } = assumptions;
  return lastOf(before).of({ entered, slip }, () => likelihoodOf(ground, slot, entered, assumptions, false));
};

const likelihoodOf = (
  { atlas, built }: OddsGround,
  slot: CompiledSlot,
  entered: readonly Observation[],
  assumptions: Assumptions,
  empty: boolean,
): SlotLikelihood => slotLikelihood(atlas, slotGround(built, slot, empty), entriesThatCount(atlas, slot, entered), assumptions);
