import type { Reading } from '../answer/verdict.ts';
import type { Grammar, GrammarToken, Maker, Model } from '../atlas/atlas.ts';
import { namesOfMaker } from '../atlas/maker-names.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { MakerId, ModelId } from '../ids.ts';
import { asPattern } from '../plain/as-pattern.ts';
import { distance } from '../plain/distance.ts';
import { fromRoman, toRoman } from '../plain/roman.ts';
import type { Sheet } from '../sheet/sheet.ts';

/** One token as read: the text as the grammar would write it, and its number where it stands for one. */
export interface ReadToken {
  readonly token: GrammarToken;
  readonly text: string;
  readonly number: number | null;
}

/** A name read by one maker's grammar, before anything is asked of the parts. */
export interface ReadText {
  readonly maker: Maker | null;
  readonly tokens: readonly ReadToken[];
  readonly faults: readonly string[];
  /** How far the grammar got, in characters; the best reading among makers is the one that got furthest. */
  readonly reached: number;
  /** The model the atlas lists under this name. */
  readonly model: Model | null;
  /** No rule reads it, and none is known of its maker, or of some maker where none is named: whether it is a name is not known. */
  readonly unread: boolean;
  /** Whether the grammar read all of it; what is at fault then is a demand. */
  readonly whole: boolean;
  /** Whether all of it was read but the name should go on. */
  readonly brokeOff: boolean;
}

/**
 * Reads a claimed name (A4, N6) without looking at any part: the first of `readNames`. Promises are left empty; `claimOf` holds them against a unit.
 */
export const readName = (atlas: CompiledAtlas, text: string, maker: MakerId | null = null): Reading =>
  readNames(atlas, text, maker)[0] as Reading;

/** Every reading of a claimed name that has to be judged: one for each model the atlas lists under it, else the one that reads most of it. Never empty. */
export const readNames = (atlas: CompiledAtlas, text: string, maker: MakerId | null = null): readonly Reading[] =>
  readTexts(atlas, text, maker).map((read) => readingOf(atlas, read, text));

/**
 * Without a maker every maker is tried, and its trade name may stand before the name. What the atlas lists is a name whatever the maker's grammar makes
 * of it (A4). Where nothing is listed, the grammar that got furthest speaks, first that of a maker whose trade name stands there.
 */
export const readTexts = (atlas: CompiledAtlas, text: string, maker: MakerId | null): readonly [ReadText, ...ReadText[]] => {
  const makers = (maker === null ? atlas.data.makers : atlas.data.makers.filter((each) => each.id === maker)).map((each) => {
    const { rest, named } = withoutTradeName(each, text);
    return { maker: each, named, rest, read: each.grammar === null ? null : readBy(each, each.grammar, rest) };
  });
  const [listed, ...more] = makers.flatMap(({ maker: each, rest, read }): ReadText[] => {
    const keys = [nameKey(rest), nameKey(text), ...(read?.canonical == null ? [] : [nameKey(read.canonical)])];
    return [...new Set(keys.flatMap((key) => listedUnder(atlas).get(key) ?? []))]
      .filter((model) => atlas.families.get(model.family)?.maker === each.id)
      .map((model) => ({ ...(read?.whole ? read : unreadBy(each)), faults: [], model, whole: true }));
  });
  if (listed !== undefined) return [listed, ...more];
  const unruled = makers.find(({ maker: each, named }) => each.grammar === null && (named || maker !== null));
  if (unruled !== undefined) return [{ ...unreadBy(unruled.maker), faults: othersListing(atlas, text), unread: true }];
  let best: ReadText = { ...unreadBy(null), faults: ['no maker of the atlas makes names like this'], reached: -1 };
  for (const { named, read } of makers) {
    if (read === null) continue;
    const reached = read.reached + (named ? 1000 : 0) + (read.faults.length === 0 ? 500 : 0);
    if (reached > best.reached) best = { ...read, reached };
  }
  if (best.reached > 0) return [best];
  if (maker !== null) return [{ ...best, maker: atlas.makers.get(maker) ?? null, faults: [...best.faults, ...othersListing(atlas, text)] }];
  return makers.some(({ maker: each }) => each.grammar === null) ? [{ ...unreadBy(null), unread: true }] : [best];
};

/** The models a claimed name is of: several where makers list the same name (A4), none where it is no model of the atlas, or nothing is claimed. */
export const modelsClaimed = (
  atlas: CompiledAtlas,
  { claimed, claimedMaker }: Pick<Sheet, 'claimed' | 'claimedMaker'>,
): readonly Model[] => {
  const text = claimed?.trim() ?? '';
  return text === '' ? [] : readTexts(atlas, text, claimedMaker).flatMap(({ model }) => model ?? []);
};

/** Nothing read of a text, by nobody or by a maker of whom no grammar is asked. */
const unreadBy = (maker: Maker | null): ReadText => ({
  maker,
  tokens: [],
  faults: [],
  reached: 0,
  model: null,
  unread: false,
  whole: false,
  brokeOff: false,
});

/** Who lists a name that is no name of the maker it is claimed under. */
const othersListing = (atlas: CompiledAtlas, text: string): readonly string[] =>
  (listedUnder(atlas).get(nameKey(text)) ?? []).map(({ name, family }) => {
    const owner = atlas.families.get(family)?.maker ?? null;
    return `${(owner === null ? undefined : atlas.makers.get(owner)?.name) ?? 'another maker'} lists a model named ${name}`;
  });

const namesListed = new WeakMap<CompiledAtlas, ReadonlyMap<string, readonly Model[]>>();

/** Models with a maker, by the key of their name. */
export const listedUnder = (atlas: CompiledAtlas): ReadonlyMap<string, readonly Model[]> => {
  const known = namesListed.get(atlas);
  if (known !== undefined) return known;
  const made = new Map<string, Model[]>();
  for (const model of atlas.data.models) {
    if ((atlas.families.get(model.family)?.maker ?? null) === null) continue;
    const key = nameKey(model.name);
    const same = made.get(key);
    if (same) same.push(model);
    else made.set(key, [model]);
  }
  namesListed.set(atlas, made);
  return made;
};

/** What names are compared by: case, the width of spaces and dashes, spaces beside a dash, and how a prime is typed do not count. */
export const nameKey = (text: string): string =>
  text
    .normalize('NFC')
    .trim()
    .toLowerCase()
    .replace(/[′'’]/g, '′')
    .replace(/\s*[‐‑–-]\s*/g, '-')
    .replace(/\s+/g, ' ');

export const readingOf = (atlas: CompiledAtlas, read: ReadText, text: string): Reading => {
  const verdict =
    read.model !== null
      ? 'a model of the atlas'
      : read.unread
        ? 'no rule to read it by'
        : read.maker === null
          ? 'no maker’s name'
          : read.faults.length > 0
            ? 'no name of this maker'
            : 'well formed, not in the atlas';
  return {
    maker: read.maker?.id ?? null,
    verdict,
    model: read.model?.id ?? null,
    tokens: read.tokens.map(({ token, text: as }) => ({ token: token.id, text: as, promises: [] })),
    faults: read.faults,
    nearest: verdict === 'a model of the atlas' ? [] : nearestModels(atlas, read.maker, text),
  };
};

/** A maker may be named before the model, by its name or by any it traded under. */
export const withoutTradeName = (maker: Maker, text: string): { rest: string; named: boolean } => {
  const clean = text.trim().replace(/\s+/g, ' ');
  const names = [...namesOfMaker(maker)].sort((a, b) => b.length - a.length);
  const name = names.find((each) => clean.toLowerCase().startsWith(`${each.toLowerCase()} `));
  return name === undefined ? { rest: clean, named: false } : { rest: clean.slice(name.length + 1), named: true };
};

/** A text read by one grammar, with the name as that maker would write it where all of it was read; `model` is for others to find. */
export const readBy = (maker: Maker, grammar: Grammar, text: string): ReadText & { readonly canonical: string | null } => {
  let furthest = { at: 0, token: grammar.tokens[0] as GrammarToken, tokens: [] as readonly ReadToken[] };
  let whole: ReadToken[] | null = null;
  const step = (index: number, at: number, read: readonly ReadToken[]): void => {
    const token = grammar.tokens[index];
    if (token === undefined) {
      if (at === text.length && (whole === null || read.length > whole.length)) whole = [...read];
      return;
    }
    if (at > furthest.at) furthest = { at, token, tokens: read };
    const found = readToken(token, text, at);
    if (found) step(index + 1, found.end, [...read, found.read]);
    if (token.optional) step(index + 1, at, read);
  };
  step(0, 0, []);
  if (whole === null) {
    const fault =
      furthest.at >= text.length
        ? `the name breaks off where ${article(furthest.token.name)} ${furthest.token.name} (${expects(furthest.token)}) should follow`
        : `“${text.slice(furthest.at).trim()}” stands where ${article(furthest.token.name)} ${furthest.token.name} (${expects(furthest.token)}) should, or the name should end`;
    return {
      maker: furthest.at > 0 ? maker : null,
      tokens: furthest.tokens,
      faults: [fault],
      reached: furthest.at,
      model: null,
      unread: false,
      canonical: null,
      whole: false,
      brokeOff: furthest.at >= text.length,
    };
  }
  const tokens: readonly ReadToken[] = whole;
  const faults = grammar.demands.flatMap((demand) => {
    const when = tokens.find(({ token }) => token.id === demand.when.token);
    if (!when || !demand.when.is.some((word) => word.toLowerCase() === when.text.toLowerCase())) return [];
    const present = tokens.some(({ token }) => token.id === demand.then.token);
    return present === demand.then.present ? [] : [demand.because];
  });
  const canonical = writtenBy(tokens);
  return { maker, tokens, faults, reached: text.length, model: null, unread: false, canonical, whole: true, brokeOff: false };
};

/** A name as its grammar writes it. */
export const writtenBy = (tokens: readonly ReadToken[]): string =>
  tokens.map(({ token, text }, i) => (i === 0 ? text : token.before + text)).join('');

const readToken = (token: GrammarToken, text: string, at: number): { read: ReadToken; end: number } | null => {
  let start = at;
  if (at > 0 && token.before !== '') {
    const separator = /^\s+$/.test(token.before)
      ? /^\s+/
      : new RegExp(`^\\s*${token.before === '-' ? '[-‐‑–]' : asPattern(token.before.trim())}\\s*`);
    const found = separator.exec(text.slice(at));
    if (!found) return null;
    start += found[0].length;
  }
  const rest = text.slice(start);
  const { reads } = token;
  switch (reads.kind) {
    case 'word': {
      const word = [...reads.words]
        .sort((a, b) => b.length - a.length)
        .find((each) => new RegExp(`^${asPattern(each)}(?![\\p{L}])`, 'iu').test(rest));
      return word === undefined ? null : { read: { token, text: word, number: null }, end: start + word.length };
    }
    case 'whole number': {
      // A number with a zero before it is not how a maker writes one: 050 is no 50.
      const found = /^(?:0|[1-9]\d*)(?!\d)/.exec(rest);
      const number = Number(found?.[0]);
      return found && number >= reads.from && number <= reads.to
        ? { read: { token, text: String(number), number }, end: start + found[0].length }
        : null;
    }
    case 'roman numeral': {
      const found = /^[ivxlcdm]+(?![\p{L}])/iu.exec(rest);
      const number = found ? fromRoman(found[0]) : null;
      return found && number !== null && number >= reads.from && number <= reads.to
        ? { read: { token, text: toRoman(number), number }, end: start + found[0].length }
        : null;
    }
    case 'letters': {
      const found = new RegExp(`^\\p{L}{${reads.length}}(?![\\p{L}])`, 'u').exec(rest);
      return found ? { read: { token, text: found[0].toUpperCase(), number: null }, end: start + found[0].length } : null;
    }
    case 'sign': {
      const signs = rest.length - rest.replace(reads.sign === '′' ? /^[′'’]+/ : new RegExp(`^(?:${asPattern(reads.sign)})+`), '').length;
      const count = signs / reads.sign.length;
      return count >= Math.max(1, reads.from) && count <= reads.to
        ? { read: { token, text: reads.sign.repeat(count), number: count }, end: start + signs }
        : null;
    }
  }
};

const article = (name: string): string => (/^[aeiou]/i.test(name) ? 'an' : 'a');

const expects = ({ reads }: GrammarToken): string => {
  switch (reads.kind) {
    case 'word':
      return reads.words.join(', ');
    case 'whole number':
      return `a whole number from ${reads.from} to ${reads.to}`;
    case 'roman numeral':
      return `a Roman numeral from ${toRoman(reads.from)} to ${toRoman(reads.to)}`;
    case 'letters':
      return `${reads.length} letters`;
    case 'sign':
      return `“${reads.sign}”, ${reads.from} to ${reads.to} times`;
  }
};

/**
 * Model names nearest to a text, of one maker where it is known: those that share most of its words first, in their places, then by
 * edit distance. At most five.
 */
export const nearestModels = (atlas: CompiledAtlas, maker: Maker | null, text: string): ModelId[] => {
  const clean = (maker ? withoutTradeName(maker, text).rest : text.trim()).toLowerCase();
  return atlas.data.models
    .filter(({ family }) => {
      const owner = atlas.families.get(family)?.maker ?? null;
      return owner !== null && (maker === null || owner === maker.id);
    })
    .map((model) => ({ model, shared: sharedWords(clean, model.name.toLowerCase()), far: distance(clean, model.name.toLowerCase()) }))
    .sort((a, b) => b.shared - a.shared || a.far - b.far || (a.model.name < b.model.name ? -1 : 1))
    .slice(0, 5)
    .map(({ model }) => model.id);
};

const sharedWords = (a: string, b: string): number => {
  const words = b.split(/[^\p{L}\p{N}′]+/u);
  return a.split(/[^\p{L}\p{N}′]+/u).filter((word, i) => word !== '' && words[i] === word).length;
};
