import type { NameRule } from '../names/name-rule.ts';
import { allowedIn, judge } from '../names/status.ts';
import type { Observation } from '../sheet/sheet.ts';
import { type Group, isExcluded, soleExcluders, type Unit, type UnitSlot, unitOf } from '../unit/unit.ts';
import { unitWithout } from '../unit/unit-without.ts';

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

/** The same of a name that is ruled out. */
export const entriesRulingOut = (unit: Unit, rule: NameRule): Observation[] =>
  entriesThatCould(unit, rule).filter((entry) => judge(unitWithout(unit, entry), rule).status !== 'ruled out');

/**
 * The entries that could be all that rules a name out. One that could not need not be judged without: it keeps no part by itself out of its slot's candidates, so that
 * these are the same with it and without it, and does not tell whether something was machined, so that what these meet is the same too (J1); or the name is
 * ruled out in some slot whose candidates would still hold none of its parts.
 */
export const entriesThatCould = (unit: Unit, rule: NameRule): Observation[] => {
  const labels = new Map(unit.evidence.flatMap((each, label) => (each.kind === 'observation' ? [[each.observation, label]] : [])));
  const alone = (groups: UnitSlot['groups']): Set<number> => {
    const labels = new Set<number>();
    for (const group of groups) for (const label of soleExcluders(group)) labels.add(label);
    return labels;
  };
  const blocked = unit.slots.flatMap((slot) => {
    const { of, observations, absent } = slot;
    const demand = rule.demands[of.number] ?? null;
    // Of what a plate may be its entries speak together (O5): none is left out, and nothing is said by its listed plates alone.
    if (demand === null || rule.open.has(of.number) || rule.anyOf !== null || of.slot.group === 'plate') return [];
    if (observations.length === 0 && !absent) return [];
    const allowed = [...allowedIn(slot, demand).keys()].map((group) => slot.groups[group] as Group);
    return allowed.some((group) => !isExcluded(group)) ? [] : [alone(allowed)];
  });
  return unit.slots.flatMap(({ groups, observations, of, readings }) => {
    if (observations.length === 0) return [];
    const could = alone(groups);
    for (const { labels: own, tellsOfWork } of readings) if (tellsOfWork) for (const label of own) could.add(label);
    return observations.filter(({ id }) => {
      const label = labels.get(id) as number;
      return (could.has(label) || of.slot.group === 'plate') && blocked.every((each) => each.has(label));
    });
  });
};
