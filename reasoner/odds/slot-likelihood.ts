import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot, FactTable } from '../atlas/compile.ts';
import type { FeatureId } from '../ids.ts';
import type { Observation } from '../sheet/sheet.ts';
import type { Assumptions } from './assumptions.ts';
import { type Before, type Built, chancesBefore, type Seat } from './built.ts';
import { type Entered, enteredOf } from './entered.ts';

/** One slot's entries against its parts, for every seat. */
export interface SlotLikelihood extends SlotGround {
  readonly before: Before;
  /** What was entered, by feature. */
  readonly entered: readonly EnteredFeature[];
  /** How likely the entries are of each part, over how likely they are when each is blind by itself; and the same of the unlisted one. */
  readonly ofPart: Float64Array;
  readonly ofUnlisted: number;
  /** By seat: chance of the entries, over the same. */
  readonly total: Float64Array;
}

export interface EnteredFeature extends Entered {
  readonly feature: Feature;
  readonly facts: FactTable;
  readonly entries: readonly Observation[];
}

/** What the entries of one slot are held against, whatever they are. */
export interface SlotGround {
  readonly slot: CompiledSlot;
  readonly seats: readonly Seat[];
  /** By number: what fits beside some model, mating classes. */
  readonly patterns: readonly Int32Array[];
  readonly absent: boolean;
}

export const slotGround = (built: Built, slot: CompiledSlot, absent: boolean): SlotGround => ({
  slot,
  seats: built.seats[slot.number] ?? [],
  patterns: built.patterns[slot.number] ?? [],
  absent,
});

/** @param entries weighable */
export const slotLikelihood = (
  atlas: CompiledAtlas,
  ground: SlotGround,
  entries: readonly Observation[],
  assumptions: Assumptions,
): SlotLikelihood => {
  const byFeature = new Map<FeatureId, Observation[]>();
  for (const entry of entries) {
    const known = byFeature.get(entry.feature);
    if (known) known.push(entry);
    else byFeature.set(entry.feature, [entry]);
  }
  const entered = [...byFeature].map(([id, own]): EnteredFeature => {
    const [feature, facts] = [atlas.features.get(id) as Feature, ground.slot.factsOf(id)];
    return { feature, facts, entries: own, ...enteredOf(feature, facts, own, assumptions.slip) };
  });
  const ofPart = new Float64Array(ground.slot.parts.length).fill(1);
  for (const { facts, likelihood } of entered)
    for (let part = 0; part < ofPart.length; part += 1)
      ofPart[part] = (ofPart[part] as number) * (likelihood[facts.of[part] as number] as number);
  const ofUnlisted = entered.reduce((product, { silent }) => product * silent, 1);
  const before = chancesBefore(ground.seats, ofPart.length, assumptions);
  return { ...ground, before, entered, ofPart, ofUnlisted, total: totalsOf(ground, before, ofPart, ofUnlisted) };
};

/** Seats share what the parts that fit weigh together, so the cost is of parts and of what fits beside some model, not of seats × parts. */
export const totalsOf = (
  { slot, seats, patterns }: SlotGround,
  { own, unlisted, belonging, swappedIn: { fitting, misfit } }: Before,
  ofPart: Float64Array,
  ofUnlisted: number,
): Float64Array => {
  const ofClass = new Float64Array(slot.matingCount);
  for (let part = 0; part < ofPart.length; part += 1) {
    const mating = slot.matingOf[part] as number;
    ofClass[mating] = (ofClass[mating] as number) + (ofPart[part] as number);
  }
  const all = ofClass.reduce((sum, each) => sum + each, 0);
  const fittingIn = patterns.map((fits) => fits.reduce((sum, mating) => sum + (ofClass[mating] as number), 0));
  return Float64Array.from(seats, ({ listed, pattern, fits }, seat) => {
    let kept = 0;
    for (let i = 0; i < listed.length; i += 1) kept += ofPart[listed[i] as number] as number;
    const fit = fittingIn[pattern] as number;
    const misfits = (misfit[seat] as number) > 0 ? misfitting(all, fit, ofClass, fits) : 0;
    return (
      (unlisted[seat] as number) * ofUnlisted +
      (own[seat] as number) * kept +
      (belonging[seat] as number) * all +
      (fitting[seat] as number) * fit +
      (misfit[seat] as number) * misfits
    );
  });
};

/** What is left of all parts without those that fit: added up one by one where the difference would be mere rounding. */
const misfitting = (all: number, fit: number, ofClass: Float64Array, fits: Int32Array): number => {
  if (all - fit > 1e-6 * all) return all - fit;
  const others = new Set(ofClass.keys());
  for (const mating of fits) others.delete(mating);
  return [...others].reduce((sum, mating) => sum + (ofClass[mating] as number), 0);
};
