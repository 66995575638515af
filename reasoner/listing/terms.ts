import type { Feature, Slot } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { stemsOf } from './words.ts';

/** The atlas's words for its slots and features, ready to be looked for in a text. */
export interface Terms {
  readonly slots: readonly { readonly slot: Slot; readonly labels: readonly (readonly string[])[] }[];
  readonly features: readonly Term[];
}

export interface Term {
  readonly feature: Feature;
  /** Its name and what else it is called, as stems. */
  readonly labels: readonly (readonly string[])[];
  /** What is counted: `full blade`. Empty for what is not. */
  readonly thing: readonly string[];
}

const kept = new WeakMap<CompiledAtlas, Terms>();

export const termsOf = (atlas: CompiledAtlas): Terms => {
  const known = kept.get(atlas);
  if (known !== undefined) return known;
  const labelsOf = ({ name, alsoCalled = [] }: Pick<Feature, 'name' | 'alsoCalled'>) => [name, ...alsoCalled].map(stemsOf);
  const terms: Terms = {
    slots: atlas.data.slots.map((slot) => ({ slot, labels: labelsOf(slot) })),
    features: atlas.data.features.map((feature) => ({
      feature,
      labels: labelsOf(feature),
      thing: feature.kind === 'count' && feature.unit !== undefined && feature.unit !== 'year' ? stemsOf(feature.unit) : [],
    })),
  };
  kept.set(atlas, terms);
  return terms;
};

/**
 * How rare each word is among the labels: one over the number of features whose labels have it. `diameter` says little of which
 * feature is meant, `cutback` nearly all.
 */
export const weightsOf = (labels: readonly (readonly (readonly string[])[])[]): ReadonlyMap<string, number> => {
  const among = new Map<string, number>();
  for (const own of labels) for (const stem of new Set(own.flat())) among.set(stem, (among.get(stem) ?? 0) + 1);
  return new Map([...among].map(([stem, count]) => [stem, 1 / count]));
};

/** The share of a label's weight that is among these stems, of the label that has most of it; 0 to 1. */
export const shareOf = (
  labels: readonly (readonly string[])[],
  stems: ReadonlySet<string>,
  weights: ReadonlyMap<string, number>,
): number => {
  const weigh = (label: readonly string[]) => label.reduce((sum, stem) => sum + (weights.get(stem) ?? 1), 0);
  return Math.max(0, ...labels.map((label) => weigh(label.filter((stem) => stems.has(stem))) / weigh(label)));
};
