import type { Seat } from './built.ts';
import type { OddsGround } from './posterior.ts';
import { fitsThere, listedThere, type Shared } from './reach.ts';
import type { SlotLikelihood } from './slot-likelihood.ts';
import { SparseSums } from './sparse-sums.ts';

/** Of one slot: the chance of each part together with each target; the unlisted part is the last. Row after row, each without the targets it cannot go with. */
export interface Joint {
  /** Where the row of each part begins; one longer than the parts. */
  readonly from: Int32Array;
  readonly targets: Int32Array;
  readonly chances: Float64Array;
  /** Chance of each part. */
  readonly parts: Float64Array;
}

export interface Joints {
  /** Chance of each target. */
  readonly targets: Float64Array;
  readonly slots: readonly Joint[];
}

/** All products set aside are together less than this, as negligible models are. */
const negligible = 1e-10;
/** A difference of equal sums leaves rounding behind, on either side of nothing: together, of a hundred thousand such, less than a negligible model. */
const nothing = 1e-17;

/** The boxes counted models can be in, one after the other for each. */
interface Pairs {
  readonly count: number;
  readonly box: Int32Array;
  readonly model: Int32Array;
  /** Chance of the model and of every slot's being in the box. */
  readonly chance: Float64Array;
  /** By slot: the run of `shared` the box asks for, −1 for any part; and the chance of the model and of every other slot's being in the box. */
  readonly asks: readonly Int32Array[];
  readonly others: readonly Float64Array[];
}

/** For every slot, part and target, the chance of both. Only boxes a counted model can be in are carried along. */
export const jointsOf = (
  ground: OddsGround,
  slots: readonly SlotLikelihood[],
  weights: Float64Array,
  counted: readonly number[],
): Joints => {
  const { weights: of } = ground.targets;
  const width = ground.targets.all.length;
  const pairs = pairsOf(ground, slots, weights, counted);
  const work = workFor(ground, slots, width);
  const targets = new Float64Array(width);
  for (let pair = 0; pair < pairs.count; pair += 1) {
    const box = pairs.box[pair] as number;
    for (let i = of.from[box] as number; i < (of.from[box + 1] as number); i += 1) {
      const target = of.targets[i] as number;
      targets[target] = (targets[target] as number) + (of.weights[i] as number) * (pairs.chance[pair] as number);
    }
  }
  for (let target = 0; target < width; target += 1) if ((targets[target] as number) <= nothing) targets[target] = 0;
  return { targets, slots: slots.map((slot, number) => jointAt(ground, slot, number, pairs, work)) };
};

/** Sums on the way to one slot's rows, used for one slot after the other. */
interface Work {
  readonly bySeat: SparseSums;
  readonly byPattern: SparseSums;
  readonly byClass: SparseSums;
  readonly byPart: SparseSums;
}

const workFor = ({ built }: OddsGround, slots: readonly SlotLikelihood[], width: number): Work => {
  const most = (rows: (slot: SlotLikelihood, number: number) => number) =>
    new SparseSums(
      slots.reduce((greatest, slot, number) => Math.max(greatest, rows(slot, number)), 0),
      width,
    );
  return {
    bySeat: most(({ seats }) => seats.length),
    byPattern: most((_, number) => (built.patterns[number] ?? []).length),
    byClass: most(({ slot }) => slot.matingCount),
    byPart: most(({ slot }) => slot.parts.length + 1),
  };
};

const pairsOf = (
  { built, reach }: OddsGround,
  slots: readonly SlotLikelihood[],
  weights: Float64Array,
  counted: readonly number[],
): Pairs => {
  const most = counted.reduce((sum, model) => sum + (reach.from[model + 1] as number) - (reach.from[model] as number), 0);
  const smallest = negligible / Math.max(most, 1);
  const count = slots.length;
  const met = slots.map((slot, number) => meetings(slot, reach.shared[number] as Shared));
  const box = new Int32Array(most);
  const of = new Int32Array(most);
  const chance = new Float64Array(most);
  const asks = slots.map(() => new Int32Array(most));
  const others = slots.map(() => new Float64Array(most));
  const factor = new Float64Array(count);
  const before = new Float64Array(count + 1);
  let found = 0;
  for (let m = 0; m < counted.length; m += 1) {
    const model = counted[m] as number;
    before[0] = weights[model] as number;
    for (let at = reach.from[model] as number; at < (reach.from[model + 1] as number); at += 1) {
      let slot = 0;
      for (; slot < count; slot += 1) {
        const run = (reach.asks[slot] as Int32Array)[at] as number;
        const share = run < 0 ? 1 : meeting(met[slot] as Meetings, (built.seatOf[slot] as Int32Array)[model] as number, run);
        factor[slot] = share;
        const product = (before[slot] as number) * share;
        before[slot + 1] = product;
        if (product < smallest) break;
      }
      if (slot < count) continue;
      box[found] = reach.boxes[at] as number;
      of[found] = model;
      chance[found] = before[count] as number;
      let after = 1;
      for (slot = count - 1; slot >= 0; slot -= 1) {
        (others[slot] as Float64Array)[found] = (before[slot] as number) * after;
        (asks[slot] as Int32Array)[found] = (reach.asks[slot] as Int32Array)[at] as number;
        after *= factor[slot] as number;
      }
      found += 1;
    }
  }
  return { count: found, box, model: of, chance, asks, others };
};

interface Meetings {
  readonly slot: SlotLikelihood;
  readonly shared: Shared;
  /** By run of `shared`, once asked for: how likely the slot's part is one of it, its observations known; less than nothing before. */
  readonly shares: Float64Array;
}

const meetings = (slot: SlotLikelihood, shared: Shared): Meetings => ({
  slot,
  shared,
  shares: new Float64Array(shared.from.length - 1).fill(-1),
});

const meeting = ({ slot, shared, shares }: Meetings, seat: number, run: number): number => {
  // A slot that holds nothing holds nothing the name asks for; that it is empty says nothing of what the unit was built as.
  if (slot.absent) return 0;
  const known = shares[run] as number;
  if (known >= 0) return known;
  let sum = 0;
  for (let i = shared.from[run] as number; i < (shared.from[run + 1] as number); i += 1) sum += heldWith(slot, seat, shared, i);
  const share = sum / (slot.total[seat] as number);
  shares[run] = share;
  return share;
};

/** Chance of a part both asked for and possible in the seat, and of the slot's observations. */
const heldWith = ({ before, ofPart }: SlotLikelihood, seat: number, { parts, how }: Shared, at: number): number => {
  const ways = how[at] as number;
  const own = (ways & listedThere) === 0 ? 0 : (before.own[seat] as number);
  const swappedIn = (ways & fitsThere) === 0 ? 0 : (before.swappedIn[seat] as number);
  return (own + swappedIn) * (ofPart[parts[at] as number] as number);
};

const jointAt = (
  { built, targets, reach }: OddsGround,
  slot: SlotLikelihood,
  number: number,
  pairs: Pairs,
  { bySeat, byPattern, byClass, byPart: single }: Work,
): Joint => {
  const { parts: all, matingCount } = slot.slot;
  const { seats, total, before, ofPart } = slot;
  const patterns = built.patterns[number] as readonly Int32Array[];
  const seatOf = built.seatOf[number] as Int32Array;
  const partsOf = built.partsOf[number] as readonly Int32Array[];
  const shared = reach.shared[number] as Shared;
  const asks = pairs.asks[number] as Int32Array;
  const others = pairs.others[number] as Float64Array;
  const { from, targets: target, weights } = targets.weights;

  // Boxes that ask nothing of the slot weigh every part of a seat alike: their targets are summed by seat first.
  bySeat.clear();
  single.clear();
  for (let pair = 0; pair < pairs.count; pair += 1) {
    const seat = seatOf[pairs.model[pair] as number] as number;
    const box = pairs.box[pair] as number;
    const [first, end] = [from[box] as number, from[box + 1] as number];
    const run = asks[pair] as number;
    const chance = (others[pair] as number) / (total[seat] as number);
    if (run < 0) for (let i = first; i < end; i += 1) bySeat.add(seat, target[i] as number, (weights[i] as number) * chance);
    else
      for (let k = shared.from[run] as number; k < (shared.from[run + 1] as number); k += 1) {
        const held = chance * heldWith(slot, seat, shared, k);
        if (held > 0)
          for (let i = first; i < end; i += 1) single.add(shared.parts[k] as number, target[i] as number, (weights[i] as number) * held);
      }
  }
  // What all parts that fit alike have alike, each times how likely the observations are of it.
  byPattern.clear();
  for (let seat = 0; seat < seats.length; seat += 1) {
    if (!bySeat.has(seat)) continue;
    const reached = bySeat.read(seat, nothing / (total[seat] as number));
    const { listed, pattern } = seats[seat] as Seat;
    const [own, swappedIn, unlisted] = [before.own[seat] as number, before.swappedIn[seat] as number, before.unlisted[seat] as number];
    for (let i = 0; i < reached; i += 1) {
      const [column, sum] = [bySeat.columns[i] as number, bySeat.values[i] as number];
      if (unlisted > 0) single.add(all.length, column, sum * unlisted);
      if (swappedIn > 0) byPattern.add(pattern, column, sum * swappedIn);
      if (own > 0)
        for (let k = 0; k < listed.length; k += 1) {
          const part = listed[k] as number;
          const held = own * (ofPart[part] as number);
          if (held > 0) single.add(part, column, sum * held);
        }
    }
  }
  byClass.clear();
  for (let pattern = 0; pattern < patterns.length; pattern += 1) {
    if (!byPattern.has(pattern)) continue;
    const fits = patterns[pattern] as Int32Array;
    const reached = byPattern.read(pattern, 0);
    for (let i = 0; i < reached; i += 1)
      for (let k = 0; k < fits.length; k += 1)
        byClass.add(fits[k] as number, byPattern.columns[i] as number, byPattern.values[i] as number);
  }
  for (let mating = 0; mating < matingCount; mating += 1) {
    if (!byClass.has(mating)) continue;
    const reached = byClass.read(mating, 0);
    const members = partsOf[mating] as Int32Array;
    for (let k = 0; k < members.length; k += 1) {
      const part = members[k] as number;
      const times = ofPart[part] as number;
      if (times > 0)
        for (let i = 0; i < reached; i += 1) single.add(part, byClass.columns[i] as number, times * (byClass.values[i] as number));
    }
  }
  return rowsOf(single, all.length + 1);
};

const rowsOf = (sums: SparseSums, rows: number): Joint => {
  const from = new Int32Array(rows + 1);
  const parts = new Float64Array(rows);
  const targets = new Int32Array(sums.size);
  const chances = new Float64Array(sums.size);
  let filled = 0;
  for (let row = 0; row < rows; row += 1) {
    const reached = sums.read(row, nothing);
    let all = 0;
    for (let i = 0; i < reached; i += 1) {
      const chance = sums.values[i] as number;
      if (chance <= 0) continue;
      targets[filled] = sums.columns[i] as number;
      chances[filled] = chance;
      all += chance;
      filled += 1;
    }
    parts[row] = all;
    from[row + 1] = filled;
  }
  return { from, targets: targets.slice(0, filled), chances: chances.slice(0, filled), parts };
};
