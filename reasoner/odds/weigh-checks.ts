import type { Feature } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../compile/compiled.ts';
import type { FeatureId, ObservationId } from '../ids.ts';
import { keptFor } from '../plain/kept-for.ts';
import { Background } from './background.ts';
import { blindOf } from './blind.ts';
import { readAgain } from './entered.ts';
import type { JointOdds } from './joint-odds.ts';
import { givesOf, looksOf, type Runs } from './looks.ts';
import type { Posterior } from './posterior.ts';
import type { Plain, Readings } from './readings.ts';
import { roomFor } from './room.ts';
import type { EnteredFeature } from './slot-likelihood.ts';
import { spreadOf } from './spread.ts';
import { type Told, told } from './told.ts';

/** What looking at one feature is expected to tell about the honest name. */
export interface Weighed extends Told {
  readonly feature: Feature;
  readonly slot: CompiledSlot;
  /** The entries that would be read again; none where the feature was not looked at yet. */
  readonly again: readonly ObservationId[];
  readonly readings: Readings;
}

/** The features still worth asking about: not seen or measured yet, of a slot that holds something. */
export const askable = ({ ground, sheet }: Pick<Posterior, 'ground' | 'sheet'>): { slot: CompiledSlot; feature: Feature }[] => {
  const settled = new Set<FeatureId>([
    ...sheet.observations.filter(({ sure }) => sure.kind !== 'told').map(({ feature }) => feature),
    ...givenUp(sheet),
  ]);
  const absent = new Set(sheet.absent);
  return ground.atlas.data.features.flatMap((feature) =>
    settled.has(feature.id) || absent.has(feature.slot)
      ? []
      : [{ feature, slot: ground.atlas.slots[ground.atlas.slotNumber.get(feature.slot) as number] as CompiledSlot }],
  );
};

/** The features that could be read again: those entered, but for what was given up since. */
export const readable = ({ sheet, slots }: Pick<Posterior, 'sheet' | 'slots'>): { slot: CompiledSlot; entered: EnteredFeature }[] => {
  const settled = givenUp(sheet);
  return slots.flatMap(({ slot, entered }) => entered.flatMap((each) => (settled.has(each.feature.id) ? [] : [{ slot, entered: each }])));
};

const givenUp = ({ unseen }: Posterior['sheet']): ReadonlySet<FeatureId> => new Set((unseen ?? []).map(({ feature }) => feature));

/** Looks weighed under the same odds, as those of sheets nothing was entered on yet are. */
const looked = new WeakMap<Posterior['joint'], Map<FeatureId, Weighed>>();

/** Every check there is: looks not made yet, then entries read again. */
export const weighAll = (posterior: Posterior): Weighed[] => {
  const { pulse } = posterior.ground.atlas;
  const backgrounds: Backgrounds = new Map();
  const known = looked.get(posterior.joint) ?? new Map<FeatureId, Weighed>();
  looked.set(posterior.joint, known);
  const look = (each: { slot: CompiledSlot; feature: Feature }): Weighed => {
    pulse();
    const weighed = known.get(each.feature.id) ?? weigh(posterior, each, backgrounds);
    known.set(each.feature.id, weighed);
    return weighed;
  };
  const lookAgain = (each: { slot: CompiledSlot; entered: EnteredFeature }): Weighed => {
    pulse();
    return weighAgain(posterior, each);
  };
  return [...askable(posterior).map(look), ...readable(posterior).map(lookAgain)];
};

/** What the features weighed for one posterior share, by the parts that give blind readings. */
type Backgrounds = Map<Int32Array, Background>;

/**
 * The drop for one feature, of what the posterior holds. Chance of reading o and target t: Σ over parts of chance(part, t)·chance(o | part), where a part whose fact is known gives
 * (1 − slip)·plain + slip·blind and any other gives blind.
 */
export const weigh = (
  posterior: Posterior,
  { feature, slot }: { feature: Feature; slot: CompiledSlot },
  backgrounds: Backgrounds = new Map(),
): Weighed => {
  const looks = looksOf(feature, slot);
  const { readings, silent, gives, runs } = looks;
  const room = roomFor(posterior.ground);
  const joint = posterior.joint[slot.number] as JointOdds;
  const spread = spreadOf(joint.weights, looks, gives, readings.all.length);
  const facts = room.addedUp.rows(joint, looks, spread.weights);
  const background = backgrounds.get(silent) ?? new Background(blindOf(posterior, facts, runs - 1, joint.lost), joint.any);
  backgrounds.set(silent, background);
  return { feature, slot, again: [], readings, ...told(posterior, { readings, facts, gives, spread }, background, room) };
};

/** The drop for one feature read again: what a part gives then hangs on what was entered, of a part nothing is known of too; but much of that is as blind as slips are. */
const weighAgain = (posterior: Posterior, { slot, entered }: { slot: CompiledSlot; entered: EnteredFeature }): Weighed => {
  const { feature, entries } = entered;
  const { readings, gives, blind } = againOf(entered);
  const room = roomFor(posterior.ground);
  const joint = posterior.joint[slot.number] as JointOdds;
  const looks = looksOf(feature, slot);
  const spread = spreadOf(joint.weights, looks, gives, readings.all.length);
  const facts = room.addedUp.rows(joint, looks, spread.weights);
  const background = new Background(blindOf(posterior, facts, looks.runs - 1, joint.lost, blind), joint.any);
  return {
    feature,
    slot,
    again: entries.map(({ id }) => id),
    readings,
    ...told(posterior, { readings, facts, gives, spread }, background, room),
  };
};

/** What the parts of a slot give when a feature is read again, fact after fact, then those nothing is known of; and how often these read as blindly as slips do. */
const againOf = keptFor(({ feature, facts, evidence }: EnteredFeature): { readings: Readings; gives: Runs; blind: number } => {
  const { readings, plain, silent } = readAgain(feature, facts, evidence);
  const { blind, own } = blindlyAnd(silent, readings.blind);
  return { readings, gives: givesOf([...plain, own]), blind };
});

/** Less than this of a reading is rounding. */
const rounding = 1e-12;

/** How often a part gives any reading as blindly as the next, and what it gives besides. */
const blindlyAnd = ({ readings, shares }: Plain, blind: Float64Array): { readonly blind: number; readonly own: Plain } => {
  const often = new Float64Array(blind.length);
  for (let i = 0; i < readings.length; i += 1)
    often[readings[i] as number] = (often[readings[i] as number] as number) + (shares[i] as number);
  let times = Number.POSITIVE_INFINITY;
  for (let reading = 0; reading < blind.length; reading += 1)
    if ((blind[reading] as number) > 0) times = Math.min(times, (often[reading] as number) / (blind[reading] as number));
  const own: number[] = [];
  for (let reading = 0; reading < blind.length; reading += 1)
    if ((often[reading] as number) * (1 - rounding) > times * (blind[reading] as number)) own.push(reading);
  return {
    blind: times,
    own: {
      readings: Int32Array.from(own),
      shares: Float64Array.from(own, (reading) => (often[reading] as number) - times * (blind[reading] as number)),
    },
  };
};
