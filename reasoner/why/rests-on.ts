import type { Observation } from '../sheet/sheet.ts';
import { type Unit, unitOf } from '../unit/unit.ts';

/**
 * The entries each of which everything against something rests on (O7): judged anew without that one entry, it is no longer so.
 * In the order of the slots, then of the sheet.
 * @param entries those that could be
 * @param against whether it still speaks against a unit
 */
export const entriesItRestsOn = (unit: Unit, entries: readonly Observation[], against: (unit: Unit) => boolean): Observation[] =>
  entries.filter(
    (entry) => !against(unitOf(unit.atlas, { ...unit.sheet, observations: unit.sheet.observations.filter((each) => each !== entry) })),
  );

/**
 * The entries that keep some part out of a slot's candidates by themselves: without any other the candidates are the same as with it, and so is every status
 * that rests on them.
 */
export const entriesThatRemove = (unit: Unit): Observation[] => {
  const labels = new Map(unit.evidence.flatMap((each, label) => (each.kind === 'observation' ? [[each.observation, label]] : [])));
  return unit.slots.flatMap(({ groups, observations }) => {
    const alone = new Set(groups.flatMap(({ violates }) => (violates.length === 1 ? violates : [])));
    return observations.filter(({ id }) => alone.has(labels.get(id) as number));
  });
};
