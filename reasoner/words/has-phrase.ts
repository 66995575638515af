import type { Fact, Feature } from '../atlas/atlas.ts';
import { reach, size } from '../plain/sizes.ts';
import { list, singular, withArticle } from '../plain/text.ts';
import type { Observation } from '../sheet/sheet.ts';
import { countsText, optionName, spansText, unitSign } from './phrases.ts';

/** What was seen, to stand after "the turbine wheel has" or "a listed turbine wheel with": `11 blades`, `an inducer diameter of 41.2 mm (±0.04)`, `no water ports`. */
export const hasPhrase = (feature: Feature, observation: Pick<Observation, 'value' | 'sure'>): string => {
  const { value, sure } = observation;
  switch (value.kind) {
    case 'count': {
      const { from, to } = value;
      return counted(feature, from === to ? `${from}` : `${from} ${to === from + 1 ? 'or' : 'to'} ${to}`);
    }
    case 'measure':
      return `${withArticle(feature.name)} of ${size(value.value)}${unitSign(feature)}${sure.kind === 'measured' ? ` (±${reach(sure.u)})` : ''}`;
    case 'choice':
      return chosen(feature, value.option);
    case 'presence':
      return present(feature, value.present);
    case 'mark':
      return value.text === null ? `no ${feature.name}` : `${called(feature)} “${value.text}”`;
  }
};

/** What the atlas says of a feature over several parts, to stand after "has": `10 or 12 blades`, `an exducer diameter of 51.2 to 51.4 mm`. */
export const hasOneOf = (feature: Feature, facts: readonly Fact[]): string => {
  const known = facts.filter((fact) => fact.kind !== 'not known');
  if (known.length === 0) return `${withArticle(feature.name)} that is not known`;
  switch (feature.kind) {
    case 'count':
      return counted(feature, countsText(known));
    case 'measure':
      return `${withArticle(feature.name)} of ${spansText(known)}${unitSign(feature)}`;
    case 'choice':
      return either(known.flatMap((fact) => (fact.kind === 'choice' ? fact.anyOf.map((option) => chosen(feature, option)) : [])));
    case 'presence':
      return either(known.flatMap((fact) => (fact.kind === 'presence' ? [present(feature, fact.present)] : [])));
    case 'mark': {
      const texts = new Set(known.flatMap((fact) => (fact.kind === 'mark' ? fact.anyOf.map((text) => `“${text}”`) : [])));
      if (texts.size === 0) return `no ${feature.name}`;
      const shown = texts.size > 6 ? [...[...texts].slice(0, 5), `one of ${texts.size - 5} others`] : [...texts];
      const blank = known.some((fact) => fact.kind === 'mark' && fact.blank);
      return `${called(feature)} ${list(blank ? [...shown, 'none'] : shown, 'or')}`;
    }
  }
};

const either = (phrases: readonly string[]): string => list([...new Set(phrases)], 'or');

/** `11 blades`, `no splitter blades`, `the year of make 1996`. */
const counted = ({ name, unit }: Feature, number: string): string => {
  if (unit === undefined || unit === 'year') return `the ${name} ${number}`;
  return `${number === '0' ? 'no' : number} ${number === '1' ? singular(unit) : unit}`;
};

const chosen = (feature: Feature, option: string): string =>
  feature.options?.find(({ id }) => id === option)?.said ?? `${optionName(feature, option)} as its ${feature.name}`;

/** `a wastegate`, `water ports`, `need of water`: no article before several, nor before what is only had of something. */
const present = ({ name }: Feature, is: boolean): string => {
  if (!is) return `no ${name}`;
  const head = name.split(/ (?:on|at|in|for|to|of) /)[0] as string;
  return head.endsWith('s') || name.startsWith(`${head} of `) ? name : withArticle(name);
};

/** `the cast name`; a name with a comma in it is closed by another. */
const called = ({ name }: Feature): string => `the ${name}${name.includes(', ') ? ',' : ''}`;
