import type { NameAnswer, Status } from '../answer/verdict.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import type { NameRule } from '../compile/name-rule.ts';
import { partsIn, type Unit } from '../unit/unit.ts';

export interface Judged {
  readonly rule: NameRule;
  readonly status: Status;
  /** Slot numbers; see `NameAnswer.unsettled` and `NameAnswer.lacks`. */
  readonly unsettled: readonly number[];
  readonly lacks: readonly number[];
  /** Of a name that is ruled out what is said of it while nobody asks why: the same for every unit. */
  readonly bare?: NameAnswer;
}

/** What the names of an atlas demand, by number, so that a unit is held against all of them by what it has left and not name by name. */
interface DemandTable {
  readonly numberOf: ReadonlyMap<NameRule, number>;
  /** Name after name, slot after slot: the number of the set of parts demanded there; −1 where none is, or the list is open-ended (A7). */
  readonly sets: Int32Array;
  /** By slot: how many different sets there are, and the sets each part is in: those of part p are `of[first[p]]` to `of[first[p + 1] − 1]`. */
  readonly slots: readonly { readonly count: number; readonly first: Int32Array; readonly of: Int32Array }[];
  readonly ruledOut: readonly Judged[];
}

/** The names of the atlas that a unit rules out because some slot holds nothing they demand there; null of a name it says nothing of. */
export const blockedIn = (unit: Unit): ((rule: NameRule) => Judged | null) => {
  const { numberOf, sets, slots, ruledOut } = tableOf(unit.atlas);
  const wide = slots.length;
  const some = slots.map(({ count, first, of }, slot) => {
    const held = unit.slots[slot];
    // A plate whose number is not listed may be what a name demands, whatever is listed (O5).
    if (held === undefined || held.unlisted !== null) return null;
    const met = new Uint8Array(count);
    for (const part of partsIn(held))
      for (let at = first[part] as number; at < (first[part + 1] as number); at += 1) met[of[at] as number] = 1;
    return met;
  });
  return (rule) => {
    const number = numberOf.get(rule);
    if (number === undefined) return null;
    for (let slot = 0; slot < wide; slot += 1) {
      const set = sets[number * wide + slot] as number;
      if (set >= 0 && some[slot]?.[set] === 0) return ruledOut[number] as Judged;
    }
    return null;
  };
};

export const ruledOut = (rule: NameRule): Judged => ({
  rule,
  status: 'ruled out',
  unsettled: [],
  lacks: [],
  bare: { name: rule.name, status: 'ruled out', unsettled: [], lacks: [], conflicts: null, swaps: null },
});

const tables = new WeakMap<CompiledAtlas['names'], DemandTable>();

const tableOf = ({ names, slots }: CompiledAtlas): DemandTable => {
  let table = tables.get(names);
  if (table === undefined) {
    table = make(names, slots);
    tables.set(names, table);
  }
  return table;
};

const make = (names: readonly NameRule[], slots: readonly CompiledSlot[]): DemandTable => {
  const sets = new Int32Array(names.length * slots.length).fill(-1);
  const bySlot = slots.map(({ number: slot, parts }) => {
    const numbers = new Map<ReadonlySet<number>, number>();
    names.forEach(({ demands, open }, name) => {
      const demand = demands[slot] ?? null;
      if (demand === null || open.has(slot)) return;
      const number = numbers.get(demand) ?? numbers.size;
      numbers.set(demand, number);
      sets[name * slots.length + slot] = number;
    });
    const first = new Int32Array(parts.length + 1);
    for (const demand of numbers.keys()) for (const part of demand) first[part + 1] = (first[part + 1] as number) + 1;
    for (let part = 0; part < parts.length; part += 1) first[part + 1] = (first[part + 1] as number) + (first[part] as number);
    const [at, of] = [first.slice(), new Int32Array(first[parts.length] as number)];
    for (const [demand, number] of numbers) {
      for (const part of demand) {
        of[at[part] as number] = number;
        at[part] = (at[part] as number) + 1;
      }
    }
    return { count: numbers.size, first, of };
  });
  return { numberOf: new Map(names.map((rule, number) => [rule, number])), sets, slots: bySlot, ruledOut: names.map(ruledOut) };
};
