import { thinned } from '../algebra/narrow.ts';
import type { Classes, Pairing } from '../algebra/pairing.ts';
import type { SlotAnswer, SlotCounts } from '../answer/verdict.ts';
import type { Fact } from '../atlas/atlas.ts';
import type { CompiledJoint, CompiledSlot } from '../compile/compiled.ts';
import type { FactTable } from '../compile/fact-tables.ts';
import type { PartId } from '../ids.ts';
import { keptFor } from '../plain/kept-for.ts';
import { type Group, matingsOf, partsIn } from '../unit/groups.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { machinedByReading } from './machined.ts';

/** What each slot may hold, what fell out of it and why (C1, J1, O3). */
export const slotAnswers = (unit: Unit): SlotAnswer[] => {
  const reasons = falls(unit);
  const machined = machinedByReading(unit);
  return unit.slots.map((slot, i) => {
    const candidates = partsIn(slot).sort((a, b) => a - b);
    return {
      ...saidOf(slot),
      candidates: candidates.map((part) => idOf(slot, part)),
      removedByJoints: slot.agreeing
        .filter((group) => slot.isLive[group] === 0)
        .flatMap((group) =>
          (slot.groups[group] as Group).parts.map((part) => ({
            part: idOf(slot, part),
            because: reasons[i]?.get((slot.groups[group] as Group).mating) ?? ({ kind: 'together' } as const),
          })),
        ),
      machined: machined[i] ?? [],
      silent: silentOf(slot, candidates).map(({ part, features }) => ({ part: idOf(slot, part), features })),
    };
  });
};

/** The same, counted. */
export const slotCounts = (unit: Unit): SlotCounts[] => {
  const machined = machinedByReading(unit);
  return unit.slots.map((slot, i) => ({
    ...saidOf(slot),
    left: slot.liveParts,
    only: slot.liveParts === 1 ? idOf(slot, partsIn(slot)[0] as number) : null,
    removedByJoints: partsCounted(slot, slot.agreeing) - slot.liveParts,
    machined: machined[i]?.length ?? 0,
    silent: slot.observations.some(({ feature }) => hasUnknown(slot.of.factsOf(feature))) ? silentOf(slot, partsIn(slot)).length : 0,
  }));
};

const saidOf = (slot: UnitSlot) => ({
  slot: slot.of.data.id,
  listed: slot.of.parts.length,
  removedByObservations: slot.of.parts.length - partsCounted(slot, slot.agreeing),
  numberNotListed: slot.unlisted?.makers ?? null,
  doubtful: slot.doubtful && slot.of.parts.length > 0,
  absent: slot.absent,
});

const idOf = (slot: UnitSlot, part: number): PartId => (slot.of.parts[part] as { id: PartId }).id;

const partsCounted = ({ groups: all }: UnitSlot, groups: readonly number[]): number =>
  groups.reduce((sum, group) => sum + (all[group] as Group).parts.length, 0);

const isUnknown = ({ kind }: Fact): boolean => kind === 'not known';

/** Whether the atlas is silent about some part; told once of each table. */
const hasUnknown = keptFor(({ distinct }: FactTable) => distinct.some(isUnknown));

/** O3: candidates the atlas says nothing about for some observed feature. */
const silentOf = (slot: UnitSlot, candidates: readonly number[]) => {
  const features = [...new Set(slot.observations.map(({ feature }) => feature))];
  const silent = features.map((feature) => {
    const table = slot.of.factsOf(feature);
    return { feature, of: table.of, unknown: table.distinct.map(isUnknown) };
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
