import type { Observation } from '../sheet/sheet.ts';
import type { Group } from './groups.ts';
import { doubtedUnit, type HeldSlot, heldAgainst, type Unit, type UnitSlot, unlistedIn } from './unit.ts';

/**
 * The unit with one entry taken back, for a question that is soon answered: whether a name is ruled out. Parts that agree with what is left stay even where no complete
 * choice has them, for no choice a name could make has them either. Only the entry's own slot is looked at anew; `evidence` still lists the entry, which now
 * excludes nothing.
 * @param entry an observation that counts as evidence
 */
export const unitWithout = (unit: Unit, entry: Observation): Unit => {
  const { atlas } = unit;
  const sheet = { ...unit.sheet, observations: unit.sheet.observations.filter((each) => each !== entry) };
  const label = unit.evidence.findIndex((each) => each.kind === 'observation' && each.observation === entry.id);
  const tells = unit.slots.some(({ readings }) => readings.some(({ labels, tellsOfWork }) => tellsOfWork && labels.includes(label)));
  if (tells) {
    // What it tells of work may be what keeps two parts from meeting (J1): nothing of the unit can be kept.
    const { of, slots } = heldAgainst(atlas, sheet);
    return doubtedUnit(of, slots);
  }
  return doubtedUnit(
    { ...unit, sheet },
    unit.slots.map((slot): HeldSlot => {
      if (slot.of.data.id !== entry.slot) return slot;
      const observations = slot.observations.filter((each) => each !== entry);
      return { ...slot, observations, unlisted: unlistedIn(atlas, sheet, slot.of, observations.length), groups: without(slot, label) };
    }),
  );
};

const without = ({ groups }: UnitSlot, label: number): Group[] => {
  const left = new Map<Group['violates'], Group['violates']>();
  return groups.map((group) => {
    if (!group.violates.includes(label)) return group;
    const violates = left.get(group.violates) ?? group.violates.filter((each) => each !== label);
    left.set(group.violates, violates);
    return { ...group, violates };
  });
};
