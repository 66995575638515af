import type { CompiledSlot } from '../atlas/compile.ts';
import type { Demand } from '../names/compile-names.ts';
import { allowedIn } from '../names/status.ts';
import type { Group, UnitSlot } from '../unit/unit.ts';

/** One way to fill a slot, as far as a question about a name can tell it from others. */
export interface Value {
  readonly group: number;
  /** Evidence labels it violates. */
  readonly violates: readonly number[];
  /** Whether it also violates the name's demand on the slot. */
  readonly againstDemand: boolean;
  readonly mating: number;
}

/**
 * The ways to fill a slot that matter: a value that violates all another violates, and fails wherever that one fails, can be left
 * out, since whatever excludes the other excludes it too, and whatever it costs the other costs no more.
 * @param keepOthers whether parts the name does not allow take part (they do in conflicts, not in swap sets)
 */
export const valuesOf = (slot: UnitSlot, demand: Demand, keepOthers: boolean): Value[] => {
  const better = dominators(slot);
  const value = (group: number, againstDemand: boolean): Value => {
    const { violates, mating } = slot.groups[group] as Group;
    return { group, violates, againstDemand, mating };
  };
  if (demand === null) return slot.groups.flatMap((_, g) => ((better[g] as readonly number[]).length > 0 ? [] : [value(g, false)]));
  const counts = allowedIn(slot, demand);
  const values: Value[] = [];
  slot.groups.forEach((group, g) => {
    const over = better[g] as readonly number[];
    const allowed = counts.get(g) ?? 0;
    if (allowed > 0 && !over.some((o) => counts.has(o))) values.push(value(g, false));
    if (!keepOthers || allowed > 0 || over.some((o) => counts.has(o) || holdsOthers(slot, counts, o))) return;
    if (group.parts.length > 0) values.push(value(g, true));
  });
  return values;
};

const holdsOthers = (slot: UnitSlot, counts: ReadonlyMap<number, number>, group: number): boolean =>
  (slot.groups[group] as Group).parts.length > (counts.get(group) ?? 0);

const remembered = new WeakMap<UnitSlot, readonly (readonly number[])[]>();

/** For every group, the groups that are at least as good everywhere; of equals, the first alone. */
const dominators = (slot: UnitSlot): readonly (readonly number[])[] => {
  const known = remembered.get(slot);
  if (known) return known;
  const made = slot.groups.map((worse, w) =>
    slot.groups.flatMap((better, b) =>
      b !== w && atLeastAsGood(slot.of, better, worse) && !(b > w && atLeastAsGood(slot.of, worse, better)) ? [b] : [],
    ),
  );
  remembered.set(slot, made);
  return made;
};

const atLeastAsGood = (of: CompiledSlot, better: Group, worse: Group): boolean =>
  better.violates.length <= worse.violates.length &&
  of.permits[better.mating * of.matingCount + worse.mating] === 1 &&
  better.violates.every((label) => worse.violates.includes(label));
