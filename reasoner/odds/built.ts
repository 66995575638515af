import type { CompiledAtlas, CompiledSlot } from '../atlas/compile.ts';
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
}

export interface Seat {
  /** Part numbers the model lists, superseding ones included; empty where it lists none. */
  readonly listed: Int32Array;
  /** 1 for each mating class of the slot that meets some listed part of every neighbouring slot. One array for all seats it is the same of. */
  readonly fits: Uint8Array;
  /** How many parts those classes hold. */
  readonly fitting: number;
}

export const builtOf = (atlas: CompiledAtlas): Built => {
  const roles = rolesOf(atlas);
  const models = atlas.atlas.models.map(({ id }) => id);
  const seats: Seat[][] = atlas.slots.map(() => []);
  const numbers = atlas.slots.map(() => new Map<string, number>());
  const patterns = atlas.slots.map(() => new Map<string, Uint8Array>());
  const seatOf = atlas.slots.map(() => new Int32Array(models.length));
  models.forEach((model, m) => {
    const listed = (roles.get(model) ?? []).map((own) => Int32Array.from(own?.keys() ?? []).sort());
    const classes = listed.map(
      (parts, slot) => new Set(Array.from(parts, (part) => (atlas.slots[slot] as CompiledSlot).matingOf[part] as number)),
    );
    atlas.slots.forEach((slot, number) => {
      const beside = fitsBeside(atlas, number, classes);
      const fitsKey = beside.join('');
      const fits = patterns[number]?.get(fitsKey) ?? beside;
      patterns[number]?.set(fitsKey, fits);
      const own = listed[number] as Int32Array;
      const key = `${own.join()}|${fitsKey}`;
      let seat = numbers[number]?.get(key);
      if (seat === undefined) {
        const fitting = slot.matingOf.reduce((sum, mating) => sum + (fits[mating] as number), 0);
        seat = (seats[number] as Seat[]).push({ listed: own, fits, fitting }) - 1;
        numbers[number]?.set(key, seat);
      }
      (seatOf[number] as Int32Array)[m] = seat;
    });
  });
  return { models, seats, seatOf };
};

/** Which mating classes of a slot meet, at every joint, some part the model lists on the other side; a side it lists nothing on asks nothing. */
const fitsBeside = (atlas: CompiledAtlas, slot: number, classes: readonly ReadonlySet<number>[]): Uint8Array => {
  const fits = new Uint8Array((atlas.slots[slot] as CompiledSlot).matingCount).fill(1);
  for (const joint of atlas.joints) {
    if (joint.a !== slot && joint.b !== slot) continue;
    const other = classes[joint.a === slot ? joint.b : joint.a] as ReadonlySet<number>;
    if (other.size === 0) continue;
    const width = (atlas.slots[joint.b] as CompiledSlot).matingCount;
    fits.forEach((fit, mating) => {
      if (fit === 0) return;
      const meets = [...other].some((partner) => joint.holds[joint.a === slot ? mating * width + partner : partner * width + mating] === 1);
      if (!meets) fits[mating] = 0;
    });
  }
  return fits;
};

/** The chance of a slot's parts before anything was looked at, given the seat: a listed part has `own` and, where it fits, `swappedIn`; any other that fits `swappedIn`. */
export interface Before {
  readonly own: number;
  readonly swappedIn: number;
  readonly unlisted: number;
}

/**
 * (1 − swapped) over the listed parts alike; `swapped` over what would fit, of which the share `unlisted` is of no listed part and the rest is over the
 * listed parts that fit alike. A slot the model lists nothing for holds what would fit.
 */
export const chancesBefore = (seat: Seat, { swapped, unlisted }: Assumptions): Before => {
  const kept = seat.listed.length === 0 ? 0 : 1 - swapped;
  const rest = 1 - kept;
  const strangers = seat.fitting === 0 ? rest : rest * unlisted;
  return {
    own: seat.listed.length === 0 ? 0 : kept / seat.listed.length,
    swappedIn: seat.fitting === 0 ? 0 : (rest - strangers) / seat.fitting,
    unlisted: strangers,
  };
};
