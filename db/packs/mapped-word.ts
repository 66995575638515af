/** The lists of the vocabulary, whose entries packs may share: those of atlas/lists.ts that say so, in their order. */
export const vocabularyLists = [
  'sources',
  'stages',
  'slots',
  'ports',
  'features',
  'joints',
  'metals',
  'operations',
  'chains',
  'warmth',
  'instruments',
  'drawings',
  'terms',
] as const;
export type VocabularyList = (typeof vocabularyLists)[number];

/** An entry of the vocabulary a pack was brought with, or leans on, and what stands in its place here (P16). */
export interface MappedWord {
  readonly list: VocabularyList;
  readonly id: string;
  /** The entry of the atlas that says the same. */
  readonly to?: string;
  /** Another id under which it is the pack's own still, where the atlas has one of its id that is something else. */
  readonly as?: string;
  /** Of a choice, the option that says the same, where it is not the one of the same id; null for none. */
  readonly options?: Readonly<Record<string, string | null>>;
}

/** What somebody says of a word; one that has neither `to` nor `as` is to stay as it is, whatever was said before. */
export interface SaidWord extends MappedWord {
  /** Where that is written. */
  readonly at?: {
    readonly file: string;
    readonly row?: number | null;
    readonly column?: string | null;
    readonly character?: number | null;
  };
}

/** An entry of a list as a person may choose it. */
export interface LikelyWord {
  readonly id: string;
  readonly name: string;
}

/** A word a pack was brought with that the atlas may have under another id, and what may be put in its place. */
export interface WordProposed extends LikelyWord {
  readonly list: VocabularyList;
  /** The pack that brings it. */
  readonly pack: string;
  /** Null: it stays the pack's own. */
  readonly to: string | null;
  readonly as: string | null;
  /** Of a choice whose place another takes: each of its options with the one that says the same, null where none does. */
  readonly options: readonly (LikelyWord & { readonly to: string | null })[] | null;
  /** Why this and no other; null where nothing is proposed. */
  readonly why: string | null;
  /** `now`: as somebody says now. `kept`: as it was mapped before. `own`: as the edition that is held has it. `new`: nobody has said. */
  readonly said: 'now' | 'kept' | 'own' | 'new';
  /** Why it may not be the same after all. Somebody must say that it is. */
  readonly warnings: readonly string[];
  /** Fields the two say otherwise; what the atlas says holds. */
  readonly otherwise: readonly string[];
  /** What may be meant, the likeliest first. */
  readonly likely: readonly (LikelyWord & { readonly why: string })[];
  /** All that could stand in its place; of a choice with its options. */
  readonly can: readonly (LikelyWord & { readonly options?: readonly LikelyWord[] })[];
  /** Whether the atlas has another entry of its id, so that it cannot stay as it is. */
  readonly clashes: boolean;
}
