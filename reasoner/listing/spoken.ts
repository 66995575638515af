import type { SlotId } from '../ids.ts';
import { shareOf, type Terms, weightsOf } from './terms.ts';
import type { Word } from './words.ts';

/** Which slots the words round a place speak of, each with how surely, 0 to 1. The place is the number of a word. */
export type Spoken = (at: number) => ReadonlyMap<SlotId, number>;

/** Words from `from` up to and without `to`. */
interface Span {
  readonly from: number;
  readonly to: number;
}

/** A slot called by a whole label of so many words. */
interface Mention {
  /** Its number among the slots. */
  readonly slot: number;
  readonly length: number;
}

/**
 * Of every place of a text which slots are spoken of: those named in its clause, else the last named before it in the sentence, else the first after it. Where the
 * clause has words of other slots' labels alone (`compressor wheel 7+7, turbine 10 blades`), those. Empty where none is. Where slots are named is looked for once; a place then only looks to both sides.
 */
export const spokenIn = (terms: Terms, words: readonly Word[]): Spoken => {
  const mentions = mentionsIn(terms, words);
  const places = [...mentions.keys()];
  const clauses = spansBy(words, ({ clause }) => clause);
  const sentences = spansBy(words, ({ sentence }) => sentence);
  const partlyOf = partlyNamed(terms);
  const partly = new Map<number, ReadonlyMap<SlotId, number>>();
  const partlyIn = (clause: number): ReadonlyMap<SlotId, number> => {
    const known = partly.get(clause);
    if (known !== undefined) return known;
    const here = clauses.get(clause) as Span;
    const made = partlyOf(words.slice(here.from, here.to));
    partly.set(clause, made);
    return made;
  };

  /** What is named at a place, as far as it ends within the span. */
  const within = (place: number, span: Span): readonly Mention[] =>
    (mentions.get(place) ?? []).filter(({ length }) => place + length <= span.to);
  /** The nearest place of the span from the `next`-th on, one way or the other, at which something is named. */
  const nearest = (next: number, step: 1 | -1, span: Span): number | null => {
    for (let i = next; ; i += step) {
      const place = places[i];
      if (place === undefined || place < span.from || place >= span.to) return null;
      if (within(place, span).length > 0) return place;
    }
  };
  /** Slots called by a whole label, the one nearest to the place, of several there the longest; both where two are as near. */
  const named = (at: number, span: Span): ReadonlyMap<SlotId, number> => {
    const next = firstAtLeast(places, at);
    const far = (place: number): number => Math.abs((words[place] as Word).from - (words[at] as Word).from);
    const sides = [nearest(next - 1, -1, span), nearest(next, 1, span)].filter((place) => place !== null);
    const least = Math.min(...sides.map(far));
    const near = sides.filter((place) => far(place) === least).flatMap((place) => within(place, span));
    const longest = Math.max(...near.map(({ length }) => length));
    const slots = near.filter(({ length }) => length === longest).map(({ slot }) => slot);
    return new Map([...new Set(slots)].sort((a, b) => a - b).map((slot) => [(terms.slots[slot] as Terms['slots'][number]).slot.id, 1]));
  };
  return (at) => {
    const { clause, sentence } = words[at] as Word;
    const here = clauses.get(clause) as Span;
    const inClause = named(at, here);
    if (inClause.size > 0) return inClause;
    const around = sentences.get(sentence) as Span;
    const partlyHere = partlyIn(clause);
    for (const span of [
      { from: around.from, to: at },
      { from: at + 1, to: around.to },
    ]) {
      const there = named(at, span);
      if (there.size > 0) return partlyHere.size === 0 || [...there.keys()].some((slot) => partlyHere.has(slot)) ? there : partlyHere;
    }
    return partlyHere;
  };
};

/** By the number of the word each begins at, in the order of the text. */
const mentionsIn = (terms: Terms, words: readonly Word[]): ReadonlyMap<number, readonly Mention[]> => {
  const byFirst = new Map<string, { readonly slot: number; readonly label: readonly string[] }[]>();
  terms.slots.forEach(({ labels }, slot) => {
    for (const label of labels) {
      const [first] = label;
      if (first !== undefined) byFirst.set(first, [...(byFirst.get(first) ?? []), { slot, label }]);
    }
  });
  return new Map(
    words.flatMap(({ stem }, at) => {
      const begun = byFirst.get(stem) ?? [];
      const here = begun.filter(({ label }) => label.every((each, k) => words[at + k]?.stem === each));
      return here.length === 0 ? [] : [[at, here.map(({ slot, label }) => ({ slot, length: label.length }))] as const];
    }),
  );
};

/** Words of one number stand side by side. */
const spansBy = (words: readonly Word[], numberOf: (word: Word) => number): ReadonlyMap<number, Span> => {
  const spans = new Map<number, Span>();
  words.forEach((word, at) => {
    const number = numberOf(word);
    spans.set(number, { from: spans.get(number)?.from ?? at, to: at + 1 });
  });
  return spans;
};

/** The number of the first that is no less; of rising numbers. */
const firstAtLeast = (numbers: readonly number[], least: number): number => {
  let [low, high] = [0, numbers.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((numbers[middle] as number) < least) low = middle + 1;
    else high = middle;
  }
  return low;
};

/** Slots of whose label a part is among the words: `compressor` speaks of two of them. */
const partlyNamed = (terms: Terms): ((words: readonly Word[]) => ReadonlyMap<SlotId, number>) => {
  const weights = weightsOf(terms.slots.map(({ labels }) => labels));
  return (words) => {
    const stems = new Set(words.map(({ stem }) => stem));
    const shares = terms.slots.map(({ slot, labels }) => ({ slot, share: shareOf(labels, stems, weights) }));
    const most = Math.max(0, ...shares.map(({ share }) => share));
    return new Map(most < 0.3 ? [] : shares.filter(({ share }) => share === most).map(({ slot, share }) => [slot.id, share]));
  };
};
