import type { Feature } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../compile/compiled.ts';
import type { FeatureId, ObservationId } from '../ids.ts';
import { Background } from './background.ts';
import { type Blind, blindOf } from './blind.ts';
import { readAgain } from './entered.ts';
import type { OddsGround } from './ground.ts';
import type { JointOdds } from './joint-odds.ts';
import { looksOf, type Runs, runsOf, unheardOf } from './looks.ts';
import type { Posterior } from './posterior.ts';
import type { Readings } from './readings.ts';
import type { EnteredFeature } from './slot-likelihood.ts';
import { AddedUp, type TargetRows, TargetSums } from './target-sums.ts';

/** What looking at one feature is expected to tell about the honest name. */
export interface Weighed {
  readonly feature: Feature;
  readonly slot: CompiledSlot;
  /** The entries that would be read again; none where the feature was not looked at yet. */
  readonly again: readonly ObservationId[];
  /** Expected drop of entropy, bits: H(name) − Σ chance(reading)·H(name | reading) (Shannon 1948; as a choice of tests: Quinlan, "Induction of decision trees", Machine Learning 1 (1986)). */
  readonly drop: number;
  readonly readings: Readings;
  /** How likely each reading is. */
  readonly chances: Float64Array;
  /** What each reading would leave uncertain about the honest name, bits. */
  readonly bits: Float64Array;
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

/** Every check there is: looks not made yet, then entries read again. */
export const weighAll = (posterior: Posterior): Weighed[] => {
  const backgrounds: Backgrounds = new Map();
  return [
    ...askable(posterior).map((each) => weigh(posterior, each, backgrounds)),
    ...readable(posterior).map((each) => weighAgain(posterior, each, backgrounds)),
  ];
};

/** Room to add up in, used for one feature, and one sheet, after the other. */
interface Room {
  readonly sums: TargetSums;
  readonly addedUp: AddedUp;
}

const rooms = new WeakMap<OddsGround, Room>();

const roomFor = (ground: OddsGround): Room => {
  const known = rooms.get(ground);
  if (known) return known;
  const sums = new TargetSums(ground.targets.all.length);
  const made = { sums, addedUp: new AddedUp(sums) };
  rooms.set(ground, made);
  return made;
};

/** What the features weighed for one posterior share: by the parts that give blind readings, and by slot. */
type Backgrounds = Map<Int32Array, (Background | undefined)[]>;

const backgroundOf = (all: Backgrounds, silent: Int32Array, slot: number, { any }: JointOdds, made: () => Blind): Background => {
  const known = all.get(silent) ?? [];
  all.set(silent, known);
  // Slips alone are as blind in one slot as in the next.
  const blind = (): Blind => known.find((each) => each !== undefined)?.blind ?? made();
  const own = known[slot] ?? new Background(blind(), any);
  known[slot] = own;
  return own;
};

/** No part gives blind readings alone: one list, as those of `looksOf` are. */
const noPart = new Int32Array();

/**
 * The drop for one feature, exactly. Chance of reading o and target t: Σ over parts of chance(part, t)·chance(o | part), where a part whose fact is known gives
 * (1 − slip)·plain + slip·blind and any other gives blind.
 */
export const weigh = (
  posterior: Posterior,
  { feature, slot }: { feature: Feature; slot: CompiledSlot },
  backgrounds: Backgrounds = new Map(),
): Weighed => {
  const { readings, parts, silent, givers } = looksOf(feature, slot);
  const { sums, addedUp } = roomFor(posterior.ground);
  const joint = posterior.joint[slot.number] as JointOdds;
  const facts = addedUp.rows(joint, parts);
  const background = backgroundOf(backgrounds, silent, slot.number, joint, () => blindOf(posterior, facts, parts.from.length - 2));
  return { feature, slot, again: [], readings, ...told(posterior, readings, facts, givers, background, sums) };
};

/** The drop for one feature read again: what a part gives then hangs on what was entered, of a part nothing is known of too; only slips are blind. */
const weighAgain = (
  posterior: Posterior,
  { slot, entered }: { slot: CompiledSlot; entered: EnteredFeature },
  backgrounds: Backgrounds,
): Weighed => {
  const { feature, facts: table, entries, evidence } = entered;
  const { sums, addedUp } = roomFor(posterior.ground);
  const joint = posterior.joint[slot.number] as JointOdds;
  const facts = addedUp.rows(joint, looksOf(feature, slot).parts);
  const background = backgroundOf(backgrounds, noPart, slot.number, joint, () => blindOf(posterior, null));
  const { readings, plain, silent } = readAgain(feature, table, evidence);
  const givers = runsOf(readings.all.length, (give) => {
    [...plain, silent].forEach((own, fact) => {
      own?.readings.forEach((reading, i) => {
        const share = own.shares[i] as number;
        if (share > unheardOf) give(reading, fact, share);
      });
    });
  });
  return {
    feature,
    slot,
    again: entries.map(({ id }) => id),
    readings,
    ...told(posterior, readings, facts, givers, background, sums),
  };
};

/**
 * All readings share one background, scaled, and each has a few entries of its own; parts with the same fact are one row.
 * −Σ q·log q over targets and readings has q = share·blind + times·any + own: the part without own entries is the background's.
 */
const told = (
  { bits: before, assumptions: { slip } }: Posterior,
  readings: Readings,
  facts: TargetRows,
  givers: Runs,
  background: Background,
  own: TargetSums,
): Pick<Weighed, 'drop' | 'chances' | 'bits'> => {
  const { blind, any: anyOf, anySum } = background;
  const count = readings.all.length;
  const chances = new Float64Array(count);
  const bits = new Float64Array(count);
  let left = 0;
  for (let reading = 0; reading < count; reading += 1) {
    const share = readings.blind[reading] as number;
    // Between cuts that rounding has made one nothing is ever read.
    if (share <= 0) continue;
    let any = 0;
    for (let i = givers.from[reading] as number; i < (givers.from[reading + 1] as number); i += 1) {
      const fact = givers.members[i] as number;
      const times = (1 - slip) * (givers.shares[i] as number);
      const first = facts.from[fact] as number;
      const end = facts.from[fact + 1] as number;
      if (end > first) own.add(facts, times, first, end);
      any += times * (facts.weights[fact] as number);
    }
    const shareLog = Math.log(share);
    let sum = share * blind.sum + any * anySum;
    let logs = sum * shareLog + share * background.entropic(any / share);
    for (let i = 0; i < own.reach; i += 1) {
      const target = own.targets[i] as number;
      const ofAny = any * (anyOf[target] as number);
      // A row may take away what any part has; no more, but for rounding.
      const mine = own.sums[target] as number;
      const apart = share * (blind.chances[target] as number) + ofAny;
      const both = apart + mine;
      sum += mine;
      if (both > 0) logs += both * Math.log(both);
      if (apart > 0) logs -= apart * (ofAny === 0 ? shareLog + (blind.logs[target] as number) : Math.log(apart));
    }
    own.clear();
    chances[reading] = sum;
    if (sum <= 0) continue;
    const apart = sum * Math.log(sum) - logs;
    bits[reading] = Math.max(0, apart / sum / Math.LN2);
    left += apart;
  }
  return { chances, bits, drop: Math.max(0, before - left / Math.LN2) };
};
