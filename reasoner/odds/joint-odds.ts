import type { Seat } from './built.ts';
import type { OddsGround } from './ground.ts';
import type { Likely } from './likely.ts';
import { exponentOf } from './log-of.ts';
import type { Pairs } from './pairs.ts';
import { placeOf, type SlotReach } from './reach.ts';
import type { SlotLikelihood } from './slot-likelihood.ts';
import { SparseSums } from './sparse-sums.ts';

/**
 * Of one slot: the chance of each part together with each column of targets (`likely.ts`); the unlisted part is the last. Row after row, each without those it cannot go with, and beside them what any
 * listed part has, a misfit or of an open-ended list: its weight times `any`. A row may take away from that; both together are a chance.
 */
export interface JointOdds {
  /** Where the row of each part begins; one longer than the parts. */
  readonly from: Int32Array;
  /** The rows in which there is anything, ascending. */
  readonly held: Int32Array;
  readonly targets: Int32Array;
  readonly chances: Float64Array;
  readonly any: { readonly targets: Int32Array; readonly chances: Float64Array };
  /** By part; nothing of the unlisted one. */
  readonly weights: Float64Array;
  /** By column, what rows and `any` leave out of its chance; null where nothing is left out on purpose. */
  readonly lost: Float64Array | null;
}

/** A difference of equal sums leaves rounding behind, on either side of nothing: together, of a hundred thousand such, less than a negligible model. */
const nothing = 1e-17;

/** Rows leave out so much together. */
const leftOut = 1e-10;

/** For every target its chance: of the boxes counted models can be in, each with its weight. */
export const targetChances = ({ targets }: OddsGround, pairs: Pairs): Float64Array => {
  const { from, targets: target, weights } = targets.weights;
  const chances = new Float64Array(targets.all.length);
  for (let pair = 0; pair < pairs.count; pair += 1) {
    const box = pairs.box[pair] as number;
    for (let i = from[box] as number; i < (from[box + 1] as number); i += 1) {
      const at = target[i] as number;
      chances[at] = (chances[at] as number) + (weights[i] as number) * (pairs.chance[pair] as number);
    }
  }
  for (let at = 0; at < chances.length; at += 1) chances[at] = (chances[at] as number) <= nothing ? 0 : Math.min(1, chances[at] as number);
  return chances;
};

const kept = new WeakMap<OddsGround, Work>();

/** For every slot, part and column of targets, the chance of both. @param aside so much, together, may be left out of each slot */
export const jointOddsOf = (
  ground: OddsGround,
  slots: readonly SlotLikelihood[],
  pairs: Pairs,
  likely: Likely,
  aside: number,
): JointOdds[] => {
  const work = kept.get(ground) ?? workFor(ground, slots);
  kept.set(ground, work);
  const counted = countedPairs(ground, pairs, aside / 2);
  const columns = ground.targets.weights.targets.map((target) => likely.columnOf[target] as number);
  const { chances } = likely;
  return slots.map((slot) => {
    ground.atlas.pulse();
    return withLost(jointAt(ground, slot, pairs, counted, columns, chances.length, work, aside / 2), chances, aside);
  });
};

/** The pairs but for the least likely, which together, whatever they count for, are no more than `aside`. */
const countedPairs = ({ targets: { weights } }: OddsGround, { count, box, chance }: Pairs, aside: number): Int32Array => {
  const worth = new Float64Array(count);
  for (let pair = 0; pair < count; pair += 1) {
    const of = box[pair] as number;
    let times = 0;
    for (let i = weights.from[of] as number; i < (weights.from[of + 1] as number); i += 1) times += Math.abs(weights.weights[i] as number);
    worth[pair] = times * (chance[pair] as number);
  }
  const least = leastOf(worth, count, aside);
  const counted = new Int32Array(count);
  let reach = 0;
  for (let pair = 0; pair < count; pair += 1) if ((worth[pair] as number) >= least) counted[reach++] = pair;
  return counted.subarray(0, reach);
};

const withLost = (joint: Omit<JointOdds, 'lost'>, chances: Float64Array, aside: number): JointOdds => {
  if (aside === 0) return { ...joint, lost: null };
  const lost = chances.slice();
  const { targets, chances: often, any, weights } = joint;
  for (let i = 0; i < targets.length; i += 1) lost[targets[i] as number] = (lost[targets[i] as number] as number) - (often[i] as number);
  const heaviest = sumOf(weights);
  for (let i = 0; i < any.targets.length; i += 1) {
    const target = any.targets[i] as number;
    lost[target] = (lost[target] as number) - heaviest * (any.chances[i] as number);
  }
  return { ...joint, lost };
};

const sumOf = (list: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < list.length; i += 1) sum += list[i] as number;
  return sum;
};

/** A power of two: what is nearer to nothing is, all together, no more than `aside`. */
const leastOf = (values: Float64Array, count: number, aside: number): number => {
  if (aside === 0) return 0;
  const sums = new Float64Array(2048);
  for (let i = 0; i < count; i += 1) {
    const value = values[i] as number;
    const at = exponentOf(value);
    sums[at] = (sums[at] as number) + Math.abs(value);
  }
  let left = aside;
  let at = 0;
  while (at < 2047 && (sums[at] as number) <= left) {
    left -= sums[at] as number;
    at += 1;
  }
  return 2 ** (at - 1023);
};

/** Sums on the way to one slot's rows, used for one slot, and one sheet, after the other. */
interface Work {
  readonly bySeat: SparseSums;
  readonly byPattern: SparseSums;
  readonly byClass: SparseSums;
  readonly byDemand: SparseSums;
  readonly byFit: SparseSums;
  readonly byPart: SparseSums;
}

const workFor = ({ built, reach, targets }: OddsGround, slots: readonly SlotLikelihood[]): Work => {
  const most = (rows: (slot: SlotLikelihood, reach: SlotReach) => number) =>
    new SparseSums(
      slots.reduce((greatest, slot, number) => Math.max(greatest, rows(slot, reach.slots[number] as SlotReach)), 0),
      targets.all.length,
    );
  return {
    bySeat: most(({ seats }) => seats.length),
    byPattern: most(({ slot }) => (built.patterns[slot.number] ?? []).length),
    byClass: most(({ slot }) => slot.matingCount),
    byDemand: most((_, { demands }) => demands.length),
    byFit: most((_, { fits }) => fits.demands.length),
    byPart: most(({ slot }) => slot.parts.length + 1),
  };
};

const jointAt = (
  { built, targets, reach }: OddsGround,
  slot: SlotLikelihood,
  pairs: Pairs,
  counted: Int32Array,
  column: Int32Array,
  width: number,
  work: Work,
  aside: number,
): Omit<JointOdds, 'lost'> => {
  const { number, parts: all } = slot.slot;
  const { seats, total, before, ofPart } = slot;
  const { bySeat, byPattern, byClass, byDemand, byFit, byPart } = work;
  const seatOf = built.seatOf[number] as Int32Array;
  const { own, fits, demands } = reach.slots[number] as SlotReach;
  const others = pairs.others[number] as Float64Array;
  const { from, weights } = targets.weights;
  const count = reach.slots.length;

  // Boxes that ask nothing of the slot weigh every part of a seat alike: their targets are summed by seat first.
  bySeat.clear();
  byPart.clear();
  byDemand.clear();
  byFit.clear();
  for (let k = 0; k < counted.length; k += 1) {
    const pair = counted[k] as number;
    const seat = seatOf[pairs.model[pair] as number] as number;
    const box = pairs.box[pair] as number;
    const first = from[box] as number;
    const end = from[box + 1] as number;
    const demand = reach.asks[box * count + number] as number;
    const chance = (others[pair] as number) / (total[seat] as number);
    if (demand < 0) {
      for (let i = first; i < end; i += 1) bySeat.add(seat, column[i] as number, (weights[i] as number) * chance);
      continue;
    }
    const any = before.any[seat] as number;
    const listed = before.own[seat] as number;
    const fitting = before.fits[seat] as number;
    if (any > 0) for (let i = first; i < end; i += 1) byDemand.add(demand, column[i] as number, (weights[i] as number) * chance * any);
    if (fitting !== 0) {
      const at = placeOf(fits, (seats[seat] as Seat).pattern, demand);
      if (at >= 0) for (let i = first; i < end; i += 1) byFit.add(at, column[i] as number, (weights[i] as number) * chance * fitting);
    }
    if (listed > 0) {
      const at = placeOf(own, seat, demand);
      if (at >= 0)
        for (let k = own.partsFrom[at] as number; k < (own.partsFrom[at + 1] as number); k += 1) {
          const part = own.parts[k] as number;
          const held = chance * listed * (ofPart[part] as number);
          if (held > 0) for (let i = first; i < end; i += 1) byPart.add(part, column[i] as number, (weights[i] as number) * held);
        }
    }
  }
  const share = (sums: SparseSums, row: number, parts: Int32Array, first: number, end: number): void => {
    if (!sums.has(row)) return;
    const reached = sums.read(row, 0);
    for (let k = first; k < end; k += 1) {
      const part = parts[k] as number;
      const times = ofPart[part] as number;
      if (times > 0) for (let i = 0; i < reached; i += 1) byPart.add(part, sums.columns[i] as number, times * (sums.values[i] as number));
    }
  };
  demands.forEach((parts, demand) => {
    share(byDemand, demand, parts, 0, parts.length);
  });
  for (let at = 0; at < fits.demands.length; at += 1)
    share(byFit, at, fits.parts, fits.partsFrom[at] as number, fits.partsFrom[at + 1] as number);
  // What all parts that fit alike have alike, each times how likely the entries are of it.
  byPattern.clear();
  const any = new Float64Array(width);
  for (let seat = 0; seat < seats.length; seat += 1) {
    if (!bySeat.has(seat)) continue;
    const reached = bySeat.read(seat, nothing / (total[seat] as number));
    const { listed, pattern } = seats[seat] as Seat;
    const kept = before.own[seat] as number;
    const fitting = before.fits[seat] as number;
    const each = before.any[seat] as number;
    const unlisted = (before.unlisted[seat] as number) * slot.ofUnlisted;
    for (let i = 0; i < reached; i += 1) {
      const to = bySeat.columns[i] as number;
      const sum = bySeat.values[i] as number;
      if (unlisted > 0) byPart.add(all.length, to, sum * unlisted);
      if (fitting !== 0) byPattern.add(pattern, to, sum * fitting);
      any[to] = (any[to] as number) + sum * each;
      if (kept > 0)
        for (let k = 0; k < listed.length; k += 1) {
          const part = listed[k] as number;
          const held = kept * (ofPart[part] as number);
          if (held > 0) byPart.add(part, to, sum * held);
        }
    }
  }
  byClass.clear();
  (built.patterns[number] as readonly Int32Array[]).forEach((classes, pattern) => {
    if (!byPattern.has(pattern)) return;
    const reached = byPattern.read(pattern, 0);
    for (let i = 0; i < reached; i += 1)
      for (let k = 0; k < classes.length; k += 1)
        byClass.add(classes[k] as number, byPattern.columns[i] as number, byPattern.values[i] as number);
  });
  (built.partsOf[number] as readonly Int32Array[]).forEach((parts, mating) => {
    share(byClass, mating, parts, 0, parts.length);
  });
  return rowsOf(byPart, any, slot.weights, aside);
};

const rowsOf = (sums: SparseSums, anyOf: Float64Array, weights: Float64Array, aside: number): Omit<JointOdds, 'lost'> => {
  const rows = weights.length;
  const from = new Int32Array(rows + 1);
  const targets = new Int32Array(sums.size);
  const chances = new Float64Array(sums.size);
  // What is left out is together less than a negligible model.
  const rounding = Math.max(nothing, leftOut / Math.max(sums.size, anyOf.length));
  let filled = 0;
  for (let row = 0; row < rows; row += 1) {
    const reached = sums.read(row, rounding);
    for (let i = 0; i < reached; i += 1) {
      targets[filled] = sums.columns[i] as number;
      chances[filled] = sums.values[i] as number;
      filled += 1;
    }
    from[row + 1] = filled;
  }
  const least = leastOf(chances, filled, aside);
  if (least > 0) filled = withoutLeast({ from, targets, chances }, rows, least);
  const heaviest = sumOf(weights);
  const met: number[] = [];
  for (let target = 0; target < anyOf.length; target += 1) if ((anyOf[target] as number) * heaviest > rounding) met.push(target);
  const any = { targets: Int32Array.from(met), chances: new Float64Array(met.length) };
  met.forEach((target, i) => {
    any.chances[i] = anyOf[target] as number;
  });
  return { from, held: heldRows(from), targets: targets.slice(0, filled), chances: chances.slice(0, filled), any, weights };
};

/** The rows with targets of their own. */
const heldRows = (from: Int32Array): Int32Array => {
  const held = new Int32Array(from.length);
  let count = 0;
  for (let row = 0; row + 1 < from.length; row += 1) if ((from[row + 1] as number) > (from[row] as number)) held[count++] = row;
  return held.slice(0, count);
};

/** Takes out of rows what is nearer to nothing than `least`. @returns how much is left */
const withoutLeast = ({ from, targets, chances }: Pick<JointOdds, 'from' | 'targets' | 'chances'>, rows: number, least: number): number => {
  let filled = 0;
  let first = 0;
  for (let row = 0; row < rows; row += 1) {
    const end = from[row + 1] as number;
    for (let i = first; i < end; i += 1) {
      if (Math.abs(chances[i] as number) < least) continue;
      targets[filled] = targets[i] as number;
      chances[filled] = chances[i] as number;
      filled += 1;
    }
    first = end;
    from[row + 1] = filled;
  }
  return filled;
};
