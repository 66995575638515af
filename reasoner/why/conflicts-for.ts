import { eliminate, type Table } from '../algebra/eliminate.ts';
import type { Family, LabelSets } from '../algebra/label-sets.ts';
import { conflictRing, defaultLimit, type Enumeration, minimalHittingSets, smallestFirst } from '../algebra/network.ts';
import type { NameRule } from '../names/compile-names.ts';
import { jointTables, type Unit, variables } from '../unit/unit.ts';
import type { Member } from '../verdict/verdict.ts';
import { type Value, valuesOf } from './values.ts';

/** The members of every conflict about one name, by label: the unit's evidence, the joints, the name's demands. */
export const membersOf = (unit: Unit, rule: NameRule): Member[] => [
  ...unit.evidence,
  ...unit.atlas.joints.map(({ joint }) => ({ kind: 'joint', joint: joint.id }) as const),
  ...unit.atlas.slots.map(({ slot }) => ({ kind: 'rule', name: rule.name.id, slot: slot.id }) as const),
];

/**
 * All minimal sets of observations, joints and demands that cannot all hold (K1), as labels of `membersOf`. Slots the name demands a
 * part of, and slots that are not doubtful, hold a listed part; a doubtful slot the name does not care for constrains nothing.
 */
export const conflictsFor = (unit: Unit, rule: NameRule, limit = defaultLimit): Enumeration => {
  const { atlas, evidence } = unit;
  const jointLabel = (joint: number): number => evidence.length + joint;
  const demandLabel = (slot: number): number => evidence.length + atlas.joints.length + slot;
  const domains = unit.slots.map((slot, i) => {
    const demand = rule.demands[i] ?? null;
    return demand === null && slot.doubtful ? null : valuesOf(slot, demand, true);
  });
  const { variableOf, lists } = variables<readonly Value[]>(domains);
  const slotOf = variableOf.flatMap((variable, slot) => (variable === null ? [] : [slot]));
  const labelsOf = lists.map((list, variable) =>
    list.map(({ violates, againstDemand }) => (againstDemand ? [...violates, demandLabel(slotOf[variable] as number)] : violates)),
  );
  const matings = lists.map((list) => list.map(({ mating }) => mating));
  const sizes = lists.map((list) => list.length);

  const labelCount = evidence.length + atlas.joints.length + atlas.slots.length;
  const withinSlots = labelsOf.flatMap((values) => minimalHittingSets(values, limit).found);
  const compute = (sets: LabelSets): Family => {
    const ring = conflictRing(sets);
    const own = labelsOf.map((values, variable): Table => {
      const excludedBy = values.map((labels) => labels.reduce<Family>((any, label) => sets.either(any, sets.of([label])), sets.none));
      return { scope: [variable], worth: Int32Array.from(excludedBy) };
    });
    return eliminate(sizes, [...own, ...jointTables(atlas, variableOf, matings, ring.one, (joint) => sets.of([jointLabel(joint)]))], ring);
  };
  return smallestFirst(labelCount, limit, compute, withinSlots);
};
