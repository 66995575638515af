import { eliminate, type Table } from '../algebra/eliminate.ts';
import { defaultLimit, relaxationRing, smallestFirst } from '../algebra/network.ts';
import type { NameRule } from '../names/compile-names.ts';
import { allowedIn } from '../names/status.ts';
import { choiceExists, choosable, type Group, jointTables, selfConflictsOf, type Unit, type UnitSlot, variables } from '../unit/unit.ts';
import { valuesOf } from './values.ts';

export interface Swap {
  /** Slot numbers, ascending. */
  readonly slots: readonly number[];
  /** For each of them, part numbers that some honouring choice puts there. */
  readonly parts: readonly (readonly number[])[];
  readonly leaves: 'stands' | 'open';
}

/**
 * All minimal sets of slots whose parts, if replaced by parts the name allows and the neighbours take, stop the name from
 * being ruled out (S1). Joints and demands are kept throughout.
 */
export const swapsFor = (unit: Unit, rule: NameRule, limit = defaultLimit): { readonly found: Swap[]; readonly complete: boolean } => {
  const { atlas } = unit;
  const domains = unit.slots.map((slot, i) => {
    const demand = rule.demands[i] ?? null;
    return demand === null && slot.doubtful ? null : valuesOf(slot, demand, false);
  });
  if (domains.some((values) => values !== null && values.length === 0)) return { found: [], complete: true };
  const { variableOf, lists } = variables(domains);
  const slotOf = variableOf.flatMap((variable, slot) => (variable === null ? [] : [slot]));
  const matings = lists.map((list) => list.map(({ mating }) => mating));
  const listed = smallestFirst(atlas.slots.length, limit, (sets) => {
    const ring = relaxationRing(sets);
    const own = lists.map((list, variable): Table => {
      const replaced = sets.of([slotOf[variable] as number]);
      return { scope: [variable], worth: Int32Array.from(list, ({ violates }) => (violates.length === 0 ? ring.one : replaced)) };
    });
    const sizes = lists.map((list) => list.length);
    return eliminate(sizes, [...own, ...jointTables(atlas, variableOf, matings, ring.one, () => ring.zero)], ring);
  });
  return { complete: listed.complete, found: listed.found.map((slots) => swapOf(unit, rule, slots)) };
};

/** The mating classes each slot may have once some are replaced; parts outside the demands are left out. */
const afterSwap = (unit: Unit, rule: NameRule, replaced: ReadonlySet<number>): (number[] | null)[] =>
  unit.slots.map((slot, i) => {
    const demand = rule.demands[i] ?? null;
    if (demand === null && slot.doubtful) return null;
    const groups = replaced.has(i) ? slot.groups.map((_, g) => g) : slot.agreeing;
    const allowed = demand === null ? groups : groups.filter((group) => allowedIn(slot, demand).has(group));
    return [...new Set(allowed.map((group) => (slot.groups[group] as Group).mating))];
  });

const swapOf = (unit: Unit, rule: NameRule, slots: readonly number[]): Swap => {
  const matings = afterSwap(unit, rule, new Set(slots));
  const parts = slots.map((number) => {
    const slot = unit.slots[number] as UnitSlot;
    const possible = new Set(choosable(unit.atlas, matings, number));
    const demand = rule.demands[number] ?? null;
    const pool = demand === null ? slot.of.parts.map((_, part) => part) : [...demand].sort((a, b) => a - b);
    return pool.filter((part) => possible.has(slot.of.matingOf[part] as number));
  });
  return { slots, parts, leaves: standsAfter(unit, rule, slots, parts) ? 'stands' : 'open' };
};

/** Whether the name stands once each replaced slot holds one of the parts given for it. */
const standsAfter = (unit: Unit, rule: NameRule, slots: readonly number[], parts: readonly (readonly number[])[]): boolean => {
  const candidates = unit.slots.map((slot, i): readonly number[] => {
    const at = slots.indexOf(i);
    if (at >= 0) return parts[at] as readonly number[];
    return slot.agreeing.flatMap((group) => (slot.groups[group] as Group).parts);
  });
  const classes = (numbers: readonly number[], slot: number): number[] => [
    ...new Set(numbers.map((part) => unit.slots[slot]?.of.matingOf[part] as number)),
  ];
  const matings = candidates.map(classes);
  // Doubtful slots after the swap: those of the minimal conflicts the unit would still have with itself.
  const doubtful = new Set(selfConflictsOf(unit.atlas, matings).flat());
  return rule.demands.every((demand, slot) => {
    if (demand === null) return true;
    if (doubtful.has(slot)) return false;
    const others = (candidates[slot] as readonly number[]).filter((part) => !demand.has(part));
    if (others.length === 0) return true;
    const rest = matings.map((each, i) => (doubtful.has(i) ? null : i === slot ? classes(others, slot) : each));
    return !choiceExists(unit.atlas, rest);
  });
};
