import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../atlas/compile.ts';
import type { Observation } from '../sheet/sheet.ts';
import type { Assumptions } from './assumptions.ts';
import { type Before, chancesBefore, type Seat } from './built.ts';
import { likelihoodsOf } from './readings.ts';

/** One slot's observations against its parts, for every seat. */
export interface SlotLikelihood {
  readonly slot: CompiledSlot;
  readonly absent: boolean;
  readonly seats: readonly Seat[];
  readonly before: Before;
  /** How likely the observations are of each part, over how likely they are of the unlisted one (`Readings`). */
  readonly ofPart: Float64Array;
  /** By seat: chance of the observations. */
  readonly total: Float64Array;
}

/** Seats share what the parts of a mating class weigh together, so the cost is of parts and of what fits each seat, not of seats × parts. */
export const slotLikelihood = (
  atlas: CompiledAtlas,
  slot: CompiledSlot,
  seats: readonly Seat[],
  observations: readonly Observation[],
  absent: boolean,
  assumptions: Assumptions,
): SlotLikelihood => {
  const ofPart = new Float64Array(slot.parts.length).fill(1);
  for (const observation of observations) {
    const facts = slot.factsOf(observation.feature);
    const own = likelihoodsOf(atlas.features.get(observation.feature) as Feature, facts, observation, assumptions.slip);
    for (let part = 0; part < ofPart.length; part += 1) ofPart[part] = (ofPart[part] as number) * (own[facts.of[part] as number] as number);
  }
  const ofClass = new Float64Array(slot.matingCount);
  for (let part = 0; part < ofPart.length; part += 1) {
    const mating = slot.matingOf[part] as number;
    ofClass[mating] = (ofClass[mating] as number) + (ofPart[part] as number);
  }
  const before = chancesBefore(seats, assumptions);
  const total = new Float64Array(seats.length);
  for (let seat = 0; seat < seats.length; seat += 1) {
    const { listed, fits } = seats[seat] as Seat;
    let fitting = 0;
    for (let i = 0; i < fits.length; i += 1) fitting += ofClass[fits[i] as number] as number;
    let kept = 0;
    for (let i = 0; i < listed.length; i += 1) kept += ofPart[listed[i] as number] as number;
    total[seat] = (before.unlisted[seat] as number) + (before.swappedIn[seat] as number) * fitting + (before.own[seat] as number) * kept;
  }
  return { slot, absent, seats, before, ofPart, total };
};
