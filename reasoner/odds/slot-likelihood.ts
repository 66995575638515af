import type { Assumptions } from '../answer/assumptions.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import type { FactTable } from '../compile/fact-tables.ts';
import type { FeatureId } from '../ids.ts';
import type { Observation } from '../sheet/sheet.ts';
import { has } from './ascending.ts';
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
  /** What any listed part has in odds that know of no part but by these entries: as `ofPart`, and nothing of the unlisted one, the last. */
  readonly weights: Float64Array;
  /** By seat: chance of the entries, over the same. */
  readonly total: Float64Array;
}

export interface EnteredFeature extends Entered {
  readonly feature: Feature;
  readonly facts: FactTable;
  readonly entries: readonly Observation[];
  readonly slip: number;
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

/** Of slots nothing was entered of: the same for every sheet, as long as what is taken for granted is. */
const untouched = new WeakMap<Before, { full?: SlotLikelihood; absent?: SlotLikelihood }>();

/** @param entries weighable */
export const slotLikelihood = (
  atlas: CompiledAtlas,
  ground: SlotGround,
  entries: readonly Observation[],
  assumptions: Assumptions,
): SlotLikelihood => {
  const before = chancesBefore(ground.seats, ground.slot.parts.length, assumptions);
  if (entries.length > 0) return likelihoodOf(ground, before, enteredIn(atlas, ground, entries, assumptions.slip));
  const kept = untouched.get(before) ?? {};
  untouched.set(before, kept);
  const which = ground.absent ? 'absent' : 'full';
  kept[which] ??= likelihoodOf(ground, before, []);
  return kept[which];
};

const enteredIn = (atlas: CompiledAtlas, { slot }: SlotGround, entries: readonly Observation[], slip: number): EnteredFeature[] => {
  const byFeature = new Map<FeatureId, Observation[]>();
  for (const entry of entries) {
    const known = byFeature.get(entry.feature);
    if (known) known.push(entry);
    else byFeature.set(entry.feature, [entry]);
  }
  return [...byFeature].map(([id, own]): EnteredFeature => {
    const [feature, facts] = [atlas.features.get(id) as Feature, slot.factsOf(id)];
    return { feature, facts, entries: own, slip, ...enteredOf(feature, facts, own, slip) };
  });
};

const likelihoodOf = (ground: SlotGround, before: Before, entered: readonly EnteredFeature[]): SlotLikelihood => {
  const weights = new Float64Array(ground.slot.parts.length + 1).fill(1, 0, -1);
  const ofPart = weights.subarray(0, -1);
  for (const { facts, likelihood } of entered)
    for (let part = 0; part < ofPart.length; part += 1)
      ofPart[part] = (ofPart[part] as number) * (likelihood[facts.of[part] as number] as number);
  const ofUnlisted = entered.reduce((product, { silent }) => product * silent, 1);
  return { ...ground, before, entered, ofPart, ofUnlisted, weights, total: totalsOf(ground, before, ofPart, ofUnlisted) };
};

/** Seats share what the parts that fit weigh together, so the cost is of parts and of what fits beside some model, not of seats × parts. */
const totalsOf = (
  { slot, seats, patterns }: SlotGround,
  { own, unlisted, belonging, swappedIn: { fitting, misfit } }: Before,
  ofPart: Float64Array,
  ofUnlisted: number,
): Float64Array => {
  const ofClass = new Float64Array(slot.matingCount);
  let all = 0;
  for (let part = 0; part < ofPart.length; part += 1) {
    const mating = slot.matingOf[part] as number;
    ofClass[mating] = (ofClass[mating] as number) + (ofPart[part] as number);
    all += ofPart[part] as number;
  }
  const fittingIn = new Float64Array(patterns.length);
  patterns.forEach((fits, pattern) => {
    let sum = 0;
    for (let i = 0; i < fits.length; i += 1) sum += ofClass[fits[i] as number] as number;
    fittingIn[pattern] = sum;
  });
  const totals = new Float64Array(seats.length);
  for (let seat = 0; seat < totals.length; seat += 1) {
    const { listed, pattern, fits } = seats[seat] as Seat;
    let kept = 0;
    for (let i = 0; i < listed.length; i += 1) kept += ofPart[listed[i] as number] as number;
    const fit = fittingIn[pattern] as number;
    const misfits = (misfit[seat] as number) > 0 ? misfitting(all, fit, ofClass, fits) : 0;
    totals[seat] =
      (unlisted[seat] as number) * ofUnlisted +
      (own[seat] as number) * kept +
      (belonging[seat] as number) * all +
      (fitting[seat] as number) * fit +
      (misfit[seat] as number) * misfits;
  }
  return totals;
};

/** What is left of all parts without those that fit: added up one by one where the difference would be mere rounding. */
const misfitting = (all: number, fit: number, ofClass: Float64Array, fits: Int32Array): number => {
  if (all - fit > 1e-6 * all) return all - fit;
  let sum = 0;
  for (let mating = 0; mating < ofClass.length; mating += 1) if (!has(fits, mating)) sum += ofClass[mating] as number;
  return sum;
};
