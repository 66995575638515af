import type { Feature } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../atlas/compile.ts';
import type { FeatureId, ObservationId } from '../ids.ts';
import { readAgain } from './entered.ts';
import type { Joint } from './joint.ts';
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
  return ground.atlas.atlas.features.flatMap((feature) =>
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
export const weighAll = (posterior: Posterior): Weighed[] => [
  ...askable(posterior).map((each) => weigh(posterior, each)),
  ...readable(posterior).map((each) => weighAgain(posterior, each)),
];

/** What a blind reading goes with: a slip's of any part, and all readings of those that give no other. */
interface Blind {
  /** By target. */
  readonly chances: Float64Array;
  readonly logs: Float64Array;
  readonly sum: number;
  /** Σ of chances times their logarithms. */
  readonly entropic: number;
}

/** What the features weighed for one posterior share. */
interface Shared {
  readonly sums: TargetSums;
  readonly addedUp: AddedUp;
  /** By the parts that give blind readings. */
  readonly blinds: Map<Int32Array, Blind>;
}

const shared = new WeakMap<Posterior, Shared>();

const sharedBy = (posterior: Posterior): Shared => {
  const known = shared.get(posterior);
  if (known) return known;
  const sums = new TargetSums(posterior.targets.length);
  const made = { sums, addedUp: new AddedUp(sums), blinds: new Map<Int32Array, Blind>() };
  shared.set(posterior, made);
  return made;
};

/** No part gives blind readings alone: one list, as those of `looksOf` are. */
const noPart = new Int32Array();

/** @param silent the row of the parts that give blind readings and no other, among all added up; null where there are none */
const blindOf = ({ targets, assumptions: { slip } }: Posterior, facts: TargetRows | null, silent = 0): Blind => {
  const chances = targets.map((chance) => slip * chance);
  if (facts !== null) {
    const { from, targets: own, chances: often, any, weights } = facts;
    for (let i = from[silent] as number; i < (from[silent + 1] as number); i += 1) {
      const target = own[i] as number;
      chances[target] = (chances[target] as number) + (1 - slip) * (often[i] as number);
    }
    const weight = (1 - slip) * (weights[silent] as number);
    for (let i = 0; i < any.targets.length; i += 1) {
      const target = any.targets[i] as number;
      chances[target] = (chances[target] as number) + weight * (any.chances[i] as number);
    }
  }
  const logs = new Float64Array(chances.length);
  let sum = 0;
  let entropic = 0;
  for (let target = 0; target < chances.length; target += 1) {
    const chance = chances[target] as number;
    if (chance <= 0) {
      chances[target] = 0;
      continue;
    }
    const log = Math.log(chance);
    logs[target] = log;
    sum += chance;
    entropic += chance * log;
  }
  return { chances, logs, sum, entropic };
};

/**
 * The drop for one feature, exactly. Chance of reading o and target t: Σ over parts of chance(part, t)·chance(o | part), where a part whose fact is known gives
 * (1 − slip)·plain + slip·blind and any other gives blind.
 */
export const weigh = (posterior: Posterior, { feature, slot }: { feature: Feature; slot: CompiledSlot }): Weighed => {
  const { readings, parts, silent, givers } = looksOf(feature, slot);
  const { sums, addedUp, blinds } = sharedBy(posterior);
  const facts = addedUp.rows(posterior.joint[slot.number] as Joint, parts);
  const blind = blinds.get(silent) ?? blindOf(posterior, facts, parts.from.length - 2);
  blinds.set(silent, blind);
  return { feature, slot, again: [], readings, ...told(posterior, readings, facts, givers, blind, sums) };
};

/** The drop for one feature read again: what a part gives then hangs on what was entered, of a part nothing is known of too; only slips are blind. */
export const weighAgain = (posterior: Posterior, { slot, entered }: { slot: CompiledSlot; entered: EnteredFeature }): Weighed => {
  const { feature, facts: table, entries } = entered;
  const { sums, addedUp, blinds } = sharedBy(posterior);
  const facts = addedUp.rows(posterior.joint[slot.number] as Joint, looksOf(feature, slot).parts);
  const blind = blinds.get(noPart) ?? blindOf(posterior, null);
  blinds.set(noPart, blind);
  const { readings, plain, silent } = readAgain(feature, table, entries, posterior.assumptions.slip);
  const givers = runsOf(readings.all.length, (give) => {
    [...plain, silent].forEach((own, fact) => {
      own?.readings.forEach((reading, i) => {
        const share = own.shares[i] as number;
        if (share > unheardOf) give(reading, fact, share);
      });
    });
  });
  return { feature, slot, again: entries.map(({ id }) => id), readings, ...told(posterior, readings, facts, givers, blind, sums) };
};

/**
 * All readings share one row of blind chances, scaled, and each has a few entries of its own; parts with the same fact are one row.
 * −Σ q·log q over targets and readings has q = share·blind + own: the part without own entries is in closed form.
 */
const told = (
  { bits: before, assumptions: { slip } }: Posterior,
  readings: Readings,
  facts: TargetRows,
  givers: Runs,
  blind: Blind,
  own: TargetSums,
): Pick<Weighed, 'drop' | 'chances' | 'bits'> => {
  const count = readings.all.length;
  const chances = new Float64Array(count);
  const bits = new Float64Array(count);
  let left = 0;
  for (let reading = 0; reading < count; reading += 1) {
    const share = readings.blind[reading] as number;
    const shareLog = share > 0 ? Math.log(share) : 0;
    let sum = share * blind.sum;
    let logs = share * (blind.entropic + shareLog * blind.sum);
    let any = 0;
    for (let i = givers.from[reading] as number; i < (givers.from[reading + 1] as number); i += 1) {
      const fact = givers.members[i] as number;
      const times = (1 - slip) * (givers.shares[i] as number);
      own.add(facts, times, facts.from[fact], facts.from[fact + 1]);
      any += times * (facts.weights[fact] as number);
    }
    if (any > 0) own.add(facts.any, any);
    for (let i = 0; i < own.reach; i += 1) {
      const target = own.targets[i] as number;
      const mine = own.sums[target] as number;
      if (mine <= 0) continue;
      const apart = share * (blind.chances[target] as number);
      const both = apart + mine;
      sum += mine;
      logs += both * Math.log(both);
      if (apart > 0) logs -= apart * (shareLog + (blind.logs[target] as number));
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
