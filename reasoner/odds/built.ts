import { type Pairing, partnersIn } from '../algebra/pairing.ts';
import type { Assumptions } from '../answer/assumptions.ts';
import type { Model, Slot } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledJoint, CompiledSlot } from '../compile/compiled.ts';
import { rolesOf } from '../compile/seats.ts';
import type { ModelId } from '../ids.ts';

/**
 * What a unit can have been built as (Q1): every model of the atlas, the nameless too, with equal odds, or a *stranger*, a model the atlas does not list. Of each slot
 * only this matters: which parts the model lists there, whether that list is whole, and which parts would fit beside the model's own; models that agree in all of it share a *seat*.
 */
export interface Built {
  /** The stranger comes last, as null. */
  readonly models: readonly (ModelId | null)[];
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
  /** `open`: the list is open-ended (A7), any listed part of the slot may belong. `stranger`: nothing is known of what belongs. */
  readonly list: 'whole' | 'open' | 'stranger';
  /** Mating classes of the slot that meet some listed part of every neighbouring slot, ascending: one of `patterns`, and its number there. */
  readonly fits: Int32Array;
  readonly pattern: number;
  /** How many parts those classes hold. */
  readonly fitting: number;
}

export const builtOf = (atlas: CompiledAtlas): Built => {
  const roles = rolesOf(atlas);
  const models = [...atlas.data.models, null];
  const beside = atlas.slots.map((slot) => new Beside(atlas, slot));
  const seats: Seat[][] = atlas.slots.map(() => []);
  const numbers = atlas.slots.map(() => new Map<string, number>());
  const seatOf = atlas.slots.map(() => new Int32Array(models.length));
  models.forEach((model, m) => {
    atlas.pulse();
    const own = model === null ? null : roles.get(model.id);
    const listed = atlas.slots.map((_, slot) => Int32Array.from(own?.[slot]?.keys() ?? []).sort());
    const lists = atlas.slots.map(({ data: slot }, number): Seat['list'] => {
      if (model === null) return 'stranger';
      return isOpenEnded(model, slot, (listed[number] as Int32Array).length) ? 'open' : 'whole';
    });
    // What may be anything asks nothing of its neighbours.
    const classes = listed.map((parts, slot) => {
      const { matingOf } = atlas.slots[slot] as CompiledSlot;
      return lists[slot] === 'open' ? [] : [...new Set(Array.from(parts, (part) => matingOf[part] as number))].sort((a, b) => a - b);
    });
    beside.forEach((patterns, number) => {
      const pattern = patterns.of(classes);
      const [parts, list] = [listed[number] as Int32Array, lists[number] as Seat['list']];
      const key = `${parts.join()}|${list}|${pattern}`;
      let seat = numbers[number]?.get(key);
      if (seat === undefined) {
        const fits = patterns.all[pattern] as Int32Array;
        seat = (seats[number] as Seat[]).push({ listed: parts, list, fits, pattern, fitting: patterns.partsIn(fits) }) - 1;
        numbers[number]?.set(key, seat);
      }
      (seatOf[number] as Int32Array)[m] = seat;
    });
  });
  return {
    models: models.map((model) => model?.id ?? null),
    seats,
    seatOf,
    patterns: beside.map(({ all }) => all),
    partsOf: beside.map(({ partsOf }) => partsOf),
  };
};

/** A7: a core or housing slot the model lists nothing for, or whose list is said not to be whole. */
const isOpenEnded = (model: Model, { id, group }: Slot, listed: number): boolean =>
  group !== 'plate' && (listed === 0 || (model.openEnded?.includes(id) ?? false));

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
const partnersAt = (atlas: CompiledAtlas, { a, b, number }: CompiledJoint, slot: number): ((mating: number) => readonly number[]) => {
  const pairing = atlas.made().space.pairings[number] as Pairing;
  const known = new Map<number, readonly number[]>();
  return (other) => {
    const before = known.get(other);
    if (before) return before;
    const made = partnersIn(pairing, a === slot ? b : a, other).sort((p, q) => p - q);
    known.set(other, made);
    return made;
  };
};

/**
 * The chance of a slot's parts before anything was looked at, by seat. A listed part has `any`, and `own` more where the model lists it, and `fits`
 * more where it fits (less than nothing where misfits are the likelier).
 */
export interface Before {
  readonly any: Float64Array;
  readonly own: Float64Array;
  readonly fits: Float64Array;
  readonly unlisted: Float64Array;
  /** What a swapped-in part that fits, and one that does not, has of `any` and `fits` together: without a difference of the two. */
  readonly swappedIn: { readonly fitting: Float64Array; readonly misfit: Float64Array };
  /** What any listed part has of an open-ended list, or of a stranger. */
  readonly belonging: Float64Array;
}

/** A stranger's slot is as likely as not to hold a part the atlas does not list: it says nothing of such units. A guess; common practice, no source. */
const strangersUnlisted = 0.5;

/**
 * (1 − swapped) over the listed parts alike, or over all parts of the slot where the list is open-ended; `swapped` over what was put in since, of which the share `unlisted`
 * is of no listed part, of the rest the share `misfit` is over the parts that do not fit alike, and what remains over those that fit alike. A share of which there is no part
 * goes to the other, of misfits, or to the unlisted part, of fitting ones. A plate slot the model lists nothing for holds what was put in.
 * @param parts how many listed parts the slot has
 */
const chancesIn = (seats: readonly Seat[], parts: number, { swapped, unlisted, misfit }: Assumptions): Before => {
  const column = () => new Float64Array(seats.length);
  const before = {
    any: column(),
    own: column(),
    fits: column(),
    unlisted: column(),
    swappedIn: { fitting: column(), misfit: column() },
    belonging: column(),
  };
  seats.forEach(({ listed, list, fitting }, seat) => {
    const belongs = list === 'whole' ? listed.length : parts;
    const built = list === 'stranger' ? 1 - strangersUnlisted : 1 - swapped;
    const kept = belongs === 0 ? 0 : built;
    const since = list === 'stranger' ? 0 : 1 - kept;
    const misfits = parts - fitting;
    const misfitting = misfits === 0 ? 0 : since * (1 - unlisted) * misfit;
    const fitted = since * (1 - unlisted) * (misfits === 0 ? 1 : 1 - misfit);
    const eachFitting = fitting === 0 ? 0 : fitted / fitting;
    const eachMisfit = misfits === 0 ? 0 : misfitting / misfits;
    if (list === 'whole') before.own[seat] = belongs === 0 ? 0 : kept / belongs;
    else before.belonging[seat] = belongs === 0 ? 0 : kept / belongs;
    before.swappedIn.fitting[seat] = eachFitting;
    before.swappedIn.misfit[seat] = eachMisfit;
    before.any[seat] = (before.belonging[seat] as number) + eachMisfit;
    before.fits[seat] = eachFitting - eachMisfit;
    before.unlisted[seat] = list === 'stranger' ? 1 - kept : since * unlisted + (fitting === 0 ? fitted : 0);
  });
  return before;
};

/** The last asked for of each slot: they hang on the assumptions alone, and slips are not among them. */
const kept = new WeakMap<readonly Seat[], { readonly said: string; readonly before: Before }>();

/** @param parts how many listed parts the slot has */
export const chancesBefore = (seats: readonly Seat[], parts: number, assumptions: Assumptions): Before => {
  const said = [assumptions.swapped, assumptions.unlisted, assumptions.misfit].join();
  const known = kept.get(seats);
  if (known?.said === said) return known.before;
  const before = chancesIn(seats, parts, assumptions);
  kept.set(seats, { said, before });
  return before;
};
