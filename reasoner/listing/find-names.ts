import type { Maker } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../atlas/compile.ts';
import { readingOf, readText } from '../names/read-name.ts';
import type { Becomes, Find } from './listing.ts';
import { placesOf, stemsOf, type Word } from './words.ts';

/** No grammar reads names of more words than this. */
const mostWords = 6;

/** Names of models (N6), as far as a grammar reads them, each with the maker where one stands before it; and makers named alone. */
export const findNames = (atlas: CompiledAtlas, text: string, words: readonly Word[]): Find[] => {
  const makers = makersNamed(atlas, words);
  const finds: Find[] = [];
  let next = 0;
  words.forEach((word, at) => {
    if (at < next) return;
    const read = nameFrom(atlas, text, words, at);
    if (read === null) return;
    next = words.findIndex(({ from }) => from >= read.to);
    if (next < 0) next = words.length;
    const before = makers.find(
      ({ to, maker }) => /^[\s,:–-]*$/.test(text.slice(to, word.from)) && to <= word.from && maker.id === read.maker,
    );
    const from = before?.from ?? word.from;
    const claim: Becomes = {
      kind: 'claim',
      text: read.text,
      maker: before?.maker.id ?? null,
      model: read.model,
      verdict: read.verdict,
    };
    finds.push({ from, to: read.to, text: text.slice(from, read.to), becomes: [claim], settled: true });
  });
  const alone = makers.filter(({ from, to }) => finds.every((find) => to <= find.from || find.to <= from));
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
  readonly maker: Maker;
}

/** Makers by their name or any they traded under, the longest words first; none lies within another. */
const makersNamed = (atlas: CompiledAtlas, words: readonly Word[]): readonly NamedMaker[] => {
  const all = atlas.atlas.makers
    .flatMap((maker) => [maker.name, ...maker.tradeNames.map(({ name }) => name)].map((name) => ({ maker, stems: stemsOf(name) })))
    .sort((a, b) => b.stems.length - a.stems.length);
  const found: NamedMaker[] = [];
  for (const { maker, stems } of all) {
    for (const at of placesOf(words, stems)) {
      const [first, last] = [words[at] as Word, words[at + stems.length - 1] as Word];
      if (found.every(({ from, to }) => last.to <= from || to <= first.from)) found.push({ from: first.from, to: last.to, maker });
    }
  }
  return found;
};

type NameRead = Pick<Extract<Becomes, { kind: 'claim' }>, 'text' | 'model' | 'verdict' | 'maker'> & { readonly to: number };

/** The longest text from a word on that a grammar reads as a name; else the longest it begins to read. */
const nameFrom = (atlas: CompiledAtlas, text: string, words: readonly Word[], at: number): NameRead | null => {
  const first = words[at] as Word;
  if (!beginsAName(atlas, text.slice(first.from))) return null;
  let begun: NameRead | null = null;
  for (let count = Math.min(mostWords, words.length - at); count > 0; count -= 1) {
    const last = words[at + count - 1] as Word;
    if (/[\n\r]/.test(text.slice(first.from, last.to))) continue;
    // Signs that close a name are no letters: the prime of a generation.
    const sign = /^[′'’]+/.exec(text.slice(last.to))?.[0].length ?? 0;
    for (const to of sign > 0 ? [last.to + sign, last.to] : [last.to]) {
      const piece = text.slice(first.from, to);
      const read = readText(atlas, piece, null);
      if (read.maker === null) continue;
      const { model, verdict } = readingOf(atlas, read, piece);
      const name = { text: piece, model, verdict, maker: read.maker.id, to };
      if (read.whole) return name;
      if (begun === null && read.brokeOff) begun = name;
    }
  }
  return begun;
};

const beginsAName = (atlas: CompiledAtlas, text: string): boolean =>
  atlas.atlas.makers.some(({ grammar }) => {
    const reads = grammar?.tokens[0]?.reads;
    return reads?.kind !== 'word' || reads.words.some((word) => text.slice(0, word.length).toLowerCase() === word.toLowerCase());
  });
