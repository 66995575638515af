import type { Classes } from '../algebra/pairing.ts';
import type { NameRule } from '../compile/name-rule.ts';
import { keptFor } from '../plain/kept-for.ts';
import { matingsOf } from '../unit/groups.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { allowedLive } from './allowed.ts';
import type { ChoicesLeft } from './choices-left.ts';
import { type DemandTable, type Judged, namesTable } from './demand-table.ts';

/** What a set of parts comes to in a slot: how many of its parts are left, and their mating classes. */
interface Left {
  readonly parts: number;
  readonly classes: Classes;
}

/**
 * Names of the atlas that demand listed parts and nothing else, by number, judged by the sets of parts they share with others: on a large atlas of which little was read there are tens of
 * thousands that are open. Undefined of any other name, and of one that would have to be looked for.
 */
export const judgeListed = (unit: Unit, choices: ChoicesLeft): ((name: number) => Judged | undefined) => {
  const table = namesTable(unit.atlas);
  const { slots, sets, shapes, shapeOf, closed } = table;
  const sayings = sayingsOf(table);
  const { before } = choices;
  const left = slots.map(({ sets: own }, slot) => leftBefore(unit.slots[slot] as UnitSlot, own));
  const leftOf = (slot: number, set: number): Left => {
    const own = left[slot] as (Left | undefined)[];
    let found = own[set];
    if (found === undefined) {
      found = leftIn(unit.slots[slot] as UnitSlot, slots[slot]?.sets[set] as ReadonlySet<number>);
      own[set] = found;
    }
    return found;
  };
  /** Whether a choice is there still, with a part the name demands wherever it demands one. */
  const isThere = (choice: Int32Array, first: number): boolean => {
    const classes = choices.classesLeft();
    for (let slot = 0; slot < slots.length; slot += 1) {
      const each = choice[first + slot] as number;
      const flags = classes[slot] ?? null;
      const set = sets[first + slot] as number;
      if (flags !== null && flags[each] !== 1) return false;
      if (set !== -1 && !leftOf(slot, set).classes.includes(each)) return false;
    }
    return true;
  };
  const bits = slots.map((_, slot) => 2 ** slot);
  return (name) => {
    if (closed[name] === 0) return undefined;
    const shape = shapes[shapeOf[name] as number] as DemandTable['shapes'][number];
    const first = name * slots.length;
    let unsettled = 0;
    for (const slot of shape.slots) {
      const { unlisted, doubtful, liveParts } = unit.slots[slot] as UnitSlot;
      if (unlisted !== null) return undefined;
      const { parts } = leftOf(slot, sets[first + slot] as number);
      if (parts === 0) return table.ruledOut[name];
      if (doubtful || parts < liveParts) unsettled += bits[slot] as number;
    }
    if (unsettled === 0 && (shape.core || table.rules[name]?.name.rung === 'parts')) return sayings.of(name, 'stands', unsettled);
    // Without joints whatever is left goes together.
    const goes = unit.space.pairings.length === 0 || (before?.known[name] === 1 && isThere(before.classes, first));
    return goes ? sayings.of(name, 'open', unsettled) : undefined;
  };
};

/** Of a slot that has everything left, as most have when little was read, what sets of parts come to is the same for every unit; of any other it is worked out anew. */
const leftBefore = ({ groups, liveParts, of }: UnitSlot, sets: DemandTable['slots'][number]['sets']): (Left | undefined)[] =>
  liveParts === of.parts.length ? ofWhole(groups)(sets) : new Array(sets.length);

const ofWhole = keptFor((_: UnitSlot['groups']) =>
  keptFor((sets: DemandTable['slots'][number]['sets']): (Left | undefined)[] => new Array(sets.length)),
);

const leftIn = (slot: UnitSlot, set: ReadonlySet<number>): Left => {
  const { allowed, parts } = allowedLive(slot, set);
  return { parts, classes: matingsOf(slot, allowed) };
};

/** What was last said of each name, so that it is said again and not anew. */
class Sayings {
  readonly #table: DemandTable;
  readonly #last: (Judged | undefined)[];
  readonly #slots = new Map<number, readonly number[]>();

  constructor(table: DemandTable) {
    this.#table = table;
    this.#last = new Array(table.rules.length);
  }

  /** @param unsettled the slots look could settle, a bit for each */
  of(name: number, status: Judged['status'], unsettled: number): Judged {
    const slots = this.#slotsOf(unsettled);
    let said = this.#last[name];
    if (said?.status !== status || said.unsettled !== slots) {
      said = { rule: this.#table.rules[name] as NameRule, status, unsettled: slots, lacks: none };
      this.#last[name] = said;
    }
    return said;
  }

  #slotsOf(bits: number): readonly number[] {
    let slots = this.#slots.get(bits);
    if (slots === undefined) {
      slots = this.#table.slots.flatMap((_, slot) => (Math.floor(bits / 2 ** slot) % 2 === 1 ? [slot] : []));
      this.#slots.set(bits, slots);
    }
    return slots;
  }
}

const none: readonly never[] = [];

const sayingsOf = keptFor((table: DemandTable) => new Sayings(table));
