import { booleans, evaluate, type Factor } from '../algebra/evaluate.ts';
import { type Antichain, labelSets } from '../algebra/label-sets.ts';
import { conflictRing, cutToLimit, defaultLimit, type Enumeration } from '../algebra/network.ts';
import type { NameRule } from '../names/compile-names.ts';
import { jointFactors, type Unit, variables } from '../unit/unit.ts';
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

  const sets = labelSets(evidence.length + atlas.joints.length + atlas.slots.length);
  const ring = conflictRing(sets);
  const factors: Factor<Antichain>[] = jointFactors<Antichain>(atlas, variableOf, matings, ring.one, (joint) =>
    sets.of([jointLabel(joint)]),
  );
  labelsOf.forEach((values, variable) => {
    const excludedBy = values.map((labels) => labels.reduce<Antichain>((any, label) => sets.either(any, sets.of([label])), sets.none));
    factors.push({ scope: [variable], at: (chosen) => excludedBy[chosen[variable] as number] as Antichain });
  });
  const family = evaluate({ domains: sizes, factors }, ring);

  return cutToLimit(sets, family, limit, (kept) => {
    const keeps = new Set(kept);
    const allowed = labelsOf.map((values) => values.map((labels) => !labels.some((label) => keeps.has(label))));
    return !evaluate(
      {
        domains: sizes,
        factors: [
          ...jointFactors(atlas, variableOf, matings, true, (joint) => !keeps.has(jointLabel(joint))),
          ...allowed.map((values, variable) => ({
            scope: [variable],
            at: (chosen: readonly number[]) => values[chosen[variable] as number] as boolean,
          })),
        ],
      },
      booleans,
    );
  });
};
