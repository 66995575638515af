import type { Fact, Feature } from '../atlas/atlas.ts';
import { instrumentUncertainty } from '../odds/readings.ts';
import { markKey } from '../plain/letters.ts';

/**
 * Everything that could be read of a feature on good and used examples of a part. A range is closed. A measure is the part's limits with its wear,
 * widened by 2u on both sides for the feature's own instrument; so two parts whose ranges meet can give one and the same reading,
 * and two whose ranges do not never can. A count is a range of whole numbers. Letters are compared as O2 compares them; no letters are `''`.
 */
export type Look =
  | { readonly kind: 'range'; readonly low: number; readonly high: number }
  | { readonly kind: 'one of'; readonly values: readonly string[] };

/** Null where the atlas is silent: any reading is then possible (O3). */
export const lookOf = (feature: Feature, fact: Fact | undefined): Look | null => {
  if (fact === undefined) return null;
  switch (fact.kind) {
    case 'not known':
      return null;
    case 'count':
      return { kind: 'range', low: fact.from, high: fact.to };
    case 'measure': {
      const reach = 2 * instrumentUncertainty(feature);
      const low = fact.nominal + fact.lower - (feature.wear?.below ?? 0) - reach;
      const high = fact.nominal + fact.upper + (feature.wear?.above ?? 0) + reach;
      return { kind: 'range', low: tidy(low), high: tidy(high) };
    }
    case 'choice':
      return { kind: 'one of', values: fact.anyOf };
    case 'presence':
      return { kind: 'one of', values: [fact.present ? 'there' : 'not there'] };
    case 'mark':
      return { kind: 'one of', values: [...new Set([...fact.anyOf.map(markKey), ...(fact.blank ? [''] : [])])] };
  }
};

/** Whether one reading could agree with both. */
export const couldBeRead = (a: Look, b: Look): boolean => {
  if (a.kind === 'range') return b.kind === 'range' && a.low <= b.high && b.low <= a.high;
  return b.kind === 'one of' && a.values.some((value) => b.values.includes(value));
};

// Sums of decimal sizes are not exact in binary; a thousandth of a micrometre is finer than any limit that is written.
const tidy = (value: number): number => Math.round(value * 1e6) / 1e6;
