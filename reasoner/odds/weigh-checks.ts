import type { Feature } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../atlas/compile.ts';
import type { FeatureId } from '../ids.ts';
import type { Joint } from './joint.ts';
import { looksOf } from './looks.ts';
import type { Posterior } from './posterior.ts';
import type { Readings } from './readings.ts';
import { addedUp, type TargetRows, TargetSums } from './target-sums.ts';

/** What looking at one feature is expected to tell about the honest name. */
export interface Weighed {
  readonly feature: Feature;
  readonly slot: CompiledSlot;
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
    ...(sheet.unseen ?? []).map(({ feature }) => feature),
  ]);
  const absent = new Set(sheet.absent);
  return ground.atlas.atlas.features.flatMap((feature) =>
    settled.has(feature.id) || absent.has(feature.slot)
      ? []
      : [{ feature, slot: ground.atlas.slots[ground.atlas.slotNumber.get(feature.slot) as number] as CompiledSlot }],
  );
};

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
  /** By the parts that give blind readings. */
  readonly blinds: Map<Int32Array, Blind>;
}

const shared = new WeakMap<Posterior, Shared>();

const sharedBy = (posterior: Posterior): Shared => {
  const known = shared.get(posterior);
  if (known) return known;
  const made = { sums: new TargetSums(posterior.targets.length), blinds: new Map<Int32Array, Blind>() };
  shared.set(posterior, made);
  return made;
};

/** @param silent of the parts that give blind readings and no other, added up: the last row */
const blindOf = ({ targets, assumptions: { slip } }: Posterior, { from, targets: silent, chances: often }: TargetRows): Blind => {
  const chances = targets.map((chance) => slip * chance);
  for (let i = from.at(-2) as number; i < (from.at(-1) as number); i += 1) {
    const target = silent[i] as number;
    chances[target] = (chances[target] as number) + (1 - slip) * (often[i] as number);
  }
  const logs = new Float64Array(chances.length);
  let sum = 0;
  let entropic = 0;
  for (let target = 0; target < chances.length; target += 1) {
    const chance = chances[target] as number;
    if (chance <= 0) continue;
    const log = Math.log(chance);
    logs[target] = log;
    sum += chance;
    entropic += chance * log;
  }
  return { chances, logs, sum, entropic };
};

/**
 * The drop for one feature, exactly. Chance of reading o and target t: Σ over parts of chance(part, t)·chance(o | part), where a part whose fact is known gives
 * (1 − slip)·plain + slip·blind and any other gives blind. So all readings share one row of blind chances, scaled, and each has a few entries of its own;
 * parts with the same fact are one row. −Σ q·log q over targets and readings has q = share·blind + own: the part without own entries is in closed form.
 */
export const weigh = (posterior: Posterior, { feature, slot }: { feature: Feature; slot: CompiledSlot }): Weighed => {
  const { slip } = posterior.assumptions;
  const { readings, parts, silent, givers } = looksOf(feature, slot);
  const { sums: own, blinds } = sharedBy(posterior);
  const facts = addedUp(posterior.joint[slot.number] as Joint, parts, own);
  const blind = blinds.get(silent) ?? blindOf(posterior, facts);
  blinds.set(silent, blind);
  const count = readings.all.length;
  const chances = new Float64Array(count);
  const bits = new Float64Array(count);
  let left = 0;
  for (let reading = 0; reading < count; reading += 1) {
    const share = readings.blind[reading] as number;
    const shareLog = share > 0 ? Math.log(share) : 0;
    let sum = share * blind.sum;
    let logs = share * (blind.entropic + shareLog * blind.sum);
    for (let i = givers.from[reading] as number; i < (givers.from[reading + 1] as number); i += 1)
      own.add(facts, givers.members[i] as number, (1 - slip) * (givers.shares[i] as number));
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
  return { feature, slot, readings, chances, bits, drop: Math.max(0, posterior.bits - left / Math.LN2) };
};
