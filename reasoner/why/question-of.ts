import { findChoice } from '../algebra/choices.ts';
import { remembersNarrowing } from '../algebra/narrow.ts';
import { type Classes, meet, type Pairing } from '../algebra/pairing.ts';
import { remembering } from '../algebra/remembering.ts';
import type { CompiledJoint } from '../compile/compiled.ts';
import { type NameRule, notBarred } from '../compile/name-rule.ts';
import { constrainsNothing } from '../names/status.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { type Kind, kindsOf } from './kinds-of-parts.ts';

/** Which of a name's members can be kept together (K1). */
export interface Question {
  /** Labels that could matter, ascending; the question numbers them anew. */
  readonly labels: readonly number[];
  readonly consistent: (kept: Uint8Array) => boolean;
}

/** Of a name that is one of several, labels can be kept together when they can for one of the several (N4). */
export const questionOf = (unit: Unit, rule: NameRule): Question => {
  if (rule.anyOf === null) return questionOfOne(unit, rule);
  const questions = rule.anyOf.map((one) => questionOf(unit, one));
  const labels = [...new Set(questions.flatMap((question) => question.labels))].sort((a, b) => a - b);
  const numberOf = new Map(labels.map((label, i) => [label, i]));
  const own = questions.map((question) => ({
    question,
    at: question.labels.map((label) => numberOf.get(label) as number),
    kept: new Uint8Array(question.labels.length),
  }));
  return {
    labels,
    consistent: (kept) =>
      own.some(({ question, at, kept: part }) => {
        for (let i = 0; i < at.length; i += 1) part[i] = kept[at[i] as number] as number;
        return question.consistent(part);
      }),
  };
};

const questionOfOne = (unit: Unit, rule: NameRule): Question => {
  const { atlas, evidence } = unit;
  const { space, pairings } = unit.loosened();
  const demandLabel = (slot: number): number => evidence.length + atlas.joints.length + slot;
  const included = unit.slots.map((slot) => holdsListed(slot, rule));
  const kinds = unit.slots.map((slot, i) => (included[i] ? kindsOf(slot, notBarred(slot.of, rule), demandLabel(i)) : []));
  // A plate whose number is not listed fits everything and violates nothing but what the name asks of the plate (O5).
  const plate = unit.slots.findIndex((slot, i) => slot.unlisted !== null && included[i] === true);
  // A pairing counts where its joint is kept, and every reading it rests on.
  const asked = pairings.flatMap(({ joint, needs }, pairing) => {
    const { a, b } = atlas.joints[joint] as CompiledJoint;
    return included[a] && included[b] ? [{ pairing, needs: [evidence.length + joint, ...needs] }] : [];
  });
  const labels = [
    ...new Set([
      ...(plate < 0 ? [] : [demandLabel(plate)]),
      ...kinds.flatMap((own) => own.flatMap(({ violates, violatesTogether }) => [...violates, ...violatesTogether.flat()])),
      ...asked.flatMap(({ needs }) => needs),
    ]),
  ].sort((a, b) => a - b);
  const numberOf = new Map(labels.map((label, i) => [label, i]));
  const numbered = (own: readonly number[]): number[] => own.map((label) => numberOf.get(label) as number);
  const slots = kinds.map((own, i) => new AskedSlot(own, unit.slots[i] as UnitSlot, numbered));
  const needed = asked.map(({ pairing, needs }) => ({
    number: pairing,
    pairing: space.pairings[pairing] as Pairing,
    labels: numbered(needs),
  }));
  const plateAsked = plate < 0 ? -1 : (numberOf.get(demandLabel(plate)) as number);
  const active = new Uint8Array(space.pairings.length);
  const revise = remembersNarrowing();
  const search = (kept: Uint8Array): readonly number[] | null => {
    for (const { number, labels: all } of needed) active[number] = allKept(all, kept) ? 1 : 0;
    const free = (slot: number): boolean => !included[slot] || (slot === plate && kept[plateAsked] === 0);
    const choice = findChoice(space, { classes: slots.map((slot, i) => (free(i) ? null : slot.classes(kept))), active, revise });
    if (choice === null) return null;
    const given = slots.flatMap((slot, i) => (free(i) ? [] : slot.givenUp(choice[i] as number, kept)));
    for (const { number, pairing, labels: all } of needed) {
      if (active[number] === 1) continue;
      const [one, other] = [choice[pairing.a] as number, choice[pairing.b] as number];
      if (one >= 0 && other >= 0 && !meet(pairing, one, other)) given.push(oneGiven(all, kept));
    }
    if (plate >= 0 && kept[plateAsked] === 0) given.push(plateAsked);
    return given;
  };
  return { labels, consistent: remembering(labels.length, search) };
};

/** Parts of a slot alike in what they violate: they may be chosen when none of these is kept. */
interface Excused {
  /** Indices of the question's labels. */
  readonly unless: readonly number[];
  /** Sets of them, of each of which one must not be kept. */
  readonly unlessAll: readonly (readonly number[])[];
  readonly classes: Classes;
}

/** So many sets of kinds of one slot are kept put together. */
const mostJoined = 64;

/** A slot as the question sees it: which of its mating classes are open, by what is kept. */
class AskedSlot {
  readonly #kinds: readonly Excused[];
  readonly #seen: Uint8Array;
  readonly #joined = new Map<string, Classes>();

  constructor(kinds: readonly Kind[], { matingCount }: UnitSlot, numbered: (labels: readonly number[]) => readonly number[]) {
    this.#kinds = kinds.map(({ violates, violatesTogether, classes }) => ({
      unless: numbered(violates),
      unlessAll: violatesTogether.map(numbered),
      classes,
    }));
    this.#seen = new Uint8Array(matingCount);
  }

  /** The classes of the kinds that are open, those of parts that violate least first, each once. The same kinds give the same list. */
  classes(kept: Uint8Array): Classes {
    const kinds = this.#kinds;
    let key = '';
    for (let from = 0; from < kinds.length; from += 16) {
      let bits = 0;
      for (let i = from; i < kinds.length && i < from + 16; i += 1) bits = bits * 2 + (isOpen(kinds[i] as Excused, kept) ? 1 : 0);
      key += String.fromCharCode(bits);
    }
    let all = this.#joined.get(key);
    if (all === undefined) {
      all = this.#join(kinds.filter((kind) => isOpen(kind, kept)));
      if (this.#joined.size >= mostJoined) this.#joined.clear();
      this.#joined.set(key, all);
    }
    return all;
  }

  /** Labels not kept that a part of this class gives up: of those of its parts that may be chosen, what violates least. */
  givenUp(each: number, kept: Uint8Array): readonly number[] {
    const kind = this.#kinds.find((one) => isOpen(one, kept) && one.classes.includes(each)) as Excused;
    // Of what together rules a part out one that is not kept is enough.
    return kind.unlessAll.length === 0 ? kind.unless : [...kind.unless, ...kind.unlessAll.map((all) => oneGiven(all, kept))];
  }

  #join(kinds: readonly Excused[]): Classes {
    const [first, ...others] = kinds;
    if (first !== undefined && others.length === 0) return first.classes;
    const all = new Int32Array(this.#seen.length);
    let count = 0;
    for (const { classes } of kinds) {
      for (const each of classes) {
        if (this.#seen[each] === 1) continue;
        this.#seen[each] = 1;
        all[count] = each;
        count += 1;
      }
    }
    this.#seen.fill(0);
    return all.slice(0, count);
  }
}

const isOpen = ({ unless, unlessAll }: Excused, kept: Uint8Array): boolean => {
  for (let i = 0; i < unless.length; i += 1) if (kept[unless[i] as number] === 1) return false;
  for (let i = 0; i < unlessAll.length; i += 1) if (allKept(unlessAll[i] as readonly number[], kept)) return false;
  return true;
};

const allKept = (labels: readonly number[], kept: Uint8Array): boolean => {
  for (let i = 0; i < labels.length; i += 1) if (kept[labels[i] as number] === 0) return false;
  return true;
};

const oneGiven = (all: readonly number[], kept: Uint8Array): number => all.find((label) => kept[label] === 0) as number;

/** Whether the slot is to hold a listed part: one that is not doubtful, or that the name asks something of. */
export const holdsListed = (slot: UnitSlot, rule: NameRule): boolean =>
  (!slot.doubtful || (rule.demands[slot.of.number] ?? null) !== null) && !constrainsNothing(slot, rule);
