import { thinned } from '../algebra/narrow.ts';
import type { Classes, Pairing } from '../algebra/pairing.ts';
import type { SlotAnswer } from '../answer/verdict.ts';
import type { CompiledJoint, CompiledSlot } from '../compile/compiled.ts';
import type { PartId } from '../ids.ts';
import { type Group, matingsOf, partsIn, type Unit, type UnitSlot } from '../unit/unit.ts';
import { machinedByReading } from './machined.ts';

/** What each slot may hold, what fell out of it and why (C1, J1, O3). */
export const slotAnswers = (unit: Unit): SlotAnswer[] => {
  const reasons = falls(unit);
  const machined = machinedByReading(unit);
  return unit.slots.map((slot, i) => {
    const live = new Set(slot.live);
    const idOf = (part: number): PartId => (slot.of.parts[part] as { id: PartId }).id;
    const candidates = partsIn(slot).sort((a, b) => a - b);
    return {
      slot: slot.of.data.id,
      candidates: candidates.map(idOf),
      listed: slot.of.parts.length,
      removedByObservations: slot.of.parts.length - partsIn(slot, slot.agreeing).length,
      removedByJoints: slot.agreeing
        .filter((group) => !live.has(group))
        .flatMap((group) =>
          (slot.groups[group] as Group).parts.map((part) => ({
            part: idOf(part),
            because: reasons[i]?.get((slot.groups[group] as Group).mating) ?? ({ kind: 'together' } as const),
          })),
        ),
      machined: machined[i] ?? [],
      silent: silentOf(slot, candidates).map(({ part, features }) => ({ part: idOf(part), features })),
      numberNotListed: slot.unlisted?.makers ?? null,
      doubtful: slot.doubtful && slot.of.parts.length > 0,
      absent: slot.absent,
    };
  });
};

/** O3: candidates the atlas says nothing about for some observed feature. */
const silentOf = (slot: UnitSlot, candidates: readonly number[]) => {
  const features = [...new Set(slot.observations.map(({ feature }) => feature))];
  const silent = features.map((feature) => {
    const table = slot.of.factsOf(feature);
    const unknown = table.distinct.map(({ kind }) => kind === 'not known');
    return { feature, of: table.of, unknown };
  });
  return candidates.flatMap((part) => {
    const own = silent.flatMap(({ feature, of, unknown }) => (unknown[of[part] as number] ? [feature] : []));
    return own.length > 0 ? [{ part, features: own }] : [];
  });
};

type Because = SlotAnswer['removedByJoints'][number]['because'];

/**
 * Propagation outside the doubtful slots to a fixed point: by slot, the mating classes that lost their last partner, with the first joint that
 * took it, joints in the atlas's order, round after round.
 */
const falls = (unit: Unit): Map<number, Because>[] => {
  const { atlas } = unit;
  const left = unit.slots.map((slot): Classes | null => (slot.doubtful ? null : matingsOf(slot, slot.agreeing)));
  const fallen = unit.slots.map(() => new Map<number, Because>());
  const revise = (joint: CompiledJoint, from: number, to: number): boolean => {
    const own = left[from] ?? null;
    const other = left[to] ?? null;
    // A plate whose number is not listed fits whatever it is on.
    if (own === null || other === null || unit.slots[to]?.unlisted !== null) return false;
    const kept = thinned(unit.space.pairings[joint.number] as Pairing, from, own, other);
    if (kept.length === own.length) return false;
    const because: Because = { kind: 'joint', joint: joint.data.id, other: (atlas.slots[to] as CompiledSlot).data.id };
    // What is kept stands in the order it had.
    let at = 0;
    for (const mating of own) {
      if (kept[at] === mating) at += 1;
      else fallen[from]?.set(mating, because);
    }
    left[from] = kept;
    return true;
  };
  for (let changed = true; changed; ) {
    changed = false;
    for (const joint of atlas.joints) {
      if (revise(joint, joint.a, joint.b)) changed = true;
      if (revise(joint, joint.b, joint.a)) changed = true;
    }
  }
  return fallen;
};
