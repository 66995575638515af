import type { NameRule } from '../compile/name-rule.ts';
import type { ObservationId } from '../ids.ts';
import { allowedIn } from '../names/allowed.ts';
import { judge } from '../names/status.ts';
import type { Observation } from '../sheet/sheet.ts';
import { type Group, isExcluded, soleExcluders } from '../unit/groups.ts';
import { type Unit, type UnitSlot, unitOf } from '../unit/unit.ts';
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
 * The entries without which something could be left that is not: one keeps a part by itself out of its slot's candidates, or tells whether something was machined and so what it
 * meets (J1), or is of the plate, where all entries speak together of what it may be (O5). Without any other all candidates are the same.
 */
export const entriesThatNarrow = (unit: Unit): Observation[] => {
  const labelOf = labelsOf(unit);
  return unit.slots.flatMap(({ groups, observations, of, readings }) => {
    if (observations.length === 0 || of.data.group === 'plate') return observations;
    const could = alone(groups);
    for (const { labels, tellsOfWork } of readings) if (tellsOfWork) for (const label of labels) could.add(label);
    return observations.filter(({ id }) => could.has(labelOf.get(id) as number));
  });
};

/** Those of them that could be all that rules a name out: where it is ruled out in a slot whose candidates hold none of its parts, they must be what keeps one out. */
const entriesThatCould = (unit: Unit, rule: NameRule): Observation[] => {
  const labelOf = labelsOf(unit);
  const blocked = unit.slots.flatMap((slot) => {
    const { of, observations, absent } = slot;
    const demand = rule.demands[of.number] ?? null;
    // Of a plate nothing is said by its listed parts alone.
    if (demand === null || rule.open.has(of.number) || rule.anyOf !== null || of.data.group === 'plate') return [];
    if (observations.length === 0 && !absent) return [];
    const allowed = [...allowedIn(slot, demand).keys()].map((group) => slot.groups[group] as Group);
    return allowed.some((group) => !isExcluded(group)) ? [] : [alone(allowed)];
  });
  return entriesThatNarrow(unit).filter(({ id }) => blocked.every((each) => each.has(labelOf.get(id) as number)));
};

const labelsOf = ({ evidence }: Unit): ReadonlyMap<ObservationId, number> =>
  new Map(evidence.flatMap((each, label) => (each.kind === 'observation' ? [[each.observation, label] as const] : [])));

const alone = (groups: UnitSlot['groups']): Set<number> => {
  const labels = new Set<number>();
  for (const group of groups) for (const label of soleExcluders(group)) labels.add(label);
  return labels;
};
