import type { Grammar, GrammarToken, Maker, Model } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../atlas/compile.ts';
import type { MakerId, ModelId } from '../ids.ts';
import type { Reading } from '../verdict/verdict.ts';
import { distance } from './distance.ts';
import { fromRoman, toRoman } from './roman.ts';

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
  readonly model: Model | null;
  /** Whether the grammar read all of it; what is at fault then is a demand. */
  readonly whole: boolean;
  /** Whether all of it was read but the name should go on. */
  readonly brokeOff: boolean;
}

/**
 * Reads a claimed name (N6) without looking at any part. Without a maker every grammar is tried, those whose trade name stands
 * before it first. Promises are left empty; `testPromises` holds them against a unit.
 */
export const readName = (atlas: CompiledAtlas, text: string, maker: MakerId | null = null): Reading =>
  readingOf(atlas, readText(atlas, text, maker), text);

/** What names are read with. */
export type NamesGround = Pick<CompiledAtlas, 'atlas' | 'makers' | 'families'>;

export const readText = (atlas: NamesGround, text: string, maker: MakerId | null): ReadText => {
  const makers = maker === null ? atlas.atlas.makers : atlas.atlas.makers.filter((each) => each.id === maker);
  let best: ReadText = {
    maker: null,
    tokens: [],
    faults: ['no maker of the atlas makes names like this'],
    reached: -1,
    model: null,
    whole: false,
    brokeOff: false,
  };
  for (const each of makers) {
    const grammar = each.grammar;
    if (grammar === null) continue;
    const { rest, named } = withoutTradeName(each, text);
    const read = readBy(atlas, each, grammar, rest);
    const reached = read.reached + (named ? 1000 : 0) + (read.faults.length === 0 ? 500 : 0) + (read.model ? 250 : 0);
    if (reached > best.reached) best = { ...read, reached };
  }
  return best.reached > 0 ? best : { ...best, maker: maker === null ? null : (atlas.makers.get(maker) ?? null) };
};

export const readingOf = (atlas: CompiledAtlas, read: ReadText, text: string): Reading => {
  const verdict =
    read.maker === null
      ? 'no maker’s name'
      : read.faults.length > 0
        ? 'no name of this maker'
        : read.model
          ? 'a model of the atlas'
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
const withoutTradeName = (maker: Maker, text: string): { rest: string; named: boolean } => {
  const clean = text.trim().replace(/\s+/g, ' ');
  const names = [maker.name, ...maker.tradeNames.map(({ name }) => name)].sort((a, b) => b.length - a.length);
  const name = names.find((each) => clean.toLowerCase().startsWith(`${each.toLowerCase()} `));
  return name === undefined ? { rest: clean, named: false } : { rest: clean.slice(name.length + 1), named: true };
};

const readBy = (atlas: NamesGround, maker: Maker, grammar: Grammar, text: string): ReadText => {
  let furthest = { at: 0, token: grammar.tokens[0] as GrammarToken, tokens: [] as readonly ReadToken[] };
  let whole: ReadToken[] | null = null;
  const step = (index: number, at: number, read: readonly ReadToken[]): void => {
    const token = grammar.tokens[index];
    if (token === undefined) {
      if (at === text.length && (whole === null || read.length > whole.length)) whole = [...read];
      return;
    }
    if (at > furthest.at || (at === furthest.at && index === 0)) furthest = { at, token, tokens: read };
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
  const model = atlas.atlas.models.find(({ name, family }) => name === canonical && atlas.families.get(family)?.maker === maker.id) ?? null;
  return { maker, tokens, faults, reached: text.length, model: faults.length > 0 ? null : model, whole: true, brokeOff: false };
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
      const found = /^\d+/.exec(rest);
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
      const count = reads.sign === '′' ? signs : signs / reads.sign.length;
      return count >= Math.max(1, reads.from) && count <= reads.to
        ? { read: { token, text: reads.sign.repeat(count), number: count }, end: start + signs }
        : null;
    }
  }
};

const asPattern = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/-]/g, '\\$&');
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
  return atlas.atlas.models
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
