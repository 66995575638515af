import type { Part } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { FeatureId } from '../ids.ts';
import type { Truth } from '../truth.ts';
import { cautionsOfLooks } from '../words/cautions.ts';
import { apartWords } from './apart-words.ts';
import { type Cell, type Check, type CheckScope, checksBetween, pairsOf } from './cells.ts';
import { cheapestSet, inOrder, minutesFor } from './cheapest-set.ts';
import { type Proof, proofThatNone } from './proof.ts';
import { smallestSets } from './smallest-sets.ts';
import { type SubjectRef, subjectsOf } from './subject.ts';

/** How any two to five subjects are told apart: what differs, the fewest checks that tell them all apart, and why fewer do not. */
export interface Apart {
  readonly kind: 'apart';
  readonly edition: string;
  readonly scope: CheckScope;
  readonly subjects: readonly { readonly ref: SubjectRef; readonly name: string }[];
  /** Subjects by number, the lower first; everything said of pairs is in this order. */
  readonly pairs: readonly (readonly [number, number])[];
  /** Features that differ, cheapest to be seen first; those that separate no pair for certain after those that do. */
  readonly rows: readonly ApartRow[];
  /** Pairs no known feature separates, with the features that might if the atlas knew more of them. */
  readonly notApart: readonly { readonly pair: number; readonly might: readonly FeatureId[] }[];
  /** All sets with the fewest checks that separate every other pair, in order of minutes. */
  readonly smallest: {
    readonly size: number;
    /** How many such sets there are; `sets` may hold fewer. */
    readonly count: number;
    readonly sets: readonly ApartSet[];
    /** Why no smaller set does; null where one check (or none) is enough. */
    readonly proof: Proof | null;
    readonly words: readonly string[];
  };
  /** The set that takes the fewest minutes, which may hold more checks than the smallest. Null when no pair can be told apart. */
  readonly cheapest: ApartSet | null;
  readonly cautions: readonly string[];
}

export interface ApartRow {
  readonly feature: FeatureId;
  /** For this check alone, strip-down included. */
  readonly minutes: number;
  readonly cells: readonly Cell[];
  /** By pair. */
  readonly separates: readonly Truth[];
}

/** A part as it is drawn beside others. */
export type PartFacts = Pick<Part, 'id' | 'name' | 'slot' | 'facts'>;

/** Checks in the order they are done at the bench, and their minutes together, strip-down counted once. */
export interface ApartSet {
  readonly checks: readonly FeatureId[];
  readonly minutes: number;
}

export type ApartTrouble =
  | { readonly kind: 'no such subject'; readonly ref: SubjectRef }
  | { readonly kind: 'too few or too many'; readonly found: number }
  | { readonly kind: 'not comparable'; readonly sentence: string };

export const fewestSubjects = 2;
export const mostSubjects = 5;

/** How two to five families and models, or parts of one slot, are told apart. Nothing of a unit on the bench enters. */
export const tellApart = (atlas: CompiledAtlas, refs: readonly SubjectRef[], scope: CheckScope = {}): Apart | ApartTrouble => {
  const distinct = [...new Map(refs.map((ref) => [`${ref.kind} ${ref.id}`, ref])).values()];
  if (distinct.length < fewestSubjects || distinct.length > mostSubjects) return { kind: 'too few or too many', found: distinct.length };
  const found = subjectsOf(atlas, distinct);
  const missing = distinct.find((_, i) => found[i] === null);
  if (missing !== undefined) return { kind: 'no such subject', ref: missing };
  const subjects = found.filter((subject) => subject !== null);
  const odd = notComparable(atlas, distinct);
  if (odd !== null) return { kind: 'not comparable', sentence: odd };

  const pairs = pairsOf(subjects.length);
  const checks = [...checksBetween(atlas, subjects, scope)].sort(cheapestFirst);
  const separable = pairs.flatMap((_, pair) => (checks.some(({ separates }) => separates[pair] === 'holds') ? [pair] : []));
  const covers = checks.map(({ separates }) => separable.flatMap((pair, i) => (separates[pair] === 'holds' ? [i] : [])));
  const asSet = (numbers: readonly number[]): ApartSet => ({
    checks: inOrder(atlas, checks, numbers).map((number) => (checks[number] as Check).feature.id),
    minutes: minutesFor(
      atlas,
      numbers.map((number) => checks[number] as Check),
    ),
  });
  const smallest = smallestSets(separable.length, covers);
  const proof = smallest.size < 2 ? null : inPairs(proofThatNone(separable.length, covers, smallest.size - 1), separable);
  const cheapest = separable.length === 0 ? null : cheapestSet(atlas, checks, separable);
  return {
    kind: 'apart',
    edition: atlas.data.edition,
    scope,
    subjects: subjects.map(({ ref, name }) => ({ ref, name })),
    pairs,
    rows: checks.map(({ feature, minutes, cells, separates }) => ({ feature: feature.id, minutes, cells, separates })),
    notApart: pairs.flatMap((_, pair) =>
      separable.includes(pair)
        ? []
        : [{ pair, might: checks.filter(({ separates }) => separates[pair] === 'not known').map(({ feature }) => feature.id) }],
    ),
    smallest: {
      size: smallest.size,
      count: smallest.count,
      sets: smallest.sets.map(asSet).sort((a, b) => a.minutes - b.minutes),
      proof,
      words: apartWords(
        subjects.map(({ name }) => name),
        pairs,
        checks.map(({ feature }) => `${slotNameOf(atlas, feature.slot)}’s ${feature.name}`),
        smallest.size,
        separable.length,
        proof,
      ),
    },
    cheapest: cheapest === null ? null : asSet(cheapest.checks),
    cautions: cautionsOfLooks,
  };
};

/** What separates some pair for certain before what may, then by minutes. */
const cheapestFirst = (a: Check, b: Check): number => {
  const sure = ({ separates }: Check) => (separates.includes('holds') ? 0 : separates.includes('not known') ? 1 : 2);
  return (
    sure(a) - sure(b) ||
    a.minutes - b.minutes ||
    b.separates.filter((one) => one === 'holds').length - a.separates.filter((one) => one === 'holds').length
  );
};

/** A part is told from parts of its own slot; families and models, which hold many parts, from each other. */
const notComparable = (atlas: CompiledAtlas, refs: readonly SubjectRef[]): string | null => {
  const slots = new Set(refs.map((ref) => (ref.kind === 'part' ? atlas.parts.get(ref.id)?.slot : null)));
  if (slots.size === 1) return null;
  if (slots.has(null)) return 'A part is told apart from other parts of its slot, not from a family or a model: those hold many.';
  const names = [...slots].map((slot) => slotNameOf(atlas, slot as string));
  return `Parts are told apart within one slot; these are of several: ${names.join(', ')}.`;
};

/** The proof in numbers of all pairs. */
const inPairs = (proof: Proof | null, separable: readonly number[]): Proof | null => {
  if (proof === null) return null;
  const at = (pair: number): number => separable[pair] as number;
  switch (proof.kind) {
    case 'apart':
      return { kind: 'apart', pairs: proof.pairs.map(at) };
    case 'cases':
      return {
        kind: 'cases',
        pair: at(proof.pair),
        cases: proof.cases.map(({ tests, rest }) => ({ tests, rest: inPairs(rest, separable) as Proof })),
      };
  }
};
