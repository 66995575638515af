import type { Named, Values } from '../../atlas/list.ts';
import { fold, tight } from '../../plain/fold.ts';

type Entry = Named & Values;

/** What an entry is called, from what it says itself to what little is left of that: entries that share a word of one of these may be one. */
export interface Called {
  readonly name: readonly string[];
  /** With its other words. */
  readonly words: readonly string[];
  /** Their words in whatever order, without those that say nothing. */
  readonly bare: readonly string[];
  /** The words of the trade they are forms of. */
  readonly trade: readonly string[];
}

/** A word of the trade, by any of its forms; what is none as it is. */
export type TradeWords = (folded: string) => string;

/**
 * Forms of one word are not always the same: a spigot and a recess are both a pilot. So this makes two likely, and never certain.
 * @param terms of both sides
 */
export const tradeWords = (terms: readonly Values[]): TradeWords => {
  const first = new Map<string, string>();
  for (const { name, alsoCalled = [] } of terms as readonly { readonly name: string; readonly alsoCalled?: readonly string[] }[])
    for (const form of [name, ...alsoCalled]) if (!first.has(fold(form))) first.set(fold(form), fold(name));
  return (folded) => first.get(folded) ?? folded;
};

/** @param within what the thing it is a part of is called: `compressor wheel exducer` is the exducer of the compressor wheel */
export const calledOf = (entry: Entry, within: readonly string[], trade: TradeWords): Called => {
  const name = [entry.name ?? entry.title].flatMap((text) => (typeof text === 'string' ? [without(fold(text), within)] : []));
  const words = [...name, ...((entry.alsoCalled ?? []) as readonly string[]).map((text) => without(fold(text), within))];
  return { name, words, bare: words.map(bareOf), trade: words.map(trade) };
};

/** Without the name of what it is within, before it or behind it. */
const without = (folded: string, within: readonly string[]): string => {
  for (const of of [...within].sort((a, b) => b.length - a.length)) {
    if (of !== '' && folded.startsWith(`${of} `)) return folded.slice(of.length + 1);
    if (of !== '' && folded.endsWith(` of the ${of}`)) return folded.slice(0, -` of the ${of}`.length);
  }
  return folded;
};

const saysNothing = new Set(['of', 'the', 'a', 'an', 'at', 'to', 'in', 'on', 'for', 'and', 'its', 's']);
const oneWord: Readonly<Record<string, string>> = {
  dia: 'diameter',
  diam: 'diameter',
  number: 'count',
  no: 'count',
  quantity: 'count',
  len: 'length',
};

const bareOf = (folded: string): string => tokensOf(folded).join(' ');

const tokensOf = (folded: string): readonly string[] =>
  [
    ...new Set(
      folded
        .split(' ')
        .map((word) => oneWord[word] ?? (word.length > 3 && word.endsWith('s') && !word.endsWith('ss') ? word.slice(0, -1) : word))
        .filter((word) => word !== '' && !saysNothing.has(word)),
    ),
  ].sort();

/** Why two are taken for one, from the surest; null where nothing says so. */
export const ways = ['name', 'words', 'bare'] as const;
export type Way = (typeof ways)[number];

/** The first word the two share on this way. */
export const sharedOn = (way: Way | 'trade', a: Called, b: Called): string | null =>
  a[way].find((text) => text !== '' && b[way].includes(text)) ?? null;

/** How much of their words two share, 0 to 1, where they share most. */
export const likeness = (a: Called, b: Called): number => {
  let most = 0;
  for (const one of a.bare)
    for (const other of b.bare) {
      const [mine, theirs] = [new Set(one.split(' ')), new Set(other.split(' '))];
      const both = [...mine].filter((word) => theirs.has(word)).length;
      most = Math.max(most, both / (mine.size + theirs.size - both));
    }
  return most;
};

/** The options of one choice, each with the one of another that says the same; null where none does. */
export const optionsAlike = (mine: readonly Entry[], theirs: readonly Entry[]): ReadonlyMap<string, string | null> => {
  const found = new Map<string, string | null>();
  const taken = new Set<string>();
  const calledAs = (option: Entry) => calledOf(option, [], (text) => text);
  const tries: readonly ((a: Entry, b: Entry) => boolean)[] = [
    (a, b) => a.id === b.id && sharedOn('words', calledAs(a), calledAs(b)) !== null,
    ...ways.map((way) => (a: Entry, b: Entry) => sharedOn(way, calledAs(a), calledAs(b)) !== null),
    (a, b) => tight(a.id) === tight(b.id),
  ];
  for (const alike of tries)
    for (const a of mine) {
      if (found.has(a.id)) continue;
      const like = theirs.filter((b) => !taken.has(b.id) && alike(a, b));
      if (like.length !== 1) continue;
      found.set(a.id, like[0]?.id as string);
      taken.add(like[0]?.id as string);
    }
  return new Map(mine.map(({ id }) => [id, found.get(id) ?? null]));
};
