import type { Before, Seat } from './built.ts';
import type { OddsGround } from './posterior.ts';
import { chanceOf, type SlotLikelihood } from './slot-likelihood.ts';
import type { Box, TargetSpace } from './targets.ts';

/** Of one slot: the chance of each part together with each target. Sparse rows. */
export interface Joint {
  readonly rows: readonly { readonly targets: Int32Array; readonly chances: Float64Array }[];
  /** Chance of each part; the unlisted part last. */
  readonly parts: Float64Array;
}

/** Products smaller than this are set aside, as negligible models are. */
const smallest = 1e-14;

/** For every slot, part and target, the chance of both. Only boxes some counted model can still be in, and only seats of counted models, are carried along. */
export const jointsOf = (
  { built, targets }: OddsGround,
  slots: readonly SlotLikelihood[],
  weights: Float64Array,
  counted: readonly number[],
): Joint[] => {
  const met = slots.map((slot, number) => meetings(slot, targets.demands[number] as readonly Int32Array[]));
  const seatAt = (slot: number, model: number): number => built.seatOf[slot]?.[model] as number;
  const asked = (box: number, slot: number): number => targets.boxes[box]?.demands[slot] as number;

  // Which boxes each counted model can be in.
  const live = counted.map((model) => {
    const own = met.map((of, slot) => of(seatAt(slot, model)));
    const found: number[] = [];
    for (let box = 0; box < targets.boxes.length; box += 1) {
      let product = weights[model] as number;
      for (let slot = 0; slot < slots.length && product >= smallest; slot += 1) {
        const demand = asked(box, slot);
        if (demand >= 0) product *= (own[slot] as (demand: number) => number)(demand);
      }
      if (product >= smallest) found.push(box);
    }
    return found;
  });
  const boxes = [...new Set(live.flat())].sort((a, b) => a - b);
  const boxAt = new Map(boxes.map((box, i) => [box, i]));
  const seats = slots.map((_, slot) => [...new Set(counted.map((model) => seatAt(slot, model)))]);
  const rowOf = seats.map((own) => new Map(own.map((seat, i) => [seat, i])));

  // By slot, seat and box: the chance of the model and of every other slot's being in the box, models with the same seat together.
  const others = seats.map((own) => new Float64Array(own.length * boxes.length));
  const product = new Float64Array(slots.length + 1);
  const factor = new Float64Array(slots.length);
  counted.forEach((model, m) => {
    const own = met.map((of, slot) => of(seatAt(slot, model)));
    const start = slots.map((_, slot) => (rowOf[slot]?.get(seatAt(slot, model)) as number) * boxes.length);
    product[0] = weights[model] as number;
    for (const box of live[m] as readonly number[]) {
      for (let slot = 0; slot < slots.length; slot += 1) {
        const demand = asked(box, slot);
        factor[slot] = demand < 0 ? 1 : (own[slot] as (demand: number) => number)(demand);
        product[slot + 1] = (product[slot] as number) * (factor[slot] as number);
      }
      const column = boxAt.get(box) as number;
      let after = 1;
      for (let slot = slots.length - 1; slot >= 0; slot -= 1) {
        const at = (start[slot] as number) + column;
        const sums = others[slot] as Float64Array;
        sums[at] = (sums[at] as number) + (product[slot] as number) * after;
        after *= factor[slot] as number;
      }
    }
  });
  return slots.map((slot, number) => jointAt(slot, targets, boxes, seats[number] as number[], others[number] as Float64Array));
};

/** For each seat and demand: how likely the slot's part is one the demand allows, its observations known. Reckoned when first asked for. */
const meetings = (slot: SlotLikelihood, demands: readonly Int32Array[]): ((seat: number) => (demand: number) => number) => {
  const known = new Map<number, (demand: number) => number>();
  return (seat) => {
    const before = known.get(seat);
    if (before) return before;
    const shares = new Float64Array(demands.length).fill(-1);
    const made = (demand: number): number => {
      // A slot that holds nothing holds nothing the name asks for; that it is empty says nothing of what the unit was built as.
      if (slot.absent) return 0;
      const share = shares[demand] as number;
      if (share >= 0) return share;
      let sum = 0;
      const parts = demands[demand] as Int32Array;
      for (let i = 0; i < parts.length; i += 1) sum += chanceOf(slot, seat, parts[i] as number);
      shares[demand] = sum / (slot.total[seat] as number);
      return shares[demand] as number;
    };
    known.set(seat, made);
    return made;
  };
};

/** A difference of equal sums leaves rounding behind, on either side of nothing: together, of a hundred thousand such, less than a negligible model. */
const nothing = 1e-17;

const jointAt = (
  slot: SlotLikelihood,
  targets: TargetSpace,
  boxes: readonly number[],
  seats: readonly number[],
  others: Float64Array,
): Joint => {
  const rows = slot.slot.parts.length + 1;
  const used = boxes.map((box) => targets.boxes[box] as Box);
  const columns = [...new Set(used.flatMap(({ weights }) => weights.map(({ target }) => target)))].sort((a, b) => a - b);
  const columnOf = new Map(columns.map((target, i) => [target, i]));
  const width = columns.length;
  const weighing = used.map(({ weights }) => weights.map(({ target, weight }) => ({ column: columnOf.get(target) as number, weight })));
  /** What all parts of a mating class have alike, each times how likely the observations are of it; and what single parts have besides. */
  const alike: (Float64Array | undefined)[] = [];
  /** The same for each pattern of classes that fit, shared by seats, before it is laid to the classes. */
  const patterns = new Map<Uint8Array, Float64Array>();
  const single: (Float64Array | undefined)[] = [];
  const unlisted = new Float64Array(width);
  const rowAt = (list: (Float64Array | undefined)[], at: number): Float64Array => {
    const known = list[at];
    if (known) return known;
    const made = new Float64Array(width);
    list[at] = made;
    return made;
  };
  const free = new Float64Array(width);
  const touched = new Int32Array(width);
  seats.forEach((seat, row) => {
    const total = slot.total[seat] as number;
    const { listed, fits } = slot.seats[seat] as Seat;
    const before = slot.before[seat] as Before;
    // Boxes that ask nothing of the slot weigh every part alike: their targets are summed first.
    free.fill(0);
    for (let number = 0; number < boxes.length; number += 1) {
      const found = others[row * boxes.length + number] as number;
      if (found === 0) continue;
      const chance = found / total;
      const weights = weighing[number] as (typeof weighing)[number];
      const asked = used[number]?.demands[slot.slot.number] as number;
      if (asked < 0) {
        for (let i = 0; i < weights.length; i += 1) {
          const { column, weight } = weights[i] as (typeof weights)[number];
          free[column] = (free[column] as number) + weight * chance;
        }
        continue;
      }
      if (slot.absent) continue;
      const demand = targets.demands[slot.slot.number]?.[asked] as Int32Array;
      for (let k = 0; k < demand.length; k += 1) {
        const part = demand[k] as number;
        const own = chance * chanceOf(slot, seat, part);
        if (own === 0) continue;
        const into = rowAt(single, part);
        for (let i = 0; i < weights.length; i += 1) {
          const { column, weight } = weights[i] as (typeof weights)[number];
          into[column] = (into[column] as number) + weight * own;
        }
      }
    }
    let reach = 0;
    for (let column = 0; column < width; column += 1) if (Math.abs(free[column] as number) * total > nothing) touched[reach++] = column;
    const add = (into: Float64Array, times: number): void => {
      for (let i = 0; i < reach; i += 1) {
        const column = touched[i] as number;
        into[column] = (into[column] as number) + times * (free[column] as number);
      }
    };
    if (reach === 0) return;
    if (before.unlisted > 0) add(unlisted, before.unlisted);
    if (before.own > 0)
      for (const part of listed) {
        const own = before.own * (slot.ofPart[part] as number);
        if (own > 0) add(rowAt(single, part), own);
      }
    if (before.swappedIn > 0) {
      const pattern = patterns.get(fits) ?? new Float64Array(width);
      patterns.set(fits, pattern);
      add(pattern, before.swappedIn);
    }
  });
  for (const [fits, pattern] of patterns) {
    let reach = 0;
    for (let column = 0; column < width; column += 1) if (pattern[column] !== 0) touched[reach++] = column;
    for (let mating = 0; mating < fits.length && reach > 0; mating += 1) {
      if (fits[mating] === 0) continue;
      const into = rowAt(alike, mating);
      for (let i = 0; i < reach; i += 1) {
        const column = touched[i] as number;
        into[column] = (into[column] as number) + (pattern[column] as number);
      }
    }
  }

  const parts = new Float64Array(rows);
  const chances = new Float64Array(width);
  return {
    parts,
    rows: Array.from({ length: rows }, (_, part) => {
      const common = part === rows - 1 ? unlisted : alike[slot.slot.matingOf[part] as number];
      const own = single[part];
      const times = part === rows - 1 ? 1 : (slot.ofPart[part] as number);
      let reach = 0;
      if (common || own)
        for (let column = 0; column < width; column += 1) {
          const chance = (common ? (common[column] as number) * times : 0) + (own ? (own[column] as number) : 0);
          if (chance <= nothing) continue;
          touched[reach] = columns[column] as number;
          chances[reach] = chance;
          parts[part] = (parts[part] as number) + chance;
          reach += 1;
        }
      return { targets: touched.slice(0, reach), chances: chances.slice(0, reach) };
    }),
  };
};
