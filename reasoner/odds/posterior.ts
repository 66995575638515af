import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../atlas/compile.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import type { Assumptions } from './assumptions.ts';
import { type Built, builtOf, chancesBefore, type Seat } from './built.ts';
import { likelihoodsOf } from './readings.ts';
import { type Box, type TargetSpace, targetsOf } from './targets.ts';

/** What the odds need of an atlas, made once for each edition. */
export interface OddsGround {
  readonly atlas: CompiledAtlas;
  readonly built: Built;
  readonly targets: TargetSpace;
}

const grounds = new WeakMap<CompiledAtlas, OddsGround>();

export const groundOf = (atlas: CompiledAtlas): OddsGround => {
  const known = grounds.get(atlas);
  if (known) return known;
  const made = { atlas, built: builtOf(atlas), targets: targetsOf(atlas) };
  grounds.set(atlas, made);
  return made;
};

/** The odds of everything asked about, given the observations (not told ones) of a sheet. Exact sums, under `Assumptions`. */
export interface Posterior {
  readonly ground: OddsGround;
  readonly sheet: Sheet;
  readonly assumptions: Assumptions;
  /** Chance of each model of `built.models` to be what the unit was built as. */
  readonly built: Float64Array;
  /** Chance of each target. */
  readonly targets: Float64Array;
  /** For each slot, the chance of each part together with each target: rows of parts (the unlisted part last), columns of targets. */
  readonly joint: readonly Joint[];
  /** Natural logarithm of how likely all observations are under the atlas, over how likely they are blind (`Readings`). */
  readonly support: number;
}

/** Sparse rows. */
export interface Joint {
  readonly rows: readonly { readonly targets: Int32Array; readonly chances: Float64Array }[];
  /** Chance of each part; the unlisted part last. */
  readonly parts: Float64Array;
}

/** Models whose chances together are less than this are set aside: every chance is exact to within it, every entropy to within 4e-9 bits (−ε·log₂ ε). */
const negligible = 1e-10;

/**
 * Given the model a unit was built as, its slots are independent (a swap is judged against the model's own parts, not against another swap), so
 * chance(built as b) ∝ Π over slots of Σ over parts of chance(part | b) · likelihood(observations | part),
 * and the chance of a box is a sum over b of products over slots.
 */
export const posteriorOf = (ground: OddsGround, sheet: Sheet, assumptions: Assumptions): Posterior => {
  const { atlas, built, targets } = ground;
  const absent = new Set(sheet.absent);
  // What was noted of a slot that holds nothing is of no part of the unit.
  const seen = sheet.observations.filter(({ sure, slot }) => sure.kind !== 'told' && !absent.has(slot));
  const slots = atlas.slots.map((slot, number) =>
    slotOdds(
      slot,
      built.seats[number] as readonly Seat[],
      seen.filter((observation) => observation.slot === slot.slot.id),
      absent.has(slot.slot.id),
      assumptions,
      atlas,
      targets.demands[number] as readonly Int32Array[],
    ),
  );

  const weights = Float64Array.from(built.models, (_, model) =>
    slots.reduce((sum, { total }, slot) => sum + Math.log(total[built.seatOf[slot]?.[model] as number] as number), 0),
  );
  const greatest = weights.reduce((most, weight) => Math.max(most, weight), Number.NEGATIVE_INFINITY);
  const models = weights.length;
  if (greatest === Number.NEGATIVE_INFINITY)
    throw new RangeError('Under these assumptions what was seen could never be seen: allow for slips');
  let sum = 0;
  for (let m = 0; m < models; m += 1) {
    weights[m] = Math.exp((weights[m] as number) - greatest);
    sum += weights[m] as number;
  }
  const support = greatest + Math.log(sum / models);
  for (let m = 0; m < models; m += 1) weights[m] = (weights[m] as number) / sum;

  const counted = countedModels(weights);
  const joint = jointsOf(ground, slots, weights, counted);
  const all = new Float64Array(targets.all.length);
  // Any slot's rows sum to the same chances; the one with fewest rows sums fastest.
  const narrow = joint.reduce((best, each) => (each.rows.length < best.rows.length ? each : best));
  for (const { targets: columns, chances } of narrow.rows) {
    for (let i = 0; i < columns.length; i += 1) {
      const column = columns[i] as number;
      all[column] = (all[column] as number) + (chances[i] as number);
    }
  }
  return { ground, sheet, assumptions, built: weights, targets: all, joint, support };
};

/** Every model that matters: the likeliest until what is left is negligible. */
const countedModels = (weights: Float64Array): number[] => {
  const order = Array.from(weights.keys()).sort((a, b) => (weights[b] as number) - (weights[a] as number));
  let left = weights.reduce((sum, weight) => sum + weight, 0);
  const counted: number[] = [];
  for (const model of order) {
    if (left < negligible) break;
    counted.push(model);
    left -= weights[model] as number;
  }
  return counted;
};

interface SlotOdds {
  readonly slot: CompiledSlot;
  readonly absent: boolean;
  /** By seat: chance of each part with its observations (not divided by `total`); the unlisted part last. */
  readonly parts: readonly Float64Array[];
  /** By seat: chance of the observations. */
  readonly total: Float64Array;
  /** By seat, by demand: chance of the observations and a part the demand allows, over `total`. */
  readonly met: readonly Float64Array[];
}

const slotOdds = (
  slot: CompiledSlot,
  seats: readonly Seat[],
  observations: readonly Observation[],
  absent: boolean,
  assumptions: Assumptions,
  atlas: CompiledAtlas,
  demands: readonly Int32Array[],
): SlotOdds => {
  const count = slot.parts.length;
  const likelihood = new Float64Array(count + 1).fill(1);
  for (const observation of observations) {
    const facts = slot.factsOf(observation.feature);
    const own = likelihoodsOf(atlas.features.get(observation.feature) as Feature, facts, observation, assumptions.slip);
    for (let part = 0; part < count; part += 1) likelihood[part] = (likelihood[part] as number) * (own[facts.of[part] as number] as number);
  }
  const total = new Float64Array(seats.length);
  const parts = seats.map((seat, number) => {
    const chances = chancesBefore(slot, seat, assumptions);
    let sum = 0;
    for (let part = 0; part <= count; part += 1) {
      chances[part] = (chances[part] as number) * (likelihood[part] as number);
      sum += chances[part] as number;
    }
    total[number] = sum;
    return chances;
  });
  const met = parts.map((chances, seat) => {
    const own = new Float64Array(demands.length);
    // A slot that holds nothing holds nothing the name asks for; that it is empty says nothing of what the unit was built as.
    if (absent) return own;
    const all = total[seat] as number;
    for (let number = 0; number < demands.length; number += 1) {
      const demand = demands[number] as Int32Array;
      let sum = 0;
      for (let i = 0; i < demand.length; i += 1) sum += chances[demand[i] as number] as number;
      own[number] = sum / all;
    }
    return own;
  });
  return { slot, absent, parts, total, met };
};

/** Products smaller than this are set aside, as negligible models are. */
const smallest = 1e-14;

/** For every slot, part and target, the chance of both. */
const jointsOf = (
  { built, targets }: OddsGround,
  slots: readonly SlotOdds[],
  weights: Float64Array,
  counted: readonly number[],
): Joint[] => {
  const boxes = targets.boxes.length;
  // By slot, seat and box: the chance of the model and of every other slot's being in the box, models with the same seat together.
  const others = slots.map(({ total }) => new Float64Array(total.length * boxes));
  const product = new Float64Array(slots.length + 1);
  const factor = new Float64Array(slots.length);
  const seats = new Int32Array(slots.length);
  for (const model of counted) {
    for (let slot = 0; slot < slots.length; slot += 1) seats[slot] = built.seatOf[slot]?.[model] as number;
    product[0] = weights[model] as number;
    for (let box = 0; box < boxes; box += 1) {
      const { demands } = targets.boxes[box] as Box;
      let reached = 0;
      for (; reached < slots.length; reached += 1) {
        const asked = demands[reached] as number;
        const own = asked < 0 ? 1 : ((slots[reached] as SlotOdds).met[seats[reached] as number]?.[asked] as number);
        factor[reached] = own;
        product[reached + 1] = (product[reached] as number) * own;
        if ((product[reached + 1] as number) < smallest) break;
      }
      if (reached < slots.length) continue;
      let after = 1;
      for (let slot = slots.length - 1; slot >= 0; slot -= 1) {
        const at = (seats[slot] as number) * boxes + box;
        const sums = others[slot] as Float64Array;
        sums[at] = (sums[at] as number) + (product[slot] as number) * after;
        after *= factor[slot] as number;
      }
    }
  }
  return slots.map((slot, number) => jointAt(slot, targets, others[number] as Float64Array));
};

const jointAt = (slot: SlotOdds, targets: TargetSpace, others: Float64Array): Joint => {
  const { boxes } = targets;
  const width = targets.all.length;
  const rows = slot.slot.parts.length + 1;
  const dense = new Float64Array(rows * width);
  const free = new Float64Array(width);
  const touched = new Int32Array(width);
  slot.parts.forEach((chances, seat) => {
    const total = slot.total[seat] as number;
    // Boxes that ask nothing of the slot weigh every part alike: their targets are summed first.
    free.fill(0);
    const start = seat * boxes.length;
    for (let number = 0; number < boxes.length; number += 1) {
      const found = others[start + number] as number;
      if (found === 0) continue;
      const chance = found / total;
      const { demands, weights } = boxes[number] as Box;
      const asked = demands[slot.slot.number] as number;
      if (asked < 0) {
        for (let i = 0; i < weights.length; i += 1) {
          const { target, weight } = weights[i] as Box['weights'][number];
          free[target] = (free[target] as number) + weight * chance;
        }
        continue;
      }
      if (slot.absent) continue;
      const demand = targets.demands[slot.slot.number]?.[asked] as Int32Array;
      for (let k = 0; k < demand.length; k += 1) {
        const part = demand[k] as number;
        const own = chance * (chances[part] as number);
        for (let i = 0; i < weights.length; i += 1) {
          const { target, weight } = weights[i] as Box['weights'][number];
          const at = part * width + target;
          dense[at] = (dense[at] as number) + weight * own;
        }
      }
    }
    let reach = 0;
    for (let target = 0; target < width; target += 1) if (free[target] !== 0) touched[reach++] = target;
    for (let part = 0; part < rows && reach > 0; part += 1) {
      const own = chances[part] as number;
      if (own === 0) continue;
      const at = part * width;
      for (let i = 0; i < reach; i += 1) {
        const target = touched[i] as number;
        dense[at + target] = (dense[at + target] as number) + own * (free[target] as number);
      }
    }
  });
  const parts = new Float64Array(rows);
  return {
    parts,
    rows: Array.from({ length: rows }, (_, part) => {
      const columns: number[] = [];
      const values: number[] = [];
      for (let target = 0, at = part * width; target < width; target += 1, at += 1) {
        // A difference of equal sums leaves rounding behind, on either side of nothing.
        const chance = dense[at] as number;
        if (chance <= 1e-18) continue;
        columns.push(target);
        values.push(chance);
        parts[part] = (parts[part] as number) + chance;
      }
      return { targets: Int32Array.from(columns), chances: Float64Array.from(values) };
    }),
  };
};
