import { eliminate, type Table } from '../algebra/eliminate.ts';
import { explainedConflicts, type LabelledNetwork } from '../algebra/explained.ts';
import { bySizeThenLabels, type Family, type LabelSets } from '../algebra/label-sets.ts';
import { conflictRing, type Enumeration, minimalHittingSets, smallestFirst } from '../algebra/network.ts';
import { slotAt } from '../atlas/compile.ts';
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
 * How far to go: the sets of at most so many members, which is what a person reads after an entry, or every one there is, of which the
 * smallest up to a number are given.
 */
export type Depth = { readonly kind: 'shortest'; readonly members: number } | { readonly kind: 'all'; readonly limit: number };

/** What a verdict goes to for the claimed name, and what it goes to for one name asked about. */
export const shortest: Depth = { kind: 'shortest', members: 4 };
export const longer: Depth = { kind: 'shortest', members: 6 };

/**
 * The minimal sets of observations, joints and demands that cannot all hold (K1), as labels of `membersOf`. Slots the name demands a
 * part of, and slots that are not doubtful, hold a listed part; a doubtful slot the name does not care for constrains nothing.
 */
export const conflictsFor = (unit: Unit, rule: NameRule, depth: Depth): Enumeration => {
  const question = questionOf(unit, rule);
  const quick = explainedConflicts(labelledNetwork(unit, question), depth.kind === 'all' ? Number.POSITIVE_INFINITY : depth.members);
  if (quick === null) return everyConflict(unit, question, depth.kind === 'all' ? depth.limit : 1);
  const found = quick.found.sort(bySizeThenLabels);
  if (depth.kind === 'all') return { found: found.slice(0, depth.limit), complete: found.length <= depth.limit };
  // A name ruled out by larger sets alone still gets its smallest.
  if (found.length === 0 && quick.leftOut) return conflictsFor(unit, rule, { kind: 'all', limit: 1 });
  return { found, complete: !quick.leftOut };
};

interface Question {
  readonly variableOf: readonly (number | null)[];
  readonly lists: readonly (readonly Value[])[];
  /** Per variable and value, the labels it violates. */
  readonly labelsOf: readonly (readonly (readonly number[])[])[];
  readonly jointLabel: (joint: number) => number;
  readonly labelCount: number;
}

const questionOf = (unit: Unit, rule: NameRule): Question => {
  const { atlas, evidence } = unit;
  const demandLabel = (slot: number): number => evidence.length + atlas.joints.length + slot;
  const domains = unit.slots.map((slot, i) => {
    const demand = rule.demands[i] ?? null;
    return demand === null && slot.doubtful ? null : valuesOf(slot, demand, true);
  });
  const { variableOf, lists } = variables<readonly Value[]>(domains);
  const slotOf = variableOf.flatMap((variable, slot) => (variable === null ? [] : [slot]));
  return {
    variableOf,
    lists,
    labelsOf: lists.map((list, variable) =>
      list.map(({ violates, againstDemand }) => (againstDemand ? [...violates, demandLabel(slotOf[variable] as number)] : violates)),
    ),
    jointLabel: (joint) => evidence.length + joint,
    labelCount: evidence.length + atlas.joints.length + atlas.slots.length,
  };
};

/** Every conflict, smallest first, by the general engine: for joints that tie more slots together than a turbocharger's do. */
const everyConflict = (unit: Unit, { variableOf, lists, labelsOf, jointLabel, labelCount }: Question, limit: number): Enumeration => {
  const matings = lists.map((list) => list.map(({ mating }) => mating));
  const withinSlots = labelsOf.flatMap((values) => minimalHittingSets(values, limit).found);
  const compute = (sets: LabelSets): Family => {
    const ring = conflictRing(sets);
    const own = labelsOf.map((values, variable): Table => {
      const excludedBy = values.map((labels) => labels.reduce<Family>((any, label) => sets.either(any, sets.of([label])), sets.none));
      return { scope: [variable], worth: Int32Array.from(excludedBy) };
    });
    const joints = jointTables(unit.atlas, variableOf, matings, ring.one, (joint) => sets.of([jointLabel(joint)]));
    return eliminate(
      lists.map((list) => list.length),
      [...own, ...joints],
      ring,
    );
  };
  return smallestFirst(labelCount, limit, compute, withinSlots);
};

const labelledNetwork = ({ atlas }: Unit, { variableOf, lists, labelsOf, jointLabel }: Question): LabelledNetwork => ({
  sizes: lists.map((list) => list.length),
  unary: labelsOf.flatMap((values, variable) =>
    [...new Set(values.flat())].map((label) => ({
      variable,
      label,
      allows: (value: number) => !(values[value] as readonly number[]).includes(label),
    })),
  ),
  binary: atlas.joints.flatMap(({ number, a, b, holds }) => {
    const [one, other] = [variableOf[a] ?? null, variableOf[b] ?? null];
    if (one === null || other === null) return [];
    const [rows, columns] = [lists[one] as readonly Value[], lists[other] as readonly Value[]];
    const width = slotAt(atlas, b).matingCount;
    const allows = (i: number, k: number): boolean => holds[(rows[i] as Value).mating * width + (columns[k] as Value).mating] === 1;
    return [{ a: one, b: other, label: jointLabel(number), allows }];
  }),
});
