import type { NameRule } from '../names/name-rule.ts';
import type { Observation } from '../sheet/sheet.ts';
import { type Unit, type UnitSlot, unitOf } from '../unit/unit.ts';

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
 * The entries that could be all that rules a name out. One that could not need not be judged without: it keeps no part by itself out of its slot's candidates, so that
 * these are the same with it and without it; or the name is ruled out in some slot whose candidates would still hold none of its parts.
 */
export const entriesThatCould = (unit: Unit, rule: NameRule): Observation[] => {
  const labels = new Map(unit.evidence.flatMap((each, label) => (each.kind === 'observation' ? [[each.observation, label]] : [])));
  const alone = (groups: UnitSlot['groups']): Set<number> =>
    new Set(groups.flatMap(({ violates }) => (violates.length === 1 ? violates : [])));
  const blocked = unit.slots.flatMap(({ groups, of }) => {
    const demand = rule.demands[of.number] ?? null;
    // Of what a plate may be its entries speak together (O5): none is left out, and nothing is said by its listed plates alone.
    if (demand === null || rule.open.has(of.number) || rule.anyOf !== null || of.slot.group === 'plate') return [];
    const allowed = groups.filter(({ parts }) => parts.some((part) => demand.has(part)));
    return allowed.some(({ violates }) => violates.length === 0) ? [] : [alone(allowed)];
  });
  return unit.slots.flatMap(({ groups, observations, of }) => {
    const could = alone(groups);
    return observations.filter(({ id }) => {
      const label = labels.get(id) as number;
      return (could.has(label) || of.slot.group === 'plate') && blocked.every((each) => each.has(label));
    });
  });
};
