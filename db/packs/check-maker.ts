import type { Feature, FeatureKind, GrammarToken, Maker, TokenPromise } from '../../reasoner/index.ts';
import type { At, Faults, Place } from '../read/faults.ts';
import { idsOnce, type Lookups } from './lookups.ts';

/** A grammar that promises what features there are can be, of tokens it has; numbers whose codes stand for slots. */
export const checkMaker = (maker: Maker, at: At, find: Lookups, faults: Faults): void => {
  checkNumbering(maker, at, find, faults);
  if (maker.grammar === null) return;
  const tokens = new Set(maker.grammar.tokens.map((token) => token.id));
  idsOnce(maker.grammar.tokens, (k) => at(['grammar', 'tokens', k, 'id']), faults);
  maker.grammar.tokens.forEach((token, i) => {
    token.promises.forEach((promise, k) => {
      const path = ['grammar', 'tokens', i, 'promises', k];
      const feature = find.feature.find(promise.feature, at([...path, 'feature']), faults);
      if (feature === undefined) return;
      const kinds: readonly FeatureKind[] = promise.kind === 'number' ? ['measure', 'count'] : [promise.kind];
      if (!kinds.includes(feature.kind))
        faults.add(at([...path, 'feature']), `the ${feature.kind} "${feature.id}"`, `a ${kinds.join(' or ')}`);
      else if (promise.kind === 'choice') checkPromisedOptions(promise.of, feature, (...rest) => at([...path, 'of', ...rest]), faults);
      else if (promise.kind === 'measure') checkPromisedSizes(promise, token, (...rest) => at([...path, ...rest]), faults);
    });
  });
  maker.grammar.demands.forEach((demand, i) => {
    for (const side of ['when', 'then'] as const) {
      if (!tokens.has(demand[side].token))
        faults.add(at(['grammar', 'demands', i, side, 'token']), JSON.stringify(demand[side].token), 'a token of this grammar');
    }
  });
};

/** Codes stand for slots; a check digit has figures before it. */
const checkNumbering = ({ numbering = [] }: Maker, at: At, find: Lookups, faults: Faults): void => {
  idsOnce(numbering, (k) => at(['numbering', k, 'id']), faults);
  numbering.forEach(({ pieces, from }, i) => {
    pieces.forEach((piece, k) => {
      const path = ['numbering', i, 'pieces', k];
      if (piece.kind === 'year' && piece.figures === 2 && from === null)
        faults.add(at(['numbering', i, 'from']), 'null', 'the year the pattern began, for a year of two figures');
      if (piece.kind === 'slot')
        for (const [code, slot] of Object.entries(piece.codes)) find.slot.find(slot, at([...path, 'codes', code]), faults);
      if (piece.kind === 'check digit' && k === 0)
        faults.add(at([...path, 'kind']), 'a check digit with nothing before it', 'pieces with figures before it');
    });
  });
};

/** A table of sizes stands for texts its token reads, and none of its sizes is within the leeway of nothing. */
const checkPromisedSizes = (
  { of, within }: Extract<TokenPromise, { kind: 'measure' }>,
  { reads }: GrammarToken,
  at: (...path: PropertyKey[]) => Place,
  faults: Faults,
): void => {
  if (Object.keys(of).length === 0) faults.add(at('of'), 'an empty table', 'at least one text with its size');
  for (const [text, size] of Object.entries(of)) {
    if (!readsAs(reads, text)) faults.add(at('of', text), JSON.stringify(text), 'a text its token reads, as the grammar writes it');
    if (size <= within) faults.add(at('of', text), `${size} within ${within}`, 'a size above its leeway');
  }
};

/** Whether a token reads this text and writes it so; a Roman numeral is held to its letters alone. */
const readsAs = (reads: GrammarToken['reads'], text: string): boolean => {
  switch (reads.kind) {
    case 'word':
      return reads.words.includes(text);
    case 'whole number':
      return /^(0|[1-9]\d*)$/.test(text) && Number(text) >= reads.from && Number(text) <= reads.to;
    case 'roman numeral':
      return /^[IVXLCDM]+$/.test(text);
    case 'letters':
      return /^\p{L}+$/u.test(text) && [...text].length === reads.length && text === text.toUpperCase();
    case 'sign':
      return Array.from({ length: reads.to - reads.from + 1 }, (_, k) => reads.sign.repeat(reads.from + k)).some(
        (each) => each !== '' && each === text,
      );
  }
};

const checkPromisedOptions = (
  of: Readonly<Record<string, readonly string[]>>,
  feature: Feature,
  at: (...path: PropertyKey[]) => Place,
  faults: Faults,
): void => {
  const options = feature.options?.map((option) => option.id) ?? [];
  for (const [word, promised] of Object.entries(of)) {
    promised.forEach((option, k) => {
      if (!options.includes(option)) faults.add(at(word, k), JSON.stringify(option), options.join(' or '));
    });
  }
};
