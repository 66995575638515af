import type { CompiledAtlas } from '../compile/compiled.ts';
import type { Seen } from '../sheet/sheet.ts';
import type { Find } from './listing.ts';
import { asFind, likelihood, type Scored, slotFactor } from './ranked.ts';
import type { Spoken } from './spoken.ts';
import { shareOf, type Term, type Terms, weightsOf } from './terms.ts';
import { isNumber, type Word } from './words.ts';

/** Counts with what is counted beside them: `10 blades`, `7 full blades`, `7+7 blades`, `blade count 11`, `year of make 1998`. */
export const findCounts = (atlas: CompiledAtlas, terms: Terms, text: string, words: readonly Word[], round: Spoken): Find[] => {
  const counts = terms.features.filter(({ feature }) => feature.kind === 'count');
  const things = weightsOf(counts.map(({ thing }) => [thing]));
  const labels = weightsOf(counts.map((term) => term.labels));
  const finds: Find[] = [];
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at] as Word;
    if (!/^\d{1,4}$/.test(word.text) || (at > 0 && /[\d./,]/.test(text.charAt(word.from - 1)))) continue;
    const pair = pairFrom(text, words, at);
    const last = pair?.last ?? at;
    const thing = thingAfter(counts, words, last);
    const spoken = round(at);
    const value = (from: number, to = from): Seen => ({ kind: 'count', from, to });
    const score = (term: Term, stems: ReadonlySet<string>, said: Seen): Scored => ({
      feature: term.feature,
      value: said,
      score:
        Math.max(shareOf([term.thing], stems, things) || 0, shareOf(term.labels, stems, labels)) *
        slotFactor(spoken, term.feature.slot) *
        likelihood(atlas, term.feature, said),
    });
    if (thing !== null) {
      const stems = new Set(words.slice(last + 1, thing.end).map(({ stem }) => stem));
      const end = (words[thing.end - 1] as Word).to;
      const { alike } = thing;
      if (pair?.kind === 'both') finds.push(...together(text, word, words[last] as Word, end, alike, spoken));
      else {
        const said = value(Number(word.text), pair === null ? Number(word.text) : Number((words[last] as Word).text));
        const find = asFind(
          text,
          word.from,
          end,
          alike.map((term) => score(term, stems, said)).filter((one) => one.score > 0.02),
        );
        if (find !== null) finds.push(find);
      }
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

/** `10 or 11`, `10-11`: a range. `7+7`, `7/7`: two counts side by side. `last` is the number of the second number's word. */
const pairFrom = (text: string, words: readonly Word[], at: number): { readonly kind: 'range' | 'both'; readonly last: number } | null => {
  const joined = ['or', 'to'].includes(words[at + 1]?.stem ?? '');
  const last = joined ? at + 2 : at + 1;
  const [one, other] = [words[at] as Word, words[last]];
  if (other === undefined || !/^\d{1,3}$/.test(other.text) || other.sentence !== one.sentence) return null;
  const rising = Number(one.text) <= Number(other.text);
  if (joined) return rising ? { kind: 'range', last } : null;
  const between = text.slice(one.to, other.from);
  if (/^\s*[+/&]\s*$/.test(between)) return { kind: 'both', last };
  return /^\s*[-–]\s*$/.test(between) && rising ? { kind: 'range', last } : null;
};

/**
 * What is counted, within three words after the number and in its clause: the features whose things go by that word, or that are
 * called so by a single word (`splitters`), and the number of the word behind it.
 */
const thingAfter = (
  counts: readonly Term[],
  words: readonly Word[],
  at: number,
): { readonly end: number; readonly alike: readonly Term[] } | null => {
  const clause = (words[at] as Word).clause;
  const near: Word[] = [];
  for (const word of words.slice(at + 1, at + 4)) {
    if (word.clause !== clause || isNumber(word)) break;
    near.push(word);
  }
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

const endsWith = (words: readonly Word[], label: readonly string[]): boolean =>
  label.length <= words.length && label.every((stem, i) => words[words.length - label.length + i]?.stem === stem);

/** Two counts of one wheel, in the order the atlas has them; only where one slot alone has two such things. */
const together = (
  text: string,
  one: Word,
  other: Word,
  end: number,
  alike: readonly Term[],
  spoken: ReadonlyMap<string, number>,
): Find[] => {
  const slots = [...new Set(alike.map(({ feature }) => feature.slot))].filter(
    (slot) => alike.filter(({ feature }) => feature.slot === slot).length === 2,
  );
  const slot = slots.find((each) => spoken.has(each)) ?? (slots.length === 1 ? slots[0] : undefined);
  const [first, second] = alike.filter(({ feature }) => feature.slot === slot);
  if (first === undefined || second === undefined) return [];
  return [
    { word: one, to: one.to, term: first },
    { word: other, to: end, term: second },
  ].flatMap(({ word, to, term }) => {
    const count = Number(word.text);
    return asFind(text, word.from, to, [{ feature: term.feature, value: { kind: 'count', from: count, to: count }, score: 1 }]) ?? [];
  });
};
