import type { Fact } from '../atlas/atlas.ts';
import type { FeatureId } from '../ids.ts';
import type { Size } from './limits.ts';
import type { Measured } from './measured.ts';

/** What is known of a feature: what the atlas says of the part, or what was measured on the one in hand. */
export type Known = Fact | Measured;

/** What is known of the parts that meet, all together. A feature belongs to one slot, so it is never on two. Nothing said counts as not known. */
export type FactOf = (feature: FeatureId) => Known | undefined;

export type KnownOf<K extends Fact['kind']> = K extends 'measure' ? Size : Extract<Fact, { kind: K }>;

/**
 * What is known of a feature, or null. A measured size stands wherever a measure does.
 * @throws TypeError for a fact of another kind: the door should have refused it
 */
export const known = <K extends Fact['kind']>(factOf: FactOf, feature: FeatureId, kind: K): KnownOf<K> | null => {
  const fact = factOf(feature);
  if (fact === undefined || fact.kind === 'not known') return null;
  if (fact.kind !== kind && !(fact.kind === 'measured' && kind === 'measure')) {
    throw new TypeError(`${feature} is a ${fact.kind} where a fit compares a ${kind}`);
  }
  return fact as KnownOf<K>;
};
