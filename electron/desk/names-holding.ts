import type { NameAnswer } from '../../reasoner/index.ts';

/** Names whose text holds every word typed, in any order and wherever in a word it stands; all of them where none is typed. */
export const namesHolding = (names: readonly NameAnswer[], typed: string): readonly NameAnswer[] => {
  const wanted = folded(typed).match(/\S+/gu) ?? [];
  if (wanted.length === 0) return names;
  const texts = textsOf(names);
  return names.filter((_, at) => wanted.every((word) => texts[at]?.includes(word)));
};

/** Letters as they are looked for: without case or accents. */
const folded = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

/** The texts of the names of a verdict, folded once: whoever types asks again at every key. */
const textsOf = (names: readonly NameAnswer[]): readonly string[] => {
  const texts = known.get(names) ?? names.map(({ name }) => folded(name.text));
  known.set(names, texts);
  return texts;
};
const known = new WeakMap<readonly NameAnswer[], readonly string[]>();
