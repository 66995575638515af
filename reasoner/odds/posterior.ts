import type { Assumptions } from '../answer/assumptions.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { has } from './ascending.ts';
import type { Seat } from './built.ts';
import { entropyOf } from './entropy.ts';
import type { OddsGround } from './ground.ts';
import { type JointOdds, jointOddsOf, targetChances } from './joint-odds.ts';
import { type Likely, likelyOf } from './likely.ts';
import { type Pairs, pairsOf } from './pairs.ts';
import type { SlotLikelihood } from './slot-likelihood.ts';
import { slotsOf } from './slots-of.ts';

/** How likely everything is but the next looks, given the entries (not told ones) of a sheet. Exact sums, under `Assumptions`. */
export interface Chances {
  readonly ground: OddsGround;
  readonly assumptions: Assumptions;
  /** Chance of each of `built.models` to be what the unit was built as. */
  readonly built: Float64Array;
  /** Chance of each target. */
  readonly targets: Float64Array;
  /** By slot, its entries against its parts. */
  readonly slots: readonly SlotLikelihood[];
  /** Natural logarithm of how likely all entries are under the atlas, over how likely they are when each is blind by itself. */
  readonly support: number;
}

/** The odds with what weighing checks takes besides. */
export interface Posterior extends Chances {
  readonly sheet: Sheet;
  /** Uncertainty about the target: entropy, bits. */
  readonly bits: number;
  /** The targets as looks are weighed. */
  readonly likely: Likely;
  /** For each slot, the chance of each part together with each column of the likely: rows of parts (the unlisted part last). */
  readonly joint: readonly JointOdds[];
}

/** Models whose chances together are less than this are set aside: every chance is exact to within it, every entropy to within 4e-9 bits (−ε·log₂ ε). */
const negligible = 1e-10;
/** In an atlas of many names more is: this share of the chance that the unit is not the likeliest model. Entropies are exact to within 3e-6 bits. */
const negligibleOfDoubt = 1e-7;

/** Of an atlas with no more honest names than this every check is weighed to the last. */
const namesWeighedExactly = 64;
const isSmall = ({ targets }: OddsGround): boolean => targets.all.length <= namesWeighedExactly;
/**
 * In a larger one, of each slot the least likely of parts with targets are taken to read as blind ones do: so much of all that is likely, for each bit that is uncertain. A change of that much of what can be moves
 * what a look tells by no more than its own entropy and its share of what is uncertain (Fano): together less than a thousandth of what is uncertain.
 */
const asidePerBit = 1e-5;
/** In a larger one besides, the least likely names are one: what a look tells among them, no more than this share of what is uncertain, is left out. */
const amongTheRest = 5e-4;

/** What a sheet's entries do not change, where none counts and no slot is empty: the same for every such sheet, as long as what is taken for granted is. */
type Untouched = Omit<Posterior, 'sheet'>;

/** The last made of each edition. */
const untouched = new WeakMap<OddsGround, { readonly said: string; readonly known: Untouched }>();

/** @param exact whether every check is to be weighed to the last; where it is not, to a thousandth of what is uncertain @throws RangeError when without slips what was seen cannot happen at all */
export const posteriorOf = (ground: OddsGround, sheet: Sheet, assumptions: Assumptions, exact = isSmall(ground)): Posterior => {
  const slots = slotsOf(ground, sheet, assumptions);
  if (slots.some(({ entered, absent }) => absent || entered.length > 0))
    return { ...posteriorWith(ground, slots, assumptions, exact), sheet };
  const said = JSON.stringify([...Object.values(assumptions), exact]);
  const kept = untouched.get(ground);
  const known = kept?.said === said ? kept.known : posteriorWith(ground, slots, assumptions, exact);
  untouched.set(ground, { said, known });
  return { ...known, assumptions, sheet };
};

/** @param exact whether nothing is to be set aside */
const posteriorWith = (ground: OddsGround, slots: readonly SlotLikelihood[], assumptions: Assumptions, exact: boolean): Untouched => {
  const { pairs, ...chances } = chancesWith(ground, slots, assumptions, exact);
  const bits = entropyOf(chances.targets);
  const likely = likelyOf(chances.targets, exact ? 0 : bits * amongTheRest);
  return { ...chances, bits, likely, joint: jointOddsOf(ground, slots, pairs, likely, exact ? 0 : bits * asidePerBit) };
};

/** @throws RangeError as `posteriorOf` */
export const chancesOf = (ground: OddsGround, sheet: Sheet, assumptions: Assumptions): Chances =>
  chancesWith(ground, slotsOf(ground, sheet, assumptions), assumptions, isSmall(ground));

/**
 * Given the model a unit was built as, its slots are independent (a swap is judged against the model's own parts, not against another swap), so
 * chance(built as b) ∝ chance before(b) · Π over slots of Σ over parts of chance(part | b) · likelihood(entries | part),
 * and the chance of a box is a sum over b of products over slots.
 */
const chancesWith = (
  ground: OddsGround,
  slots: readonly SlotLikelihood[],
  assumptions: Assumptions,
  exact: boolean,
): Chances & { readonly pairs: Pairs } => {
  const weights = new Float64Array(ground.built.models.length);
  const support = weighModels(
    ground,
    slots.map(({ total }) => total),
    assumptions,
    weights,
  );
  if (support === Number.NEGATIVE_INFINITY)
    throw new RangeError('Under these assumptions what was seen could never be seen: allow for slips');
  const doubt = exact ? 0 : 1 - weights.reduce((most, weight) => Math.max(most, weight), 0);
  const aside = Math.max(negligible, negligibleOfDoubt * doubt);
  ground.atlas.pulse();
  const pairs = pairsOf(ground, slots, weights, countedModels(weights, aside), aside);
  return { ground, assumptions, built: weights, targets: targetChances(ground, pairs), slots, support, pairs };
};

/** How many entries count. */
export const entriesIn = ({ slots }: Pick<Chances, 'slots'>): readonly Observation[] =>
  slots.flatMap(({ entered }) => entered.flatMap(({ entries }) => entries));

/**
 * The chance of each model, into `weights`.
 * @param totals by slot and seat @returns the logarithm of how likely the entries are; −∞ where they can never be made
 */
const weighModels = (
  { built: { models, seatOf } }: OddsGround,
  totals: readonly Float64Array[],
  { stranger }: Assumptions,
  weights: Float64Array,
): number => {
  const listed = models.length - 1;
  const before = (model: number): number => (model === listed ? (listed === 0 ? 1 : stranger) : (1 - stranger) / listed);
  for (let m = 0; m <= listed; m += 1) {
    let sum = Math.log(before(m));
    for (let slot = 0; slot < totals.length; slot += 1)
      sum += Math.log((totals[slot] as Float64Array)[(seatOf[slot] as Int32Array)[m] as number] as number);
    weights[m] = sum;
  }
  const greatest = weights.reduce((most, weight) => Math.max(most, weight), Number.NEGATIVE_INFINITY);
  if (greatest === Number.NEGATIVE_INFINITY) return greatest;
  let sum = 0;
  for (let m = 0; m <= listed; m += 1) {
    weights[m] = Math.exp((weights[m] as number) - greatest);
    sum += weights[m] as number;
  }
  for (let m = 0; m <= listed; m += 1) weights[m] = (weights[m] as number) / sum;
  return greatest + Math.log(sum);
};

/** Every model that matters: all but the least likely, which together are less than `aside`. Models as likely as each other matter or do not together. */
const countedModels = (weights: Float64Array, aside: number): number[] => {
  const ascending = weights.toSorted();
  let left = 0;
  let at = 0;
  while (at < ascending.length && left + (ascending[at] as number) < aside) left += ascending[at++] as number;
  const least = ascending[at] ?? Number.POSITIVE_INFINITY;
  const counted: number[] = [];
  weights.forEach((weight, model) => {
    if (weight >= least) counted.push(model);
  });
  return counted;
};

/** Models rarer than this add to no chance but rounding, all together. */
const unheardOf = 1e-18;

/** By seat of a slot, the chance of its models over how likely the slot's entries are there. */
const chanceBySeat = ({ ground: { built }, built: models, slots }: Chances, number: number): Float64Array => {
  const { total } = slots[number] as SlotLikelihood;
  const seatOf = built.seatOf[number] as Int32Array;
  const sums = new Float64Array(total.length);
  for (let model = 0; model < models.length; model += 1) {
    const chance = models[model] as number;
    const seat = seatOf[model] as number;
    if (chance > unheardOf) sums[seat] = (sums[seat] as number) + chance / (total[seat] as number);
  }
  return sums;
};

/** The chance of each part of a slot; the unlisted part is the last. */
export const partChances = (chances: Chances, number: number): Float64Array => {
  const { slot, seats, before, ofPart, ofUnlisted } = chances.slots[number] as SlotLikelihood;
  const patterns = chances.ground.built.patterns[number] ?? [];
  const bySeat = chanceBySeat(chances, number);
  const made = new Float64Array(slot.parts.length + 1);
  const fitting = new Float64Array(patterns.length);
  const misfit = new Float64Array(patterns.length);
  let belonging = 0;
  let unlisted = 0;
  for (let seat = 0; seat < seats.length; seat += 1) {
    const weight = bySeat[seat] as number;
    if (weight === 0) continue;
    const { listed, pattern } = seats[seat] as Seat;
    const own = weight * (before.own[seat] as number);
    for (let i = 0; i < listed.length; i += 1) made[listed[i] as number] = (made[listed[i] as number] as number) + own;
    belonging += weight * (before.belonging[seat] as number);
    unlisted += weight * (before.unlisted[seat] as number) * ofUnlisted;
    fitting[pattern] = (fitting[pattern] as number) + weight * (before.swappedIn.fitting[seat] as number);
    misfit[pattern] = (misfit[pattern] as number) + weight * (before.swappedIn.misfit[seat] as number);
  }
  const ofClass = swappedInByClass(slot.matingCount, patterns, fitting, misfit);
  for (let part = 0; part < ofPart.length; part += 1) {
    const all = (made[part] as number) + belonging + (ofClass[slot.matingOf[part] as number] as number);
    made[part] = Math.max(0, Math.min(1, all * (ofPart[part] as number)));
  }
  made[slot.parts.length] = Math.max(0, Math.min(1, unlisted));
  return made;
};

/** By mating class: what patterns it fits have of `fitting`, and the others of `misfit`; these are added up one by one where the difference would be mere rounding. */
const swappedInByClass = (classes: number, patterns: readonly Int32Array[], fitting: Float64Array, misfit: Float64Array): Float64Array => {
  const ofClass = new Float64Array(classes);
  const fits = new Float64Array(classes);
  let all = 0;
  patterns.forEach((own, pattern) => {
    const fitted = fitting[pattern] as number;
    const missed = misfit[pattern] as number;
    all += missed;
    if (fitted === 0 && missed === 0) return;
    for (let i = 0; i < own.length; i += 1) {
      const mating = own[i] as number;
      ofClass[mating] = (ofClass[mating] as number) + fitted;
      fits[mating] = (fits[mating] as number) + missed;
    }
  });
  if (all === 0) return ofClass;
  for (let mating = 0; mating < classes; mating += 1) {
    const others = all - (fits[mating] as number);
    const missed =
      others > 1e-6 * all ? others : patterns.reduce((sum, own, at) => (has(own, mating) ? sum : sum + (misfit[at] as number)), 0);
    ofClass[mating] = (ofClass[mating] as number) + missed;
  }
  return ofClass;
};
