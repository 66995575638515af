import { dualize } from '../algebra/dualize.ts';
import { defaultLimit } from '../algebra/enumeration.ts';
import type { Classes } from '../algebra/pairing.ts';
import type { Status } from '../answer/verdict.ts';
import { type NameRule, notBarred } from '../compile/name-rule.ts';
import { allowedIn } from '../names/allowed.ts';
import { judge } from '../names/status.ts';
import { beside } from '../unit/beside.ts';
import { classOf, matingsOf } from '../unit/groups.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { unitWith } from '../unit/unit-with.ts';
import { choiceExists, choosable } from '../unit/within.ts';
import { holdsListed } from './question-of.ts';

export interface Swap {
  /** Slot numbers, ascending. */
  readonly slots: readonly number[];
  /** For each of them, part numbers that some honouring choice puts there. */
  readonly parts: readonly (readonly number[])[];
  readonly leaves: Status;
}

/** Told of each swap with the unit as it is once it is made; such units are large and are not kept. */
export type SwapMade = (swap: Swap, after: Unit) => void;

/** The unit as it would be once these slots hold one of the parts given for each. */
export type Swapped = (unit: Unit, parts: ReadonlyMap<number, readonly number[]>) => Unit;

/**
 * All minimal sets of slots whose parts, if replaced by parts the name allows and the neighbours take, stop the name from
 * being ruled out (S1). Joints and demands are kept throughout, and the doubtful slots are those of the unit as found. What a swap leaves
 * is judged anew: replacing a part can settle a doubt elsewhere, and what was excused by the doubt may then speak against the name.
 */
export const swapsFor = (
  unit: Unit,
  rule: NameRule,
  swapped: Swapped = unitWith,
  limit = defaultLimit,
  made: SwapMade = () => {},
): { readonly found: Swap[]; readonly complete: boolean } => {
  // Each slot with its own parts kept, and with any the name allows; of a name that is one of several, for each of those.
  const ways = (rule.anyOf ?? [rule]).flatMap((one) => {
    const [kept, any] = [afterSwap(unit, one, new Set()), afterSwap(unit, one, new Set(unit.slots.keys()))];
    return any.some((classes) => classes !== null && classes.length === 0) ? [] : [{ kept, any }];
  });
  if (ways.length === 0) return { found: [], complete: true };
  const slots = [...unit.slots.keys()].filter((slot) => ways.some(({ any }) => any[slot] !== null));
  const { relaxations, complete } = dualize(
    slots.length,
    (held) => {
      unit.atlas.pulse();
      const replaced = new Set(slots.filter((_, i) => held[i] === 0));
      const within = beside(unit, replaced);
      return ways.some(({ kept, any }) =>
        choiceExists(
          within,
          kept.map((classes, slot) => (replaced.has(slot) ? (any[slot] ?? null) : classes)),
        ),
      );
    },
    limit,
  );
  const listed = relaxations.map((set) => set.map((i) => slots[i] as number));
  return { complete, found: listed.map((each) => swapOf(unit, rule, each, swapped, made)) };
};

/** The mating classes each slot may have once some are replaced; parts outside the demands are left out. */
const afterSwap = (unit: Unit, rule: NameRule, replaced: ReadonlySet<number>): (Classes | null)[] =>
  unit.slots.map((slot, i) => {
    if (!holdsListed(slot, rule)) return null;
    const demand = notBarred(slot.of, rule);
    const groups = replaced.has(i) ? slot.groups.map((_, g) => g) : slot.agreeing;
    const counts = demand === null ? null : allowedIn(slot, demand);
    const allowed = counts === null ? groups : groups.filter((group) => counts.has(group));
    return matingsOf(slot, allowed);
  });

const swapOf = (unit: Unit, rule: NameRule, slots: readonly number[], swapped: Swapped, made: SwapMade): Swap => {
  unit.atlas.pulse();
  const parts = slots.map((number) => {
    const all = (rule.anyOf ?? [rule]).flatMap((one) => partsPut(unit, one, new Set(slots), number));
    return [...new Set(all)].sort((a, b) => a - b);
  });
  const after = swapped(unit, new Map(slots.map((slot, i) => [slot, parts[i] as readonly number[]])));
  const swap = { slots, parts, leaves: judge(after, rule).status };
  made(swap, after);
  return swap;
};

/** The parts known to belong that some honouring choice puts in a replaced slot; where the name asks nothing of it, any part that fits. */
const partsPut = (unit: Unit, rule: NameRule, replaced: ReadonlySet<number>, number: number): number[] => {
  const slot = unit.slots[number] as UnitSlot;
  const possible = new Set(choosable(beside(unit, replaced), afterSwap(unit, rule, replaced), number));
  const demand = rule.demands[number] ?? null;
  const pool = demand === null ? [...slot.of.parts.keys()] : [...demand];
  return pool.filter((part) => possible.has(classOf(slot, part)));
};
