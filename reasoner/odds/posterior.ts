import type { CompiledAtlas } from '../atlas/compile.ts';
import type { Sheet } from '../sheet/sheet.ts';
import type { Assumptions } from './assumptions.ts';
import { type Built, builtOf } from './built.ts';
import { entropyOf } from './entropy.ts';
import { type Joint, jointsOf } from './joint.ts';
import { type Reach, reachOf } from './reach.ts';
import { slotLikelihood } from './slot-likelihood.ts';
import { type TargetSpace, targetsOf } from './targets.ts';

/** What the odds need of an atlas, made once for each edition. */
export interface OddsGround {
  readonly atlas: CompiledAtlas;
  readonly built: Built;
  readonly targets: TargetSpace;
  readonly reach: Reach;
}

const grounds = new WeakMap<CompiledAtlas, OddsGround>();

export const groundOf = (atlas: CompiledAtlas): OddsGround => {
  const known = grounds.get(atlas);
  if (known) return known;
  const [built, targets] = [builtOf(atlas), targetsOf(atlas)];
  const made = { atlas, built, targets, reach: reachOf(atlas, built, targets) };
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
  /** Uncertainty about the target: entropy, bits. */
  readonly bits: number;
  /** For each slot, the chance of each part together with each target: rows of parts (the unlisted part last). */
  readonly joint: readonly Joint[];
  /** Natural logarithm of how likely all observations are under the atlas, over how likely they are blind (`Readings`). */
  readonly support: number;
}

/** Models whose chances together are less than this are set aside: every chance is exact to within it, every entropy to within 4e-9 bits (−ε·log₂ ε). */
const negligible = 1e-10;

/**
 * Given the model a unit was built as, its slots are independent (a swap is judged against the model's own parts, not against another swap), so
 * chance(built as b) ∝ Π over slots of Σ over parts of chance(part | b) · likelihood(observations | part),
 * and the chance of a box is a sum over b of products over slots.
 */
export const posteriorOf = (ground: OddsGround, sheet: Sheet, assumptions: Assumptions): Posterior => {
  const { atlas, built } = ground;
  const absent = new Set(sheet.absent);
  // What was noted of a slot that holds nothing is of no part of the unit.
  const seen = sheet.observations.filter(({ sure, slot }) => sure.kind !== 'told' && !absent.has(slot));
  const slots = atlas.slots.map((slot, number) =>
    slotLikelihood(
      atlas,
      slot,
      built.seats[number] ?? [],
      seen.filter((observation) => observation.slot === slot.slot.id),
      absent.has(slot.slot.id),
      assumptions,
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

  const joint = jointsOf(ground, slots, weights, countedModels(weights));
  const bits = entropyOf(joint.targets);
  return { ground, sheet, assumptions, built: weights, targets: joint.targets, bits, joint: joint.slots, support };
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
