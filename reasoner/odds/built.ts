import type { CompiledAtlas, CompiledJoint, CompiledSlot } from '../atlas/compile.ts';
import type { ModelId } from '../ids.ts';
import { rolesOf } from '../names/compile-names.ts';
import type { Assumptions } from './assumptions.ts';

/**
 * What a unit can have been built as (Q1): every model of the atlas, the nameless too, with equal odds. Of each slot only two things matter,
 * which parts the model lists there and which parts would fit beside the model's own; models that agree in both share a *seat*.
 */
export interface Built {
  readonly models: readonly ModelId[];
  /** By slot, the different seats. */
  readonly seats: readonly (readonly Seat[])[];
  /** By slot, the seat of each model. */
  readonly seatOf: readonly Int32Array[];
  /** By slot, what fits beside some model: mating classes, ascending. */
  readonly patterns: readonly (readonly Int32Array[])[];
  /** By slot and mating class, its parts. */
  readonly partsOf: readonly (readonly Int32Array[])[];
}

export interface Seat {
  /** Part numbers the model lists, ascending, superseding ones included; empty where it lists none. */
  readonly listed: Int32Array;
  /** Mating classes of the slot that meet some listed part of every neighbouring slot, ascending: one of `patterns`, and its number there. */
  readonly fits: Int32Array;
  readonly pattern: number;
  /** How many parts those classes hold. */
  readonly fitting: number;
}

export const builtOf = (atlas: CompiledAtlas): Built => {
  const roles = rolesOf(atlas);
  const models = atlas.atlas.models.map(({ id }) => id);
  const beside = atlas.slots.map((slot) => new Beside(atlas, slot));
  const seats: Seat[][] = atlas.slots.map(() => []);
  const numbers = atlas.slots.map(() => new Map<string, number>());
  const seatOf = atlas.slots.map(() => new Int32Array(models.length));
  models.forEach((model, m) => {
    const listed = (roles.get(model) ?? []).map((own) => Int32Array.from(own?.keys() ?? []).sort());
    const classes = listed.map((parts, slot) => {
      const { matingOf } = atlas.slots[slot] as CompiledSlot;
      return [...new Set(Array.from(parts, (part) => matingOf[part] as number))].sort((a, b) => a - b);
    });
    beside.forEach((patterns, number) => {
      const pattern = patterns.of(classes);
      const own = listed[number] as Int32Array;
      const key = `${own.join()}|${pattern}`;
      let seat = numbers[number]?.get(key);
      if (seat === undefined) {
        const fits = patterns.all[pattern] as Int32Array;
        seat = (seats[number] as Seat[]).push({ listed: own, fits, pattern, fitting: patterns.partsIn(fits) }) - 1;
        numbers[number]?.set(key, seat);
      }
      (seatOf[number] as Int32Array)[m] = seat;
    });
  });
  return { models, seats, seatOf, patterns: beside.map(({ all }) => all), partsOf: beside.map(({ partsOf }) => partsOf) };
};

/** What fits beside a model's own parts in one slot: at every joint, the mating classes that meet some part it lists on the other side; a side it lists nothing on asks nothing. */
class Beside {
  /** The different answers. */
  readonly all: Int32Array[] = [];
  /** By mating class. */
  readonly partsOf: readonly Int32Array[];
  readonly #joints: readonly { readonly other: number; readonly partners: (mating: number) => readonly number[] }[];
  readonly #byAsked = new Map<string, number>();
  readonly #byAnswer = new Map<string, number>();

  constructor(atlas: CompiledAtlas, { number, matingOf, matingCount }: CompiledSlot) {
    const members: number[][] = Array.from({ length: matingCount }, () => []);
    matingOf.forEach((mating, part) => {
      members[mating]?.push(part);
    });
    this.partsOf = members.map((parts) => Int32Array.from(parts));
    this.#joints = atlas.joints.flatMap((joint) =>
      joint.a === number || joint.b === number
        ? [{ other: joint.a === number ? joint.b : joint.a, partners: partnersAt(atlas, joint, number) }]
        : [],
    );
  }

  /** @param classes by slot, the mating classes of the model's own parts @returns a number of `all` */
  of(classes: readonly (readonly number[])[]): number {
    const asked = this.#joints.map(({ other }) => classes[other]?.join()).join('|');
    const known = this.#byAsked.get(asked);
    if (known !== undefined) return known;
    let fits: Int32Array | null = null;
    for (const { other, partners } of this.#joints) {
      const beside = classes[other] ?? [];
      if (beside.length === 0) continue;
      const meets = new Set(beside.flatMap(partners));
      fits = fits === null ? Int32Array.from(meets).sort() : fits.filter((mating) => meets.has(mating));
    }
    const answer = fits ?? Int32Array.from(this.partsOf.keys());
    const key = answer.join();
    const number = this.#byAnswer.get(key) ?? this.all.push(answer) - 1;
    this.#byAnswer.set(key, number);
    this.#byAsked.set(asked, number);
    return number;
  }

  partsIn(fits: Int32Array): number {
    return fits.reduce((sum, mating) => sum + (this.partsOf[mating] as Int32Array).length, 0);
  }
}

/** For a mating class on the other side of a joint, those of this slot that meet it. */
const partnersAt = (atlas: CompiledAtlas, { a, b, holds }: CompiledJoint, slot: number): ((mating: number) => readonly number[]) => {
  const width = (atlas.slots[b] as CompiledSlot).matingCount;
  const own = (atlas.slots[slot] as CompiledSlot).matingCount;
  const known = new Map<number, readonly number[]>();
  return (other) => {
    const before = known.get(other);
    if (before) return before;
    const made: number[] = [];
    for (let mating = 0; mating < own; mating += 1)
      if (holds[a === slot ? mating * width + other : other * width + mating] === 1) made.push(mating);
    known.set(other, made);
    return made;
  };
};

/** The chance of a slot's parts before anything was looked at, by seat: a listed part has `own` and, where it fits, `swappedIn`; any other that fits `swappedIn`. */
export interface Before {
  readonly own: Float64Array;
  readonly swappedIn: Float64Array;
  readonly unlisted: Float64Array;
}

/**
 * (1 − swapped) over the listed parts alike; `swapped` over what would fit, of which the share `unlisted` is of no listed part and the rest is over the
 * listed parts that fit alike. A slot the model lists nothing for holds what would fit.
 */
export const chancesBefore = (seats: readonly Seat[], { swapped, unlisted }: Assumptions): Before => {
  const before = {
    own: new Float64Array(seats.length),
    swappedIn: new Float64Array(seats.length),
    unlisted: new Float64Array(seats.length),
  };
  seats.forEach(({ listed, fitting }, seat) => {
    const kept = listed.length === 0 ? 0 : 1 - swapped;
    const rest = 1 - kept;
    const strangers = fitting === 0 ? rest : rest * unlisted;
    before.own[seat] = listed.length === 0 ? 0 : kept / listed.length;
    before.swappedIn[seat] = fitting === 0 ? 0 : (rest - strangers) / fitting;
    before.unlisted[seat] = strangers;
  });
  return before;
};
