import type { Seat } from './built.ts';
import type { OddsGround } from './ground.ts';
import type { Reach, Shares, SlotReach } from './reach.ts';
import type { SlotLikelihood } from './slot-likelihood.ts';

/** The boxes counted models can be in, one after the other for each. They are gone with the next sheet's. */
export interface Pairs {
  readonly count: number;
  readonly box: Int32Array;
  readonly model: Int32Array;
  /** Chance of the model and of every slot's being in the box. */
  readonly chance: Float64Array;
  /** By slot: chance of the model and of every other slot's being in the box. */
  readonly others: readonly Float64Array[];
}

/** Where so many slots do not bound what misfits can come to, every box is tried. */
const mostBounding = 4;

/**
 * Every counted model with every box it can be in. A slot meets a demand with the model's own parts, with parts that fit, and, seldom, with any part at all. Where a box's slots
 * meet their demands in the last way alone, the product is soon too small to count; so only boxes are tried that at least one of a few slots meets, or leaves free, otherwise.
 * @param aside all products left out are together less than this
 */
export const pairsOf = (
  { built, reach }: OddsGround,
  slots: readonly SlotLikelihood[],
  weights: Float64Array,
  counted: readonly number[],
  aside: number,
): Pairs => {
  const smallest = aside / Math.max(counted.length * reach.boxes, 1);
  const count = slots.length;
  const pairs = roomFor(reach, count);
  const met = slots.map((slot, number) => meetingsOf(slot, reach.slots[number] as SlotReach));
  const byFree = [...met.keys()].sort((a, b) => (met[a] as Meetings).freeBoxes - (met[b] as Meetings).freeBoxes);
  const factor = new Float64Array(count);
  const before = new Float64Array(count + 1);
  const tried = new Int32Array(reach.boxes).fill(-1);
  for (const model of counted) {
    before[0] = weights[model] as number;
    for (let slot = 0; slot < count; slot += 1) met[slot]?.sit((built.seatOf[slot] as Int32Array)[model] as number);
    const tryBox = (box: number): void => {
      if (tried[box] === model) return;
      tried[box] = model;
      let slot = 0;
      for (; slot < count; slot += 1) {
        const demand = reach.asks[box * count + slot] as number;
        const share = demand < 0 ? 1 : (met[slot] as Meetings).share(demand);
        factor[slot] = share;
        const product = (before[slot] as number) * share;
        before[slot + 1] = product;
        if (product < smallest) return;
      }
      pairs.add(box, model, before, factor);
    };
    const bounding = boundedBy(met, byFree, weights[model] as number, smallest);
    if (bounding === null) for (let box = 0; box < reach.boxes; box += 1) tryBox(box);
    else for (const slot of bounding) (met[slot] as Meetings).eachBox(tryBox);
    for (const each of met) each.rise();
  }
  return pairs.all();
};

/** Slots of which one at least must meet its demand with an own or fitting part, or be free, for a box to count; null where that takes too many. */
const boundedBy = (met: readonly Meetings[], order: readonly number[], weight: number, smallest: number): number[] | null => {
  const chosen: number[] = [];
  let bound = weight;
  for (const slot of order.slice(0, mostBounding)) {
    chosen.push(slot);
    bound *= (met[slot] as Meetings).mostByMisfit;
    if (bound < smallest) return chosen;
  }
  return null;
};

const meetings = new WeakMap<SlotLikelihood, Meetings>();

/** One for each slot's entries: of a slot nothing was entered of, sheet after sheet the same. */
const meetingsOf = (slot: SlotLikelihood, reach: SlotReach): Meetings => {
  const known = meetings.get(slot) ?? new Meetings(slot, reach);
  meetings.set(slot, known);
  return known;
};

/** How likely one slot meets each demand, its entries known, for one model after the other. */
class Meetings {
  readonly #slot: SlotLikelihood;
  readonly #reach: SlotReach;
  /** By demand: how likely the entries are of its parts together; of the demand where that is most. */
  readonly #all: Float64Array;
  readonly #mostOfAll: number;
  /** By place in the shares, once asked for; less than nothing before. */
  readonly #own: Float64Array;
  readonly #fits: Float64Array;
  /** By demand, what own and fitting parts have of it beside the chance of any. */
  readonly #sitting: Float64Array;
  #seat = 0;
  #anyEach = 0;
  mostByMisfit = 0;

  constructor(slot: SlotLikelihood, reach: SlotReach) {
    this.#slot = slot;
    this.#reach = reach;
    this.#all = new Float64Array(reach.demands.length);
    let most = 0;
    for (let demand = 0; demand < this.#all.length; demand += 1) {
      const parts = reach.demands[demand] as Int32Array;
      let sum = 0;
      for (let i = 0; i < parts.length; i += 1) sum += slot.ofPart[parts[i] as number] as number;
      this.#all[demand] = sum;
      most = Math.max(most, sum);
    }
    this.#mostOfAll = most;
    this.#own = new Float64Array(reach.own.demands.length).fill(-1);
    this.#fits = new Float64Array(reach.fits.demands.length).fill(-1);
    this.#sitting = new Float64Array(reach.asking.length);
  }

  get freeBoxes(): number {
    return this.#reach.free.length;
  }

  sit(seat: number): void {
    // A slot that holds nothing holds nothing the name asks for; that it is empty says nothing of what the unit was built as.
    const { before, total, seats, absent } = this.#slot;
    this.#seat = seat;
    this.#anyEach = absent ? 0 : (before.any[seat] as number) / (total[seat] as number);
    this.mostByMisfit = this.#anyEach * this.#mostOfAll;
    if (absent) return;
    this.#take(this.#reach.own, this.#own, seat, (before.own[seat] as number) / (total[seat] as number));
    this.#take(this.#reach.fits, this.#fits, (seats[seat] as Seat).pattern, (before.fits[seat] as number) / (total[seat] as number));
  }

  share(demand: number): number {
    return (this.#sitting[demand] as number) + this.#anyEach * (this.#all[demand] as number);
  }

  /** The boxes that ask for an own or fitting part of the model, or for none. */
  eachBox(visit: (box: number) => void): void {
    const { free, own, fits, asking } = this.#reach;
    for (let i = 0; i < free.length; i += 1) visit(free[i] as number);
    if (this.#slot.absent) return;
    const { before, seats } = this.#slot;
    const seat = this.#seat;
    if (before.own[seat] !== 0) visitAsking(own, seat, asking, visit);
    if (before.fits[seat] !== 0) visitAsking(fits, (seats[seat] as Seat).pattern, asking, visit);
  }

  /** Makes room for the next model. */
  rise(): void {
    const { own, fits } = this.#reach;
    this.#clear(own, this.#seat);
    this.#clear(fits, (this.#slot.seats[this.#seat] as Seat).pattern);
  }

  #clear({ from, demands }: Shares, row: number): void {
    for (let i = from[row] as number, end = from[row + 1] as number; i < end; i += 1) this.#sitting[demands[i] as number] = 0;
  }

  #take(shares: Shares, sums: Float64Array, row: number, times: number): void {
    if (times === 0) return;
    const sitting = this.#sitting;
    for (let i = shares.from[row] as number; i < (shares.from[row + 1] as number); i += 1) {
      const demand = shares.demands[i] as number;
      sitting[demand] = (sitting[demand] as number) + times * this.#sum(shares, sums, i);
    }
  }

  #sum({ partsFrom, parts }: Shares, sums: Float64Array, at: number): number {
    const known = sums[at] as number;
    if (known >= 0) return known;
    const { ofPart } = this.#slot;
    let sum = 0;
    for (let k = partsFrom[at] as number; k < (partsFrom[at + 1] as number); k += 1) sum += ofPart[parts[k] as number] as number;
    sums[at] = sum;
    return sum;
  }
}

const visitAsking = ({ from, demands }: Shares, row: number, asking: readonly Int32Array[], visit: (box: number) => void): void => {
  for (let i = from[row] as number, end = from[row + 1] as number; i < end; i += 1) {
    const boxes = asking[demands[i] as number] as Int32Array;
    for (let k = 0; k < boxes.length; k += 1) visit(boxes[k] as number);
  }
};

const rooms = new WeakMap<Reach, GrowingPairs>();

/** Room for the pairs of one sheet, used for one after the other. */
const roomFor = (reach: Reach, slots: number): GrowingPairs => {
  const room = rooms.get(reach) ?? new GrowingPairs(slots);
  rooms.set(reach, room);
  room.clear();
  return room;
};

/** Pairs as they are found. */
class GrowingPairs {
  #box = new Int32Array(1024);
  #model = new Int32Array(1024);
  #chance = new Float64Array(1024);
  #others: Float64Array[];
  #count = 0;

  constructor(slots: number) {
    this.#others = Array.from({ length: slots }, () => new Float64Array(1024));
  }

  clear(): void {
    this.#count = 0;
  }

  /** @param before by slot, the chance of the model and of every slot before it; the last of all slots @param factor by slot */
  add(box: number, model: number, before: Float64Array, factor: Float64Array): void {
    const at = this.#count;
    if (at === this.#box.length) this.#grow();
    this.#box[at] = box;
    this.#model[at] = model;
    this.#chance[at] = before[factor.length] as number;
    let after = 1;
    for (let slot = factor.length - 1; slot >= 0; slot -= 1) {
      (this.#others[slot] as Float64Array)[at] = (before[slot] as number) * after;
      after *= factor[slot] as number;
    }
    this.#count = at + 1;
  }

  all(): Pairs {
    return { count: this.#count, box: this.#box, model: this.#model, chance: this.#chance, others: this.#others };
  }

  #grow(): void {
    const twice = <T extends Int32Array | Float64Array>(list: T, made: T): T => {
      made.set(list);
      return made;
    };
    const length = this.#box.length * 2;
    this.#box = twice(this.#box, new Int32Array(length));
    this.#model = twice(this.#model, new Int32Array(length));
    this.#chance = twice(this.#chance, new Float64Array(length));
    this.#others = this.#others.map((list) => twice(list, new Float64Array(length)));
  }
}
