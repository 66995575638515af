/** For each slot, by number, the distinct sets of parts it is asked for, and how two of them meet. */
export class DemandSets {
  /** By slot, every distinct set. */
  readonly all: readonly Int32Array[][];
  readonly #numbers: readonly Map<string, number>[];
  readonly #met: readonly Map<number, number>[];

  constructor(slots: number) {
    this.all = Array.from({ length: slots }, () => []);
    this.#numbers = Array.from({ length: slots }, () => new Map());
    this.#met = Array.from({ length: slots }, () => new Map());
  }

  numberOf(slot: number, parts: Int32Array): number {
    const key = parts.join();
    const known = this.#numbers[slot]?.get(key);
    if (known !== undefined) return known;
    const made = (this.all[slot] as Int32Array[]).push(parts) - 1;
    this.#numbers[slot]?.set(key, made);
    return made;
  }

  /** The set two demands share; −1 any, −2 none. */
  meeting(slot: number, a: number, b: number): number {
    if (a === b || b === -1) return a;
    if (a === -1) return b;
    const key = Math.min(a, b) * 2 ** 24 + Math.max(a, b);
    const known = this.#met[slot]?.get(key);
    if (known !== undefined) return known;
    const other = new Set(this.all[slot]?.[b]);
    const both = ((this.all[slot] as Int32Array[])[a] as Int32Array).filter((part) => other.has(part));
    const made = both.length === 0 ? -2 : this.numberOf(slot, both);
    this.#met[slot]?.set(key, made);
    return made;
  }

  /** Whether everything one box asks for is what the other does too. */
  within(inner: Int32Array, outer: Int32Array): boolean {
    return inner.every((demand, slot) => this.meeting(slot, demand, outer[slot] as number) === demand);
  }
}

/** More meetings of names than this are a fault of the data, not of the unit: so many whatever the names, and of many names so many for each. */
const mostBoxes = 200_000;
const mostOfEach = 20;

/** Boxes closed under meeting. A box is, for each slot, the number of its demand, or −1 for any part. */
export interface MeetingBoxes {
  /** Every box; the first asks nothing anywhere. */
  readonly all: readonly Int32Array[];
  /** By name: its own box. */
  readonly own: readonly number[];
  /** The distinct ones of `own`. */
  readonly single: readonly number[];
  /** Places in `single` whose box may hold a given one; some that do not. */
  holding(box: Int32Array): readonly number[];
}

/** @throws when the boxes meet in more ways than can be summed over */
export const meetingBoxes = (own: readonly Int32Array[], sets: DemandSets): MeetingBoxes => {
  const slots = sets.all.length;
  const most = Math.max(mostBoxes, own.length * mostOfEach);
  const all: Int32Array[] = [new Int32Array(slots).fill(-1)];
  const numberOf = new Map<string, number>([[(all[0] as Int32Array).join(), 0]]);
  const add = (box: Int32Array): number => {
    const key = box.join();
    const known = numberOf.get(key);
    if (known !== undefined) return known;
    if (all.length >= most) throw new Error(`the names of this atlas share their parts in more than ${most} ways`);
    numberOf.set(key, all.push(box) - 1);
    return all.length - 1;
  };
  const numbers = own.map(add);
  const single = [...new Set(numbers)];
  const near = indexOf(
    single.map((number) => all[number] as Int32Array),
    sets,
  );
  // To a fixed point: each box with every name's own box it can meet.
  for (let at = 1; at < all.length; at += 1) {
    const a = all[at] as Int32Array;
    for (const other of near.meeting(a)) {
      const b = all[single[other] as number] as Int32Array;
      const both = a === b ? null : meetingOf(a, b, sets);
      if (both !== null) add(both);
    }
  }
  return { all, own: numbers, single, holding: near.holding };
};

/** Null where the two share nothing in some slot. */
const meetingOf = (a: Int32Array, b: Int32Array, sets: DemandSets): Int32Array | null => {
  const both = new Int32Array(a.length);
  for (let slot = 0; slot < a.length; slot += 1) {
    both[slot] = sets.meeting(slot, a[slot] as number, b[slot] as number);
    if (both[slot] === -2) return null;
  }
  return both;
};

/**
 * The chance of exactly each box, and of none it holds, as a sum of chances of boxes: Σ over the boxes inside it of a whole-number weight times the box's chance
 * (Möbius inversion, see `Targets`). By box: weights by box.
 */
export const exactWeights = (boxes: readonly Int32Array[], sets: DemandSets): readonly ReadonlyMap<number, number>[] => {
  const logSize = (box: Int32Array): number =>
    box.reduce(
      (sum, demand, slot) =>
        sum + Math.log((demand === -1 ? 2 ** 30 : ((sets.all[slot] as Int32Array[])[demand] as Int32Array).length) as number),
      0,
    );
  // Smaller boxes first.
  const order = boxes.map((box, i) => ({ i, size: logSize(box) })).sort((a, b) => a.size - b.size || a.i - b.i);
  const exact: Map<number, number>[] = boxes.map(() => new Map());
  const every = indexOf(boxes, sets);
  /** By box, the boxes strictly inside it, smaller first. */
  const inside: number[][] = boxes.map(() => []);
  for (const { i } of order) {
    const own = exact[i] as Map<number, number>;
    own.set(i, 1);
    for (const j of inside[i] as number[])
      for (const [box, weight] of exact[j] as Map<number, number>) own.set(box, (own.get(box) ?? 0) - weight);
    for (const [box, weight] of own) if (weight === 0) own.delete(box);
    for (const outer of every.holding(boxes[i] as Int32Array))
      if (outer !== i && sets.within(boxes[i] as Int32Array, boxes[outer] as Int32Array)) (inside[outer] as number[]).push(i);
  }
  return exact;
};

/**
 * Which of a list of boxes can meet, or hold, a given one, without trying them all: by the slot where fewest come into question, those that ask
 * nothing there and those that ask for a part the given one does. More than the answer may be named, never less; in the order of the list.
 */
const indexOf = (list: readonly Int32Array[], { all: sets }: DemandSets) => {
  const slots = sets.length;
  const free: number[][] = Array.from({ length: slots }, () => []);
  const asking = Array.from({ length: slots }, () => new Map<number, number[]>());
  list.forEach((box, at) => {
    for (let slot = 0; slot < slots; slot += 1) {
      const demand = box[slot] as number;
      if (demand === -1) (free[slot] as number[]).push(at);
      else
        for (const part of (sets[slot] as readonly Int32Array[])[demand] as Int32Array) {
          const own = asking[slot]?.get(part);
          if (own) own.push(at);
          else asking[slot]?.set(part, [at]);
        }
    }
  });
  const all = list.map((_, at) => at);
  const among = (box: Int32Array, partsOf: (demand: Int32Array) => Int32Array): number[] => {
    let best: number[][] | null = null;
    let fewest = list.length;
    for (let slot = 0; slot < slots; slot += 1) {
      const demand = box[slot] as number;
      if (demand === -1) continue;
      const lists = Array.from(partsOf(sets[slot]?.[demand] as Int32Array), (part) => asking[slot]?.get(part) ?? []);
      lists.push(free[slot] as number[]);
      const count = lists.reduce((sum, each) => sum + each.length, 0);
      if (count < fewest) [best, fewest] = [lists, count];
    }
    return best === null ? all : [...new Set(best.flat())].sort((a, b) => a - b);
  };
  return {
    meeting: (box: Int32Array) => among(box, (demand) => demand),
    // What holds all of a demand holds its first part.
    holding: (box: Int32Array) => among(box, (demand) => demand.subarray(0, 1)),
  };
};
