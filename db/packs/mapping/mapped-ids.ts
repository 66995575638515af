import type { Named } from '../../atlas/list.ts';
import { type Entries, everyList } from '../../atlas/lists.ts';
import { type MappedWord, type VocabularyList, vocabularyLists } from '../mapped-word.ts';

/** What is said of a pack's words: of those it brings itself, the first that is said of one, and of those it has from packs it leans on. A word that has neither `to` nor `as` stays as it is. */
export interface Mapping {
  readonly own: readonly MappedWord[];
  readonly leaned: readonly MappedWord[];
}

const listOf = new Map<string, VocabularyList>(
  everyList.flatMap(({ name, one }) => ((vocabularyLists as readonly string[]).includes(name) ? [[one, name as VocabularyList]] : [])),
);

/** Ids of a pack as it was brought, as they are called here. */
export class MappedIds {
  readonly #words = new Map<string, MappedWord>();
  readonly #met = new Set<MappedWord>();
  /** Choices of the pack's own that choose among metals, and so change their options with the metals. */
  readonly #metals: ReadonlySet<string>;

  /** @param files its lists as they were brought */
  constructor(files: Entries, { own, leaned }: Mapping) {
    const brought = new Set(vocabularyLists.flatMap((list) => (files[list] as readonly Named[]).map(({ id }) => `${list} ${id}`)));
    for (const word of own) {
      const key = `${word.list} ${word.id}`;
      if (brought.has(key) && !this.#words.has(key)) this.#words.set(key, word);
    }
    for (const word of this.#words.values()) if (isMapped(word)) this.#met.add(word);
    for (const word of leaned) {
      const key = `${word.list} ${word.id}`;
      if (!brought.has(key) && !this.#words.has(key)) this.#words.set(key, word);
    }
    this.#metals = new Set(files.warmth.flatMap(({ sides }) => sides.map(({ metal }) => metal as string)));
  }

  wordOf(list: string, id: string): MappedWord | null {
    return this.#words.get(`${list} ${id}`) ?? null;
  }

  /** @param one what its list calls one: `feature` */
  idOf(one: string, id: string): string {
    const list = listOf.get(one);
    const word = list === undefined ? null : this.wordOf(list, id);
    if (word === null) return id;
    if (isMapped(word)) this.#met.add(word);
    return word.to ?? word.as ?? id;
  }

  /** An option of a choice, by its feature as it was brought; null where the feature that takes its place has none like it. */
  optionOf(feature: string, option: string): string | null {
    const word = this.wordOf('features', feature);
    if (word?.to === undefined) return this.#metals.has(feature) ? this.idOf('metal', option) : option;
    return word.options !== undefined && Object.hasOwn(word.options, option) ? (word.options[option] as string | null) : option;
  }

  /** The features, as they were brought, whose options may be called otherwise here. */
  get choices(): ReadonlySet<string> {
    return new Set([...this.#metals, ...[...this.#words.values()].flatMap(({ list, id, to }) => (list === 'features' && to ? [id] : []))]);
  }

  /** What was said of the pack's own words, and of others that were met in it, list by list. */
  get applied(): readonly MappedWord[] {
    return vocabularyLists.flatMap((list) =>
      [...this.#words.values()].flatMap((word): readonly MappedWord[] => {
        if (word.list !== list || !this.#met.has(word)) return [];
        const { id, to, as, options } = word;
        if (as !== undefined) return [{ list, id, as }];
        return to === undefined ? [] : [{ list, id, to, ...(options === undefined ? {} : { options }) }];
      }),
    );
  }
}

const isMapped = ({ to, as }: MappedWord): boolean => to !== undefined || as !== undefined;
