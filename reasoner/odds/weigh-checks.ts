import type { Feature } from '../atlas/atlas.ts';
import type { CompiledSlot, FactTable } from '../atlas/compile.ts';
import type { FeatureId } from '../ids.ts';
import type { Joint } from './joint.ts';
import type { Posterior } from './posterior.ts';
import { type Readings, readingsOf } from './readings.ts';

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

/** Entropy in bits of chances that sum to one. */
export const entropyOf = (chances: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < chances.length; i += 1) {
    const chance = chances[i] as number;
    if (chance > 0) sum -= chance * Math.log2(chance);
  }
  // A chance a rounding above one would say less than nothing.
  return Math.max(0, sum);
};

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

const kept = new WeakMap<FactTable, Readings>();

/** A feature's readings with its own instrument; they depend on the atlas alone. */
const readingsKept = (feature: Feature, facts: FactTable): Readings => {
  const known = kept.get(facts);
  if (known) return known;
  const made = readingsOf(feature, facts);
  kept.set(facts, made);
  return made;
};

/** A reading rarer than this of a part is never of it. */
const unheardOf = 1e-30;

/**
 * The drop for one feature, exactly. Chance of reading o and target t: Σ over parts of chance(part, t)·chance(o | part), where a part whose fact is known gives
 * (1 − slip)·plain + slip·blind and any other gives blind. So all readings share one row of blind chances, scaled, and each has a few entries of its own.
 */
export const weigh = (posterior: Posterior, { feature, slot }: { feature: Feature; slot: CompiledSlot }): Weighed => {
  const { slip } = posterior.assumptions;
  const width = posterior.targets.length;
  const facts = slot.factsOf(feature.id);
  const readings = readingsKept(feature, facts);
  const joint = posterior.joint[slot.number] as Joint;
  const parts = slot.parts.length;
  const count = readings.all.length;

  const blind = new Float64Array(width);
  /** By reading, the parts that give it and how often. */
  const givers: { readonly part: number; readonly share: number }[][] = readings.all.map(() => []);
  for (let part = 0; part <= parts; part += 1) {
    const plain = part === parts ? null : (readings.plain[facts.of[part] as number] ?? null);
    const { targets, chances } = joint.rows[part] as Joint['rows'][number];
    const blindly = plain === null ? 1 : slip;
    for (let i = 0; i < targets.length; i += 1) {
      const target = targets[i] as number;
      blind[target] = (blind[target] as number) + blindly * (chances[i] as number);
    }
    if (plain === null || targets.length === 0) continue;
    for (const { reading, share } of plain) {
      const often = (1 - slip) * share;
      if (often > unheardOf) givers[reading]?.push({ part, share: often });
    }
  }
  // −Σ over targets and readings of q·log q, q = share·blind + own: the part without own entries in closed form.
  let blindSum = 0;
  let blindLog = 0;
  for (let target = 0; target < width; target += 1) {
    const chance = blind[target] as number;
    if (chance <= 0) continue;
    blindSum += chance;
    blindLog += chance * Math.log(chance);
  }
  const chances = new Float64Array(count);
  const bits = new Float64Array(count);
  let left = 0;
  const own = new Float64Array(width);
  const touched = new Int32Array(width);
  for (let reading = 0; reading < count; reading += 1) {
    const share = readings.blind[reading] as number;
    let sum = share * blindSum;
    let logs = share > 0 ? share * (blindLog + Math.log(share) * blindSum) : 0;
    let reach = 0;
    for (const { part, share: often } of givers[reading] as (typeof givers)[number]) {
      const { targets, chances: both } = joint.rows[part] as Joint['rows'][number];
      for (let i = 0; i < targets.length; i += 1) {
        const target = targets[i] as number;
        if (own[target] === 0) touched[reach++] = target;
        own[target] = (own[target] as number) + often * (both[i] as number);
      }
    }
    for (let i = 0; i < reach; i += 1) {
      const target = touched[i] as number;
      const apart = share * (blind[target] as number);
      const mine = own[target] as number;
      own[target] = 0;
      if (mine === 0) continue;
      sum += mine;
      logs += (apart + mine) * Math.log(apart + mine) - (apart > 0 ? apart * Math.log(apart) : 0);
    }
    chances[reading] = sum;
    if (sum <= 0) continue;
    const apart = sum * Math.log(sum) - logs;
    bits[reading] = Math.max(0, apart / sum / Math.LN2);
    left += apart;
  }
  return { feature, slot, readings, chances, bits, drop: Math.max(0, entropyOf(posterior.targets) - left / Math.LN2) };
};
