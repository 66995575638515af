import { type ChoiceSpace, consistent, type Domains, findChoiceWithin } from '../algebra/choices.ts';
import { flagsOf, those } from '../algebra/narrow.ts';
import type { Classes } from '../algebra/pairing.ts';
import type { NameRule } from '../compile/name-rule.ts';
import { keptFor } from '../plain/kept-for.ts';
import { matingsOf } from '../unit/groups.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { type DemandTable, namesTable } from './demand-table.ts';

export interface ChoicesLeft {
  /** Whether there is a choice of these groups of each slot; where none are named, of what is left of it, or of a doubtful slot of anything. */
  goTogether(rule: NameRule, groups: readonly (readonly number[] | null)[]): boolean;
  /** Choices that answered names of the atlas for other units whose parts met alike; they may be left or not. Null where parts meet otherwise than in any other unit. */
  readonly before: KeptChoices | null;
  /** By slot, which classes are left; null of a slot that may hold anything. */
  classesLeft(): readonly (Uint8Array | null)[];
}

/**
 * What is left of the unit is made consistent once; a name narrows a few slots of it, and only what follows from these is looked at. First are tried the last choice found, for names of
 * one model ask for much the same, and the choice that once answered the same name for another unit whose parts met alike.
 */
export const choicesLeft = (unit: Unit): ChoicesLeft => {
  const matings = new Map<readonly number[], Classes>();
  const matingsIn = (slot: number, groups: readonly number[]): Classes => {
    let found = matings.get(groups);
    if (found === undefined) {
      found = matingsOf(unit.slots[slot] as UnitSlot, groups);
      matings.set(groups, found);
    }
    return found;
  };
  let made: { readonly within: Domains | null } | undefined;
  const consistently = (): Domains | null => {
    made ??= {
      within: consistent(unit.space, {
        classes: unit.slots.map((slot, i) => (slot.doubtful || slot.unlisted !== null ? null : matingsIn(i, slot.live))),
      }),
    };
    return made.within;
  };
  /** Those of the classes that are left. Of a unit whose parts were not thinned out across its joints some may not be. */
  const ofThose = (slot: number, own: Classes, left: Classes): Classes => {
    const { live } = unit.slots[slot] as UnitSlot;
    if (left.length === matingsIn(slot, live).length) return own;
    return those(own, flagsOf(left, unit.space.counts[slot] as number));
  };
  const before = choicesOf(unit);
  let flags: readonly (Uint8Array | null)[] | undefined;
  const classesLeft: ChoicesLeft['classesLeft'] = () => {
    const within = consistently();
    flags ??= unit.space.counts.map((count, slot) => {
      if (within === null) return new Uint8Array(count);
      const classes = within.classes[slot] ?? null;
      return classes === null ? null : flagsOf(classes, count);
    });
    return flags;
  };
  /** Whether a class is left in a slot that nothing is asked of. */
  const isLeft = (slot: number, each: number): boolean => {
    const left = classesLeft()[slot] ?? null;
    return left === null || left[each] === 1;
  };
  const answers = (narrowed: ReadonlyMap<number, Classes>, choice: Int32Array | null | undefined): boolean =>
    choice?.every((each, slot) => narrowed.get(slot)?.includes(each) ?? isLeft(slot, each)) ?? false;
  let last: Int32Array | null = null;
  const goTogether: ChoicesLeft['goTogether'] = (rule, groups) => {
    const within = consistently();
    if (within === null) return false;
    const narrowed = new Map<number, Classes>();
    groups.forEach((own, slot) => {
      if (own === null) return;
      const left = within.classes[slot] ?? null;
      if (left !== null && own.length === unit.slots[slot]?.live.length) return;
      narrowed.set(slot, left === null ? matingsIn(slot, own) : ofThose(slot, matingsIn(slot, own), left));
    });
    if (answers(narrowed, last) || answers(narrowed, before?.of(rule))) return true;
    const choice = findChoiceWithin(unit.space, within, narrowed);
    if (choice === null) return false;
    last = choice;
    before?.keep(rule, choice);
    return true;
  };
  return { goTogether, before, classesLeft };
};

/** Of names of the atlas one choice each, by the number of the name. */
export class KeptChoices {
  readonly #numberOf: ReadonlyMap<NameRule, number>;
  readonly #slots: number;
  /** Name after name, the class of each slot, or −1. */
  readonly classes: Int32Array;
  /** Of which names there is one. */
  readonly known: Uint8Array;

  constructor({ numberOf, slots }: Pick<DemandTable, 'numberOf' | 'slots'>) {
    [this.#numberOf, this.#slots] = [numberOf, slots.length];
    this.classes = new Int32Array(numberOf.size * slots.length);
    this.known = new Uint8Array(numberOf.size);
  }

  of(rule: NameRule): Int32Array | undefined {
    const name = this.#numberOf.get(rule);
    return name === undefined || this.known[name] === 0 ? undefined : this.classes.subarray(name * this.#slots, (name + 1) * this.#slots);
  }

  keep(rule: NameRule, choice: Int32Array): void {
    const name = this.#numberOf.get(rule);
    if (name === undefined) return;
    this.classes.set(choice, name * this.#slots);
    this.known[name] = 1;
  }
}

/** Those for units in which no reading told of work: there parts meet as they do in any other. Null of any other unit. */
const choicesOf = ({ atlas, space }: Unit): KeptChoices | null =>
  atlas.joints.length === 0 || space !== atlas.found().space ? null : keptIn(space)(namesTable(atlas));

const keptIn = keptFor((_: ChoiceSpace) => keptFor((table: DemandTable) => new KeptChoices(table)));
