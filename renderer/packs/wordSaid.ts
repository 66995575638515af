import type { MappedWord, WordProposed } from '../../db/answers.ts';

/** What is said of a word of a pack: as it is told, until somebody says otherwise. */
export type Said = Pick<WordProposed, 'list' | 'id' | 'to' | 'as'> & { readonly options: Readonly<Record<string, string | null>> | null };

export const keyOf = ({ list, id }: Pick<WordProposed, 'list' | 'id'>): string => `${list} ${id}`;

export const asTold = ({ list, id, to, as, options }: WordProposed): Said => ({
  ...{ list, id, to, as },
  options: options === null ? null : Object.fromEntries(options.map((one) => [one.id, one.to])),
});

/** The id under which a word stays the pack's own where the atlas has one of its id. */
export const ownId = ({ pack, id }: Pick<WordProposed, 'pack' | 'id'>): string => `${pack}.${id}`.slice(0, 100);

/** As the desk is told it: each word, those that stay the pack's own too. */
export const wordSaid = ({ list, id, to, as, options }: Said): MappedWord => {
  if (as !== null) return { list, id, as };
  if (to === null) return { list, id };
  const otherwise = Object.entries(options ?? {}).filter(([option, is]) => option !== is);
  return { list, id, to, ...(otherwise.length === 0 ? {} : { options: Object.fromEntries(otherwise) }) };
};

/** What was looked at, word by word. */
export const saidInAll = (words: readonly WordProposed[]): MappedWord[] => words.map((word) => wordSaid(asTold(word)));
