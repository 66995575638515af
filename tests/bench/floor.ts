import { type CompiledAtlas, goTogether } from '../../reasoner/compile/compiled.ts';
import type { NameRule } from '../../reasoner/compile/name-rule.ts';
import type { Feature, FeatureId, Observation, Part, Sheet } from '../../reasoner/index.ts';
import { LimitsOfFacts } from './limits-of-facts.ts';

/** The facts of one feature, sorted by their lower limits, and the parts of which it is not known. */
interface Column {
  readonly lows: Float64Array;
  readonly highs: Float64Array;
  readonly parts: Int32Array;
  readonly silent: Uint32Array;
  readonly widest: number;
}

/** What a unit has left, by the least work there is: of each name whether its witness is left, whether some slot has nothing of it left, or neither. */
export interface FloorAnswer {
  readonly possible: readonly number[];
  readonly ruledOut: number;
  readonly undecided: number;
}

/**
 * The floor under a verdict: which parts agree with the entries, by sorted columns and sets of bits, and for every name whether one complete choice that is known of it is still
 * there. It explains nothing, knows no work done on parts, and leaves undecided what a search would have to settle; nothing that answers the same question can do less.
 */
export class Floor {
  readonly #atlas: CompiledAtlas;
  readonly #limits = new LimitsOfFacts();
  readonly #columns = new Map<FeatureId, Column>();
  /** Names with a witness: of each, slot after slot, the part of its witness; −1 where its model lists none. */
  readonly names: readonly NameRule[];
  readonly #witnesses: Int32Array;
  readonly #sets: readonly (readonly (ReadonlySet<number> | null)[])[];

  constructor(atlas: CompiledAtlas) {
    this.#atlas = atlas;
    for (const feature of atlas.data.features) this.#columns.set(feature.id, this.#columnOf(feature));
    const known = new Map(atlas.data.models.map((model) => [model.id, model]));
    const found = atlas.names.flatMap((rule) => {
      if (rule.anyOf !== null || rule.open.size > 0) return [];
      const witness = rule.name.models.map((id) => this.#witnessOf(rule, known.get(id)?.allowed ?? [])).find((each) => each !== null);
      return witness === undefined || witness === null ? [] : [{ rule, witness }];
    });
    this.names = found.map(({ rule }) => rule);
    this.#sets = this.names.map(({ demands }) => demands);
    this.#witnesses = Int32Array.from(found.flatMap(({ witness }) => witness));
  }

  answer({ observations, absent }: Sheet): FloorAnswer {
    const { slots } = this.#atlas;
    const left = new Map<number, Uint32Array>();
    for (const one of observations) {
      if (one.sure.kind === 'told') continue;
      const slot = this.#atlas.slotNumber.get(one.slot) as number;
      const agreeing = this.#agreeing(one);
      const before = left.get(slot);
      if (before === undefined) left.set(slot, agreeing);
      else for (let word = 0; word < before.length; word += 1) before[word] = (before[word] as number) & (agreeing[word] as number);
    }
    for (const id of absent) left.set(this.#atlas.slotNumber.get(id) as number, new Uint32Array(0));
    const possible: number[] = [];
    let [ruledOut, undecided] = [0, 0];
    const seen = [...left];
    for (let name = 0; name < this.names.length; name += 1) {
      let [there, gone] = [true, false];
      for (const [slot, bits] of seen) {
        const part = this.#witnesses[name * slots.length + slot] as number;
        if (part >= 0 && has(bits, part)) continue;
        there = false;
        if (!someIn(bits, this.#sets[name]?.[slot] ?? null)) {
          gone = true;
          break;
        }
      }
      if (there) possible.push(name);
      else if (gone) ruledOut += 1;
      else undecided += 1;
    }
    return { possible, ruledOut, undecided };
  }

  #agreeing(one: Observation): Uint32Array {
    const { lows, highs, parts, silent, widest } = this.#columns.get(one.feature) as Column;
    const [low, high] = this.#limits.ofReading(one);
    const bits = silent.slice();
    for (let at = firstFrom(lows, low - widest); at < lows.length && (lows[at] as number) <= high; at += 1) {
      if ((highs[at] as number) < low) continue;
      const part = parts[at] as number;
      bits[part >>> 5] = (bits[part >>> 5] as number) | (1 << (part & 31));
    }
    return bits;
  }

  #columnOf(feature: Feature): Column {
    const { parts } = this.#atlas.slots[this.#atlas.slotNumber.get(feature.slot) as number] as { parts: readonly Part[] };
    const silent = new Uint32Array((parts.length + 31) >>> 5);
    const rows: (readonly [number, number, number])[] = [];
    for (const [number, { facts }] of parts.entries()) {
      const ranges = this.#limits.ofFact(feature, facts[feature.id]);
      if (ranges === null) silent[number >>> 5] = (silent[number >>> 5] as number) | (1 << (number & 31));
      else for (const [low, high] of ranges) rows.push([low, high, number]);
    }
    rows.sort(([a], [b]) => a - b);
    return {
      lows: Float64Array.from(rows, ([low]) => low),
      highs: Float64Array.from(rows, ([, high]) => high),
      parts: Int32Array.from(rows, ([, , part]) => part),
      silent,
      widest: rows.reduce((most, [low, high]) => Math.max(most, high - low), 0),
    };
  }

  /** A part the model lists for every slot, of those demanded where any are, all of them going together as made; null where its first ones do not. */
  #witnessOf({ demands }: NameRule, allowed: readonly { readonly part: Part['id'] }[]): number[] | null {
    const { slots, joints } = this.#atlas;
    const witness = slots.map(({ number, partNumber }) => {
      const demand = demands[number] ?? null;
      const listed = allowed.map(({ part }) => partNumber.get(part)).find((part) => part !== undefined && demand?.has(part) !== false);
      return listed ?? (demand === null ? -1 : null);
    });
    if (witness.some((part) => part === null)) return null;
    const chosen = witness as number[];
    const meets = joints.every((joint) => {
      const [a, b] = [chosen[joint.a] as number, chosen[joint.b] as number];
      return a < 0 || b < 0 || goTogether(this.#atlas, joint, a, b);
    });
    return meets ? chosen : null;
  }
}

const has = (bits: Uint32Array, part: number): boolean =>
  part >>> 5 < bits.length && (((bits[part >>> 5] as number) >>> (part & 31)) & 1) === 1;

const someIn = (bits: Uint32Array, parts: ReadonlySet<number> | null): boolean => {
  if (parts === null) return true;
  for (const part of parts) if (has(bits, part)) return true;
  return false;
};

/** The place of the first that is not below a number. */
const firstFrom = (sorted: Float64Array, least: number): number => {
  let [from, to] = [0, sorted.length];
  while (from < to) {
    const middle = (from + to) >>> 1;
    if ((sorted[middle] as number) < least) from = middle + 1;
    else to = middle;
  }
  return from;
};
