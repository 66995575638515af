import type { Fact, Feature } from '../../reasoner/index.ts';
import { tight } from '../plain/fold.ts';

/** A fact as one cell says it; `readFact` reads the same from it. A size that stands alone is a number, as a spreadsheet reckons with. In mm or degrees. */
export const sayFact = (feature: Feature, fact: Fact): string | number => {
  switch (fact.kind) {
    case 'not known':
      return '?';
    case 'count':
      return fact.from === fact.to ? fact.from : `${fact.from}..${fact.to}`;
    case 'measure':
      if (fact.code !== undefined) return `${plain(fact.nominal)} ${fact.code}`;
      if (fact.lower === 0 && fact.upper === 0) return fact.nominal;
      if (fact.lower === -fact.upper) return `${plain(fact.nominal)} ±${plain(fact.upper)}`;
      return `${plain(fact.nominal)} ${signed(fact.upper, '+')}/${signed(fact.lower, '-')}`;
    case 'choice':
      return fact.anyOf.map((id) => optionWord(feature, id)).join(' | ');
    case 'presence':
      return fact.present ? 'yes' : 'no';
    case 'mark':
      return [...fact.anyOf.map(markWord), ...(fact.blank ? ['(blank)'] : [])].join(' | ');
  }
};

/** The name of an option, where it can be told by it from all others; else its id. */
const optionWord = ({ options = [] }: Feature, id: string): string => {
  const option = options.find((one) => one.id === id);
  if (option === undefined) return id;
  const word = tight(option.name);
  const clear =
    word !== '' &&
    !/\||\sor\s/i.test(option.name) &&
    options.every((one) => one === option || (tight(one.name) !== word && tight(one.id) !== word));
  return clear ? option.name : id;
};

/** Letters that would read as something else stand in quotes. */
const markWord = (text: string): string =>
  /^(\?+|unknown|not known|n\/?a|blank|\(blank\)|no letters|none|unmarked|no mark)$/i.test(text) || /^["“]/.test(text) || text === ''
    ? `“${text}”`
    : text;

const signed = (value: number, nought: '+' | '-'): string => (value === 0 ? `${nought}0` : value > 0 ? `+${plain(value)}` : plain(value));

/** The shortest decimal that reads back as the same number, never with an exponent. */
export const plain = (value: number): string => {
  const text = String(value);
  return text.includes('e') ? value.toFixed(12).replace(/0+$/, '').replace(/\.$/, '') : text;
};
