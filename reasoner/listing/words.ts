/** A word or a number of a text, with its place in UTF-16 units. */
export interface Word {
  readonly from: number;
  readonly to: number;
  readonly text: string;
  /** As it is compared: small letters, a plural without its ending. */
  readonly stem: string;
  /** A new sentence, or a new part of one, begins with it. */
  readonly sentence: number;
  readonly clause: number;
}

/** Numbers stand apart from the letters that touch them: `57mm` is two words. A decimal comma or point stays inside its number. */
const pattern = /\d+(?:[.,]\d+)?|\.\d+|\p{L}[\p{L}\p{M}]*/gu;

export const wordsOf = (text: string): readonly Word[] => {
  const words: Word[] = [];
  let [end, sentence, clause] = [0, 0, 0];
  for (const found of text.matchAll(pattern)) {
    const between = text.slice(end, found.index);
    if (words.length > 0 && /[.;!?\n\r]/.test(between)) {
      sentence += 1;
      clause += 1;
    } else if (words.length > 0 && /[,:()[\]|•]|\s[-–—]\s/.test(between.replace(':', ' '))) clause += 1;
    end = found.index + found[0].length;
    words.push({ from: found.index, to: end, text: found[0], stem: stemOf(found[0]), sentence, clause });
  }
  return words;
};

export const stemsOf = (text: string): readonly string[] => wordsOf(text).map(({ stem }) => stem);

/** Small letters, and the singular of an English plural; numbers as they are. */
export const stemOf = (word: string): string => {
  const small = word.toLowerCase();
  if (!/\p{L}/u.test(small)) return small;
  if (small.length > 4 && /(?:sh|ch|x)es$/.test(small)) return small.slice(0, -2);
  return small.length > 3 && small.endsWith('s') && !small.endsWith('ss') ? small.slice(0, -1) : small;
};

export const isNumber = (word: Word): boolean => /^[\d.]/.test(word.text);

/** A number as written, with a decimal point or comma. */
export const numberOf = (text: string): number => Number(text.replace(',', '.'));

/** Where `phrase` stands among the words, as the number of its first one; all places. */
export const placesOf = (words: readonly Word[], phrase: readonly string[]): readonly number[] =>
  phrase.length === 0 ? [] : words.flatMap((_, at) => (phrase.every((stem, i) => words[at + i]?.stem === stem) ? [at] : []));

/** The number of the first word that begins at a place of the text or after it; their count where none does. */
export const firstFrom = (words: readonly Word[], place: number): number => {
  let [low, high] = [0, words.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((words[middle] as Word).from < place) low = middle + 1;
    else high = middle;
  }
  return low;
};
