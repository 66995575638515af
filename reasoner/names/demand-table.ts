import { type Lists, listsOf } from '../algebra/lists.ts';
import type { NameAnswer, Status } from '../answer/verdict.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import type { NameRule } from '../compile/name-rule.ts';
import type { Group } from '../unit/groups.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { rankOf } from './rank.ts';

export interface Judged {
  readonly rule: NameRule;
  readonly status: Status;
  /** Slot numbers; see `NameAnswer.unsettled` and `NameAnswer.lacks`. */
  readonly unsettled: readonly number[];
  readonly lacks: readonly number[];
  /** Of a name that is ruled out what is said of it while nobody asks why: the same for every unit. */
  readonly bare?: NameAnswer;
}

export const ruledOut = (rule: NameRule): Judged => ({
  rule,
  status: 'ruled out',
  unsettled: [],
  lacks: [],
  bare: { name: rule.name, status: 'ruled out', unsettled: [], lacks: [], conflicts: null, swaps: null },
});

/** What names demand, turned round, so that a unit is held against all of them by what its slots have left and not name by name. */
export interface DemandTable {
  readonly rules: readonly NameRule[];
  readonly numberOf: ReadonlyMap<NameRule, number>;
  /** Name after name, slot after slot: the number of the set of parts demanded there; −1 where none is, or the list is open-ended (A7). */
  readonly sets: Int32Array;
  readonly slots: readonly SlotDemands[];
  /** Names that demand something in the same slots, and whether any of those is of the core. */
  readonly shapes: readonly { readonly slots: readonly number[]; readonly names: readonly number[]; readonly core: boolean }[];
  readonly shapeOf: Int32Array;
  /** Whether a name has neither an open-ended list nor is one of several: all it demands is in its sets. */
  readonly closed: Uint8Array;
  readonly ruledOut: readonly Judged[];
}

/** The different sets of parts that names demand in one slot. */
interface SlotDemands {
  readonly sets: readonly ReadonlySet<number>[];
  readonly setsOfPart: Lists;
  readonly namesOfSet: Lists;
}

/** A unit held against names: a name is blocked where some slot holds nothing it demands there, which rules most names out. */
export interface HeldNames {
  /** The names, by number. */
  readonly rules: readonly NameRule[];
  readonly numberOf: ReadonlyMap<NameRule, number>;
  /** What is said of a name that is blocked; null of any other. */
  blocked(rule: NameRule): Judged | null;
  /** The numbers of the others, ascending. */
  unblocked(): readonly number[];
}

/** The names of the atlas, best first; those of one rank in the order of the atlas. */
export const rankedNames = (atlas: CompiledAtlas): readonly NameRule[] => namesTable(atlas).rules;

/** The unit held against every name of the atlas, best first. */
export const holdNames = (unit: Unit): HeldNames => held(unit, namesTable(unit.atlas));

/** The unit held against the names of families' parts that are of no one model, in the order of the atlas. */
export const holdFamilyParts = (unit: Unit): HeldNames => held(unit, familyPartsTable(unit.atlas));

const held = (unit: Unit, table: DemandTable): HeldNames => {
  const meets = meetsIn(unit, table);
  const wide = table.slots.length;
  const passes = (name: number): boolean => {
    const { slots } = table.shapes[table.shapeOf[name] as number] as DemandTable['shapes'][number];
    return slots.every((slot) => meets(slot, table.sets[name * wide + slot] as number));
  };
  return {
    rules: table.rules,
    numberOf: table.numberOf,
    blocked: (rule) => {
      const number = table.numberOf.get(rule);
      return number === undefined || passes(number) ? null : (table.ruledOut[number] as Judged);
    },
    unblocked: () => {
      const found: number[] = [];
      const few = table.shapes.map(({ slots }) => fewest(unit, slots));
      table.shapes.forEach(({ names }, shape) => {
        if (few[shape] === -1) for (const name of names) if (passes(name)) found.push(name);
      });
      for (const slot of new Set(few)) {
        if (slot === -1) continue;
        for (const name of namesHeld(unit.slots[slot] as UnitSlot, table.slots[slot] as SlotDemands)) {
          if (few[table.shapeOf[name] as number] === slot && passes(name)) found.push(name);
        }
      }
      return inOrder(found, table.rules.length);
    },
  };
};

/** Numbers below `count`, each once. */
const inOrder = (found: number[], count: number): readonly number[] => {
  if (found.length * 16 < count) return found.sort((a, b) => a - b);
  const flags = new Uint8Array(count);
  for (const each of found) flags[each] = 1;
  const ordered: number[] = [];
  for (let each = 0; each < count; each += 1) if (flags[each] === 1) ordered.push(each);
  return ordered;
};

/** Of these slots the one with the fewest parts left, so that names are found by what it holds; −1 where nothing was taken from any of them. */
const fewest = (unit: Unit, slots: readonly number[]): number => {
  let best = -1;
  for (const slot of slots) {
    const { liveParts, unlisted, of } = unit.slots[slot] as UnitSlot;
    if (unlisted !== null || liveParts === of.parts.length) continue;
    if (best === -1 || liveParts < (unit.slots[best] as UnitSlot).liveParts) best = slot;
  }
  return best;
};

/** The names that demand some set in which the slot holds a part, each once. */
function* namesHeld({ groups, live }: UnitSlot, { sets, setsOfPart, namesOfSet }: SlotDemands): Generator<number> {
  const met = new Uint8Array(sets.length);
  for (const group of live) {
    for (const part of (groups[group] as Group).parts) {
      for (let at = setsOfPart.first[part] as number; at < (setsOfPart.first[part + 1] as number); at += 1) {
        const set = setsOfPart.of[at] as number;
        if (met[set] === 1) continue;
        met[set] = 1;
        for (let i = namesOfSet.first[set] as number; i < (namesOfSet.first[set + 1] as number); i += 1) yield namesOfSet.of[i] as number;
      }
    }
  }
}

const [notAsked, isMet, isNot] = [0, 1, 2];

/** Whether the unit holds a part of a set in a slot; each is looked at once. A plate whose number is not listed may be what a name demands, whatever is listed (O5). */
const meetsIn = (unit: Unit, { slots }: DemandTable): ((slot: number, set: number) => boolean) => {
  const known = slots.map(({ sets }) => new Uint8Array(sets.length));
  return (slot, set) => {
    const flags = known[slot] as Uint8Array;
    if (flags[set] === notAsked) {
      const { groupOf, isLive, unlisted } = unit.slots[slot] as UnitSlot;
      let met = unlisted !== null;
      if (!met) {
        for (const part of slots[slot]?.sets[set] ?? []) {
          if (isLive[groupOf[part] as number] === 0) continue;
          met = true;
          break;
        }
      }
      flags[set] = met ? isMet : isNot;
    }
    return flags[set] === isMet;
  };
};

const byNames = new WeakMap<CompiledAtlas['names'], DemandTable>();
const byFamilyParts = new WeakMap<CompiledAtlas['familyParts'], DemandTable>();

export const namesTable = ({ names, slots }: CompiledAtlas): DemandTable => {
  let table = byNames.get(names);
  if (table === undefined) {
    const ranks = new Map(names.map((rule) => [rule, rankOf(rule.name)]));
    table = make(
      [...names].sort((a, b) => (ranks.get(a) as number) - (ranks.get(b) as number)),
      slots,
    );
    byNames.set(names, table);
  }
  return table;
};

const familyPartsTable = ({ familyParts, slots }: CompiledAtlas): DemandTable => {
  let table = byFamilyParts.get(familyParts);
  if (table === undefined) {
    table = make(
      familyParts.map(({ rule }) => rule),
      slots,
    );
    byFamilyParts.set(familyParts, table);
  }
  return table;
};

const make = (rules: readonly NameRule[], slots: readonly CompiledSlot[]): DemandTable => {
  const wide = slots.length;
  const sets = new Int32Array(rules.length * wide).fill(-1);
  const bySlot = slots.map(({ number: slot, parts }): SlotDemands => {
    const numbers = new Map<ReadonlySet<number>, number>();
    rules.forEach(({ demands, open }, name) => {
      const demand = demands[slot] ?? null;
      if (demand === null || open.has(slot)) return;
      const number = numbers.get(demand) ?? numbers.size;
      numbers.set(demand, number);
      sets[name * wide + slot] = number;
    });
    return {
      sets: [...numbers.keys()],
      setsOfPart: listsOf(parts.length, (say) => {
        for (const [demand, number] of numbers) for (const part of demand) say(part, number);
      }),
      namesOfSet: listsOf(numbers.size, (say) => {
        for (let name = 0; name < rules.length; name += 1) {
          const set = sets[name * wide + slot] as number;
          if (set !== -1) say(set, name);
        }
      }),
    };
  });
  const shapes = new Map<string, { number: number; slots: number[]; names: number[]; core: boolean }>();
  const shapeOf = Int32Array.from(rules, (_, name) => {
    const demanded = slots.flatMap(({ number: slot }) => (sets[name * wide + slot] === -1 ? [] : [slot]));
    const key = demanded.join();
    let shape = shapes.get(key);
    if (shape === undefined) {
      const core = demanded.some((slot) => slots[slot]?.data.group === 'core');
      shape = { number: shapes.size, slots: demanded, names: [], core };
      shapes.set(key, shape);
    }
    shape.names.push(name);
    return shape.number;
  });
  return {
    rules,
    numberOf: new Map(rules.map((rule, number) => [rule, number])),
    sets,
    slots: bySlot,
    shapes: [...shapes.values()],
    shapeOf,
    closed: Uint8Array.from(rules, ({ anyOf, open }) => (anyOf === null && open.size === 0 ? 1 : 0)),
    ruledOut: rules.map(ruledOut),
  };
};
