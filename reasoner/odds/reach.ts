import type { CompiledAtlas, CompiledSlot } from '../atlas/compile.ts';
import { has } from './ascending.ts';
import type { Built, Seat } from './built.ts';
import type { TargetSpace } from './targets.ts';

/**
 * Which boxes (`targets.ts`) a unit built as each model can be in at all, whatever was seen of it, and through which parts. A model meets only a few of the
 * boxes of an atlas, however large that is, and these do not depend on the sheet.
 */
export interface Reach {
  /** By model, where its boxes begin; one longer than the models. */
  readonly from: Int32Array;
  readonly boxes: Int32Array;
  /** By slot and place in `boxes`: which of the slot's `shared` the box asks of the model's seat; −1 for any part. */
  readonly asks: readonly Int32Array[];
  readonly shared: readonly Shared[];
}

/** Parts of one slot that some box asks for and that a seat can hold, run after run. */
export interface Shared {
  /** Where each run begins; one longer than the runs. */
  readonly from: Int32Array;
  readonly parts: Int32Array;
  /** 1 where the seat lists the part, 2 where it fits, 3 where both. */
  readonly how: Uint8Array;
}

export const listedThere = 1;
export const fitsThere = 2;

export const reachOf = (atlas: CompiledAtlas, built: Built, targets: TargetSpace): Reach => {
  const slots = atlas.slots.map((slot) => new SlotReach(slot, built, targets));
  const from = new Int32Array(built.models.length + 1);
  const boxes: number[] = [];
  const asks: number[][] = slots.map(() => []);
  const seen = new Int32Array(targets.boxes.length).fill(-1);
  const found = new Int32Array(slots.length);
  built.models.forEach((_, model) => {
    const seats = slots.map((_slot, slot) => built.seatOf[slot]?.[model] as number);
    // Only boxes that ask for one of its parts, or for none, in the slot where these are fewest.
    const narrow = slots.reduce((best, each, slot) =>
      each.mostBoxes(seats[slot] as number) < best.mostBoxes(seats[best.number] as number) ? each : best,
    );
    for (const box of narrow.boxesAt(seats[narrow.number] as number)) {
      if (seen[box] === model) continue;
      seen[box] = model;
      const { demands } = targets.boxes[box] as TargetSpace['boxes'][number];
      const reached = slots.every((slot, number) => {
        const demand = demands[number] as number;
        found[number] = demand < 0 ? -1 : slot.shared(seats[number] as number, demand);
        return demand < 0 || (found[number] as number) >= 0;
      });
      if (!reached) continue;
      boxes.push(box);
      for (let slot = 0; slot < slots.length; slot += 1) (asks[slot] as number[]).push(found[slot] as number);
    }
    from[model + 1] = boxes.length;
  });
  return {
    from,
    boxes: Int32Array.from(boxes),
    asks: asks.map((own) => Int32Array.from(own)),
    shared: slots.map((slot) => slot.runs()),
  };
};

class SlotReach {
  readonly number: number;
  readonly #matingOf: Int32Array;
  readonly #seats: readonly Seat[];
  readonly #demands: readonly Int32Array[];
  /** Boxes that ask nothing of the slot. */
  readonly #free: number[] = [];
  /** By part, the boxes that ask for it among others. */
  readonly #asking: number[][];
  readonly #partsOf: readonly Int32Array[];
  /** The boxes a part is asked for by, at most. */
  readonly #most: number;
  readonly #runs = new Map<number, number>();
  readonly #from: number[] = [0];
  readonly #parts: number[] = [];
  readonly #how: number[] = [];

  constructor({ number, parts, matingOf }: CompiledSlot, { seats, partsOf }: Built, targets: TargetSpace) {
    this.number = number;
    this.#matingOf = matingOf;
    this.#seats = seats[number] ?? [];
    this.#partsOf = partsOf[number] ?? [];
    this.#demands = targets.demands[number] ?? [];
    this.#asking = parts.map(() => []);
    targets.boxes.forEach(({ demands }, box) => {
      const demand = demands[number] as number;
      if (demand < 0) this.#free.push(box);
      else for (const part of this.#demands[demand] as Int32Array) this.#asking[part]?.push(box);
    });
    this.#most = this.#asking.reduce((most, { length }) => Math.max(most, length), 0);
  }

  mostBoxes(seat: number): number {
    const { listed, fitting } = this.#seats[seat] as Seat;
    return this.#free.length + (listed.length + fitting) * this.#most;
  }

  /** Boxes that ask for a part the seat can hold, or for none; some more than once. */
  *boxesAt(seat: number): Iterable<number> {
    const { listed, fits } = this.#seats[seat] as Seat;
    yield* this.#free;
    for (const part of listed) yield* this.#asking[part] ?? [];
    for (const mating of fits) for (const part of this.#partsOf[mating] ?? []) yield* this.#asking[part] ?? [];
  }

  /** The run of parts that seat and demand share; −1 where they share none. */
  shared(seat: number, demand: number): number {
    const key = seat * this.#demands.length + demand;
    const known = this.#runs.get(key);
    if (known !== undefined) return known;
    const { listed, fits } = this.#seats[seat] as Seat;
    const start = this.#parts.length;
    for (const part of this.#demands[demand] as Int32Array) {
      const how = (has(listed, part) ? listedThere : 0) + (has(fits, this.#matingOf[part] as number) ? fitsThere : 0);
      if (how === 0) continue;
      this.#parts.push(part);
      this.#how.push(how);
    }
    const run = this.#parts.length === start ? -1 : this.#from.push(this.#parts.length) - 2;
    this.#runs.set(key, run);
    return run;
  }

  runs(): Shared {
    return { from: Int32Array.from(this.#from), parts: Int32Array.from(this.#parts), how: Uint8Array.from(this.#how) };
  }
}
