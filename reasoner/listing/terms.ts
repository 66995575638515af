import type { Feature, Slot } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { SlotId } from '../ids.ts';
import { stemsOf, type Word } from './words.ts';

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

/**
 * Which slots the words round a place speak of, each with how surely, 0 to 1: those named in its clause, else the last named
 * before it in the sentence, else the first after it. Empty where none is.
 */
export const slotsRound = (terms: Terms, words: readonly Word[], at: number): ReadonlyMap<SlotId, number> => {
  const here = words[at] as Word;
  const clause = words.filter((word) => word.clause === here.clause);
  const named = mentionsIn(terms, clause, here.from);
  if (named.size > 0) return named;
  const sentence = words.filter((word) => word.sentence === here.sentence);
  const before = mentionsIn(
    terms,
    sentence.filter(({ from }) => from < here.from),
    here.from,
  );
  if (before.size > 0) return before;
  const after = mentionsIn(
    terms,
    sentence.filter(({ from }) => from > here.from),
    here.from,
  );
  if (after.size > 0) return after;
  return partlyNamed(terms, clause);
};

/** Slots called by a whole label, the one nearest to the place; both where two are as near. */
const mentionsIn = (terms: Terms, words: readonly Word[], place: number): Map<SlotId, number> => {
  let nearest = Number.POSITIVE_INFINITY;
  let longest = 0;
  let found = new Map<SlotId, number>();
  for (const { slot, labels } of terms.slots) {
    for (const label of labels) {
      words.forEach((word, i) => {
        if (!label.every((stem, k) => words[i + k]?.stem === stem)) return;
        const far = Math.abs(word.from - place);
        if (far > nearest || (far === nearest && label.length < longest)) return;
        if (far < nearest || label.length > longest) found = new Map();
        [nearest, longest] = [far, label.length];
        found.set(slot.id, 1);
      });
    }
  }
  return found;
};

/** Slots of whose label a part is there: `compressor` speaks of two of them. */
const partlyNamed = (terms: Terms, words: readonly Word[]): Map<SlotId, number> => {
  const weights = weightsOf(terms.slots.map(({ labels }) => labels));
  const stems = new Set(words.map(({ stem }) => stem));
  const shares = terms.slots.map(({ slot, labels }) => ({ slot, share: shareOf(labels, stems, weights) }));
  const most = Math.max(0, ...shares.map(({ share }) => share));
  return new Map(most < 0.3 ? [] : shares.filter(({ share }) => share === most).map(({ slot, share }) => [slot.id, share]));
};
