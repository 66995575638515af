import type { Maker } from '../atlas/atlas.ts';
import { namesOfMaker } from '../atlas/maker-names.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { listedUnder, nameKey, type ReadText, readingOf, readTexts } from '../grammar/read-name.ts';
import { limits } from '../plain/limits.ts';
import type { Becomes, Find } from './listing.ts';
import { Taken } from './taken.ts';
import { firstFrom, placesOf, stemsOf, type Word } from './words.ts';

/** No grammar reads names of more words than this. */
const mostWords = 6;

/**
 * Names of models the atlas lists (A4), and others as far as a grammar reads them (N6), each with the maker where one stands before it; and makers named
 * alone. A name several makers list is one find: as it stands, without a maker, and after that as each one's.
 */
export const findNames = (atlas: CompiledAtlas, text: string, words: readonly Word[]): Find[] => {
  const makers = makersNamed(atlas, words);
  const endingBefore = new Map(makers.map((named) => [named.next, named]));
  const finds: Find[] = [];
  let next = 0;
  words.forEach((word, at) => {
    if (at < next) return;
    const read = nameFrom(atlas, text, words, at);
    if (read === null) return;
    next = firstFrom(words, read.to);
    const beside = endingBefore.get(at);
    const before =
      beside !== undefined &&
      /^[\s,:–-]*$/.test(text.slice(beside.to, word.from)) &&
      read.reads.some((one) => one.maker?.id === beside.maker.id)
        ? beside
        : undefined;
    const from = before?.from ?? word.from;
    const piece = text.slice(word.from, read.to);
    const claimed = ({ maker, ...one }: ReadText, stated: boolean): Becomes => {
      const { model, verdict } = readingOf(atlas, { maker, ...one }, piece);
      return { kind: 'claim', text: piece, maker: stated ? (maker?.id ?? null) : null, model, verdict };
    };
    const own = read.reads.find(({ maker }) => maker?.id === before?.maker.id);
    const each = read.reads.length > 1 && own === undefined ? read.reads.map((one) => claimed(one, true)) : [];
    const becomes: Find['becomes'] = [claimed(own ?? read.reads[0], own !== undefined), ...each];
    finds.push({ from, to: read.to, text: text.slice(from, read.to), becomes, settled: true });
  });
  const taken = new Taken(text.length);
  for (const find of finds) taken.take(find);
  const alone = makers.filter((named) => taken.isFree(named));
  return [
    ...finds,
    ...alone.map(
      ({ from, to, maker }): Find => ({
        from,
        to,
        text: text.slice(from, to),
        becomes: [{ kind: 'maker', maker: maker.id }],
        settled: true,
      }),
    ),
  ];
};

interface NamedMaker {
  readonly from: number;
  readonly to: number;
  /** The number of the word after it. */
  readonly next: number;
  readonly maker: Maker;
}

/** Makers by their name or any they traded under, the longest words first; none lies within another. */
const makersNamed = (atlas: CompiledAtlas, words: readonly Word[]): readonly NamedMaker[] => {
  const all = atlas.data.makers
    .flatMap((maker) => namesOfMaker(maker).map((name) => ({ maker, stems: stemsOf(name) })))
    .sort((a, b) => b.stems.length - a.stems.length);
  const found: NamedMaker[] = [];
  const taken = new Taken(words.length);
  for (const { maker, stems } of all) {
    for (const at of placesOf(words, stems)) {
      const next = at + stems.length;
      if (taken.take({ from: at, to: next })) found.push({ from: (words[at] as Word).from, to: (words[next - 1] as Word).to, next, maker });
    }
  }
  return found;
};

interface NameRead {
  readonly reads: readonly [ReadText, ...ReadText[]];
  readonly to: number;
}

/** The longest text from a word on that is listed or that a grammar reads as a name; else the longest it begins to read. */
const nameFrom = (atlas: CompiledAtlas, text: string, words: readonly Word[], at: number): NameRead | null => {
  const first = words[at] as Word;
  if (!beginsAName(atlas, text.slice(first.from))) return null;
  let begun: NameRead | null = null;
  for (let count = Math.min(mostWords, words.length - at); count > 0; count -= 1) {
    const last = words[at + count - 1] as Word;
    // Nothing longer can be claimed.
    if (last.to - first.from > limits.claimLetters) continue;
    if (/[\n\r]/.test(text.slice(first.from, last.to))) continue;
    // Signs that close a name are no letters: the prime of a generation.
    const sign = /^[′'’]+/.exec(text.slice(last.to))?.[0].length ?? 0;
    for (const to of sign > 0 ? [last.to + sign, last.to] : [last.to]) {
      const piece = text.slice(first.from, to);
      const reads = readTexts(atlas, piece, null);
      const [read] = reads;
      if (read.maker === null) continue;
      // One word without a figure may be any word of the language: it is a name only as the maker writes it.
      if (read.model !== null && count === 1 && !/\d/.test(piece) && piece !== read.model.name) continue;
      if (read.whole) return { reads, to };
      if (begun === null && read.brokeOff) begun = { reads, to };
    }
  }
  return begun;
};

const firstWords = new WeakMap<CompiledAtlas, ReadonlySet<string>>();

const firstWord = (text: string): string => /^[^\s-]+?(?=[.,;:!?)"”]*(?:[\s-]|$))/u.exec(text)?.[0] ?? '';

/** What some listed name begins with, as `nameKey` has it. */
const firstListed = (atlas: CompiledAtlas): ReadonlySet<string> => {
  const known = firstWords.get(atlas);
  if (known !== undefined) return known;
  const made = new Set([...listedUnder(atlas).keys()].map(firstWord));
  firstWords.set(atlas, made);
  return made;
};

const beginsAName = (atlas: CompiledAtlas, text: string): boolean =>
  firstListed(atlas).has(firstWord(nameKey(text.slice(0, 80)))) ||
  atlas.data.makers.some(({ grammar }) => {
    if (grammar === null) return false;
    const reads = grammar.tokens[0]?.reads;
    return reads?.kind !== 'word' || reads.words.some((word) => text.slice(0, word.length).toLowerCase() === word.toLowerCase());
  });
