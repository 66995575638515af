import type { CompiledAtlas } from '../compile/compiled.ts';
import type { SlotId } from '../ids.ts';
import type { Seen } from '../sheet/sheet.ts';
import type { Find } from './listing.ts';
import { asFind, likelihood, type Scored, slotFactor } from './ranked.ts';
import type { Spoken } from './spoken.ts';
import { shareOf, type Term, type Terms, weightsOf } from './terms.ts';
import { isNumber, type Word } from './words.ts';

/**
 * Counts with what is counted beside them: `10 blades`, `7 full blades`, `7+7 blades`, `6 full + 6 splitter blades`, `blade count 11`, `year of make 1998`; and
 * two counts side by side with nothing beside them, `6+6`, which are of the one part that has two such things on it.
 */
export const findCounts = (atlas: CompiledAtlas, terms: Terms, text: string, words: readonly Word[], round: Spoken): Find[] => {
  const counts = terms.features.filter(({ feature }) => feature.kind === 'count');
  const things = weightsOf(counts.map(({ thing }) => [thing]));
  const labels = weightsOf(counts.map((term) => term.labels));
  const value = (from: number, to = from): Seen => ({ kind: 'count', from, to });
  const finds: Find[] = [];
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at] as Word;
    if (!/^\d{1,4}$/.test(word.text) || (at > 0 && /[\d./,]/.test(text.charAt(word.from - 1)))) continue;
    const pair = pairFrom(text, words, at);
    const last = pair?.last ?? at;
    const thing = thingAfter(counts, words, last);
    const spoken = round(at);
    const score = (term: Term, stems: ReadonlySet<string>, said: Seen): Scored => ({
      feature: term.feature,
      value: said,
      score:
        Math.max(shareOf([term.thing], stems, things) || 0, shareOf(term.labels, stems, labels)) *
        slotFactor(spoken, term.feature.slot) *
        likelihood(atlas, term.feature, said),
    });
    if (pair?.kind === 'both') {
      const end = thing === null ? (words[last] as Word).to : (words[thing.end - 1] as Word).to;
      const found = together(text, [word, words[last] as Word], end, thing?.alike ?? counts, spoken);
      if (thing !== null) finds.push(...found.map(({ find }) => find));
      else if (pair.sign !== 'x') finds.push(...found.flatMap(({ find, slot }) => bare(find, spoken.get(slot) === 1, pair.sign)));
      at = Math.max(last, (thing?.end ?? 0) - 1);
      continue;
    }
    if (thing !== null) {
      const sum = sumBehind(text, words, thing.end, Number(word.text));
      if (sum !== null) {
        const [one, other] = [words[sum.first] as Word, words[sum.last] as Word];
        finds.push(...together(text, [one, other], other.to, thing.alike, spoken).map(({ find }) => find));
        at = sum.last;
        continue;
      }
      const stems = new Set(words.slice(last + 1, thing.end).map(({ stem }) => stem));
      const end = (words[thing.end - 1] as Word).to;
      const said = value(Number(word.text), pair === null ? Number(word.text) : Number((words[last] as Word).text));
      const scored = thing.alike.map((term) => score(term, stems, said)).filter((one) => one.score > 0.02);
      const find = asFind(text, word.from, end, scored);
      if (find !== null) finds.push(saysWhich(find, thing.alike, stems) ? find : { ...find, settled: false });
      at = thing.end - 1;
      continue;
    }
    // `blade count 11`: the label stands right before it.
    const before = words
      .slice(Math.max(0, at - 5), at)
      .filter(({ clause, sentence }) => clause === word.clause || sentence === word.sentence);
    const ending = counts.filter((term) => term.labels.some((label) => endsWith(before, label)));
    if (ending.length === 0) continue;
    const said = value(Number(word.text));
    const longest = Math.max(
      ...ending.flatMap((term) => term.labels.filter((label) => endsWith(before, label)).map(({ length }) => length)),
    );
    const from = (words[at - longest] as Word).from;
    const stems = new Set(words.slice(at - longest, at).map(({ stem }) => stem));
    const find = asFind(
      text,
      from,
      word.to,
      ending.map((term) => score(term, stems, said)),
    );
    if (find !== null) finds.push(find);
  }
  return finds;
};

/**
 * Two counts with nothing beside them: settled where the part is named; else a doubt, which the reader may take. With a stroke they could be anything, a date or
 * a size, and are read only where the part is named.
 */
const bare = (find: Find, named: boolean, sign: string): Find[] => (named ? [find] : sign === '+' ? [{ ...find, settled: false }] : []);

/** Of one part that has two things by one word on it, as full and splitter blades, a bare `12 blades` may be either, or both together. */
const saysWhich = ({ becomes: [first] }: Find, alike: readonly Term[], stems: ReadonlySet<string>): boolean => {
  if (first.kind !== 'told') return true;
  const own = alike.filter(({ feature }) => feature.slot === first.slot);
  const term = own.find(({ feature }) => feature.id === first.feature);
  const common = term?.thing.at(-1);
  return (
    own.length < 2 ||
    [...stems].some((stem) => stem !== common && (term?.thing.includes(stem) || term?.labels.some((label) => label.includes(stem))))
  );
};

/** `12 blades (6+6)`: the two that make up the sum, where they stand right behind it; by the numbers of their words. */
const sumBehind = (
  text: string,
  words: readonly Word[],
  first: number,
  sum: number,
): { readonly first: number; readonly last: number } | null => {
  const [thing, one] = [words[first - 1] as Word, words[first]];
  if (one === undefined || !/^[\s,:=([–-]*$/.test(text.slice(thing.to, one.from)) || !/^\d{1,3}$/.test(one.text)) return null;
  const pair = pairFrom(text, words, first);
  return pair?.kind === 'both' && Number(one.text) + Number((words[pair.last] as Word).text) === sum ? { first, last: pair.last } : null;
};

type Pair = { readonly last: number } & ({ readonly kind: 'range' } | { readonly kind: 'both'; readonly sign: '+' | '/' | 'x' });

/** `10 or 11`, `10-11`: a range. `7+7`, `7/7`, `7x7`: two counts side by side. `last` is the number of the second number's word. */
const pairFrom = (text: string, words: readonly Word[], at: number): Pair | null => {
  const joint = words[at + 1]?.stem ?? '';
  const last = ['or', 'to', 'x'].includes(joint) ? at + 2 : at + 1;
  const [one, other] = [words[at] as Word, words[last]];
  if (other === undefined || !/^\d{1,3}$/.test(other.text) || other.sentence !== one.sentence) return null;
  const rising = Number(one.text) <= Number(other.text);
  const between = text.slice(one.to, other.from);
  if (joint === 'x' || /^\s*×\s*$/.test(between)) return { kind: 'both', last, sign: 'x' };
  if (last === at + 2) return rising ? { kind: 'range', last } : null;
  if (/^\s*[+&]\s*$/.test(between)) return { kind: 'both', last, sign: '+' };
  if (/^\s*\/\s*$/.test(between)) return { kind: 'both', last, sign: '/' };
  return /^\s*[-–]\s*$/.test(between) && rising ? { kind: 'range', last } : null;
};

interface Counted {
  /** The number of the word behind what is counted. */
  readonly end: number;
  readonly alike: readonly Term[];
}

/**
 * What is counted, within three words after the number and in its clause: the features whose things go by that word, or that are
 * called so by a single word (`splitters`). Of `6 full + 6 splitter blades` the first goes by the last word of the second.
 */
const thingAfter = (counts: readonly Term[], words: readonly Word[], at: number): Counted | null => {
  const near = nearAfter(words, at);
  return calledIn(counts, near, at) ?? shortened(counts, words, at, near[near.length - 1]?.stem === 'and' ? near.slice(0, -1) : near);
};

/** The words, at most three, that stand behind a number in its clause, up to the next number. */
const nearAfter = (words: readonly Word[], at: number): readonly Word[] => {
  const clause = (words[at] as Word).clause;
  const near = words.slice(at + 1, at + 4);
  const end = near.findIndex((word) => word.clause !== clause || isNumber(word));
  return end === -1 ? near : near.slice(0, end);
};

const calledIn = (counts: readonly Term[], near: readonly Word[], at: number): Counted | null => {
  const called = [
    (term: Term, stem: string) => term.thing.at(-1) === stem,
    (term: Term, stem: string) => term.labels.some((label) => label.length === 1 && label[0] === stem),
  ];
  for (const is of called) {
    for (const [i, { stem }] of near.entries()) {
      const alike = counts.filter((term) => is(term, stem));
      if (alike.length > 0) return { end: at + 2 + i, alike };
    }
  }
  return null;
};

/** `6 full` before `6 splitter blades`: the words are all but the last of what is counted, and that stands behind the next number of the sentence. */
const shortened = (counts: readonly Term[], words: readonly Word[], at: number, near: readonly Word[]): Counted | null => {
  if (near.length === 0) return null;
  const behind = at + 1 + near.length;
  const next = words[behind]?.stem === 'and' ? behind + 1 : behind;
  const number = words[next];
  if (number === undefined || !/^\d{1,3}$/.test(number.text) || number.sentence !== (words[at] as Word).sentence) return null;
  const thing = calledIn(counts, nearAfter(words, next), next);
  const last = thing?.alike[0]?.thing.at(-1);
  if (last === undefined) return null;
  const whole = [...near.map(({ stem }) => stem), last];
  const alike = counts.filter(({ thing: own, labels }) =>
    [own, ...labels].some((one) => one.length === whole.length && endsWithStems(one, whole)),
  );
  return alike.length === 0 ? null : { end: behind, alike };
};

const endsWithStems = (one: readonly string[], other: readonly string[]): boolean => other.every((stem, i) => one[i] === stem);

const endsWith = (words: readonly Word[], label: readonly string[]): boolean =>
  label.length <= words.length && label.every((stem, i) => words[words.length - label.length + i]?.stem === stem);

/** Two counts of one wheel, in the order the atlas has them; only where one slot alone has two such things. */
const together = (
  text: string,
  [one, other]: readonly [Word, Word],
  end: number,
  among: readonly Term[],
  spoken: ReadonlyMap<SlotId, number>,
): readonly { readonly find: Find; readonly slot: SlotId }[] => {
  const pairs = twosOf(among);
  const slot = [...pairs.keys()].find((each) => spoken.has(each)) ?? (pairs.size === 1 ? [...pairs.keys()][0] : undefined);
  const [first, second] = (slot === undefined ? undefined : pairs.get(slot)) ?? [];
  if (slot === undefined || first === undefined || second === undefined) return [];
  return [
    { word: one, to: one.to, term: first },
    { word: other, to: end, term: second },
  ].flatMap(({ word, to, term }) => {
    const count = Number(word.text);
    const find = asFind(text, word.from, to, [{ feature: term.feature, value: { kind: 'count', from: count, to: count }, score: 1 }]);
    return find === null ? [] : [{ find, slot }];
  });
};

/** Of each slot the two features whose things go by one word; none where there are more, or fewer. */
const twosOf = (among: readonly Term[]): ReadonlyMap<SlotId, readonly Term[]> => {
  const groups = new Map<string, Term[]>();
  for (const term of among) {
    const last = term.thing.at(-1);
    if (last === undefined) continue;
    const key = `${term.feature.slot} ${last}`;
    groups.set(key, [...(groups.get(key) ?? []), term]);
  }
  return new Map([...groups.values()].flatMap((two) => (two.length === 2 ? [[(two[0] as Term).feature.slot, two] as const] : [])));
};
