import { keptFor } from '../plain/kept-for.ts';
import { markKey, sameMark } from '../plain/letters.ts';
import type { Observation, Seen } from '../sheet/sheet.ts';
import type { Truth } from '../truth.ts';
import type { Fact, Feature } from './atlas.ts';

/**
 * Whether what was seen agrees with what the atlas knows of a part (O2, O3). Silence neither agrees nor disagrees.
 * @throws when the observation's kind is not the feature's, or a measure or its uncertainty is no number: the door should have refused it
 */
export const agrees = (feature: Feature, fact: Fact, observation: Pick<Observation, 'value' | 'sure'>): Truth => {
  if (fact.kind === 'not known') return 'not known';
  const { value } = observation;
  if (value.kind !== feature.kind || fact.kind !== feature.kind) {
    throw new Error(`${feature.id} is a ${feature.kind}; seen a ${value.kind}, the atlas has a ${fact.kind}`);
  }
  return holds(feature, fact, value, uncertainty(observation)) ? 'holds' : 'fails';
};

/**
 * Standard uncertainty; a measure that is only told is taken at its word.
 * @throws RangeError when it is no number, or below zero: every comparison with it would come out as *fails* or turn the interval round
 */
export const uncertainty = ({ sure }: Pick<Observation, 'sure'>): number => {
  if (sure.kind !== 'measured') return 0;
  if (!(sure.u >= 0 && sure.u < Number.POSITIVE_INFINITY)) throw new RangeError(`an uncertainty is zero or more; found ${sure.u}`);
  return sure.u;
};

const reading = (value: number): number => {
  if (!Number.isFinite(value)) throw new RangeError(`a measure is a number; found ${value}`);
  return value;
};

const holds = (feature: Feature, fact: Exclude<Fact, { kind: 'not known' }>, value: Seen, u: number): boolean => {
  switch (fact.kind) {
    case 'count':
      return value.kind === 'count' && value.from <= fact.to && fact.from <= value.to;
    case 'measure': {
      if (value.kind !== 'measure') return false;
      const least = fact.nominal + fact.lower - (feature.wear?.below ?? 0);
      const greatest = fact.nominal + fact.upper + (feature.wear?.above ?? 0);
      const found = reading(value.value);
      return found - 2 * u <= greatest + rounding(greatest) && least - rounding(least) <= found + 2 * u;
    }
    case 'choice':
      return value.kind === 'choice' && fact.anyOf.includes(value.option);
    case 'presence':
      return value.kind === 'presence' && value.present === fact.present;
    case 'mark':
      if (value.kind !== 'mark') return false;
      return value.text === null ? fact.blank : keysOf(fact).includes(keyOf(value));
  }
};

/** What marks are compared by, worked out once for each mark of an atlas and each that is read. */
const keysOf = keptFor(({ anyOf }: Fact & { readonly kind: 'mark' }) => anyOf.map(markKey));
const keyOf = keptFor(({ text }: Seen & { readonly kind: 'mark' }) => markKey(text ?? ''));

/** Sums of decimal sizes are not exact in binary; limits are met when met to within a few units of rounding. */
const rounding = (limit: number): number => 8 * Number.EPSILON * Math.max(1, Math.abs(limit));

/** Whether two observations of one feature could both be true of some part (O6). Wear and tolerance belong to the part, so only readings count. */
export const compatible = (a: Pick<Observation, 'value' | 'sure'>, b: Pick<Observation, 'value' | 'sure'>): boolean => {
  const [x, y] = [a.value, b.value];
  switch (x.kind) {
    case 'count':
      return y.kind === 'count' && x.from <= y.to && y.from <= x.to;
    case 'measure': {
      if (y.kind !== 'measure') return false;
      return (
        Math.abs(reading(x.value) - reading(y.value)) <=
        2 * (uncertainty(a) + uncertainty(b)) + rounding(Math.max(Math.abs(x.value), Math.abs(y.value)))
      );
    }
    case 'choice':
      return y.kind === 'choice' && x.option === y.option;
    case 'presence':
      return y.kind === 'presence' && x.present === y.present;
    case 'mark':
      return y.kind === 'mark' && (x.text === null || y.text === null ? x.text === y.text : sameMark(x.text, y.text));
  }
};
