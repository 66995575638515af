import type { Fact, Feature } from '../atlas/atlas.ts';
import { reach, size } from '../plain/sizes.ts';
import { list, singular } from '../plain/text.ts';
import type { Observation } from '../sheet/sheet.ts';

export const unitSign = (feature: Feature): string =>
  feature.unit === 'mm' ? ' mm' : feature.unit === 'deg' ? '°' : feature.unit ? ` ${feature.unit}` : '';

/** A count with what is counted: `11 blades`, `year made 1996`. */
const counted = (feature: Feature, from: number, to: number): string => {
  const number = from === to ? String(from) : `${from} to ${to}`;
  return feature.unit === undefined || feature.unit === 'year'
    ? `${feature.name} ${number}`
    : `${number} ${from === to && from === 1 ? singular(feature.unit) : feature.unit}`;
};

/** What was seen, as it stands in a list: `11 blades`, `inducer diameter 41.2 mm (±0.04)`, `no water ports`, `a hexagon nut`, `metal: grey cast iron`. */
export const seenPhrase = (feature: Feature, observation: Pick<Observation, 'value' | 'sure'>): string => {
  const { value, sure } = observation;
  switch (value.kind) {
    case 'count':
      return counted(feature, value.from, value.to).replace(' to ', value.to === value.from + 1 ? ' or ' : ' to ');
    case 'measure':
      return `${feature.name} ${size(value.value)}${unitSign(feature)}${sure.kind === 'measured' ? ` (±${reach(sure.u)})` : ''}`;
    case 'choice':
      return feature.options?.find(({ id }) => id === value.option)?.said ?? `${feature.name}: ${optionName(feature, value.option)}`;
    case 'presence':
      return presence(feature, value.present);
    case 'mark':
      return value.text === null ? `no letters (${feature.name})` : `the letters “${value.text}” (${feature.name})`;
  }
};

const presence = (feature: Feature, present: boolean): string => (present ? feature.name : `no ${feature.name}`);

export const optionName = (feature: Feature, option: string): string => feature.options?.find(({ id }) => id === option)?.name ?? option;

/** What the atlas says of a feature over several parts, to stand after the feature's name: `10 or 12 blades`, `exducer diameter 51.2 to 51.4 mm`. */
export const factsPhrase = (feature: Feature, facts: readonly Fact[]): string => {
  const known = facts.filter((fact) => fact.kind !== 'not known');
  if (known.length === 0) return `${feature.name} not known`;
  const phrases = new Set<string>();
  switch (feature.kind) {
    case 'count': {
      const counts = countsText(known);
      if (feature.unit === 'year' || feature.unit === undefined) return `${feature.name} ${counts}`;
      return `${counts} ${counts === '1' ? singular(feature.unit) : feature.unit}`;
    }
    case 'measure':
      return `${feature.name} ${spansText(known)}${unitSign(feature)}`;
    case 'choice': {
      for (const fact of known) if (fact.kind === 'choice') for (const option of fact.anyOf) phrases.add(optionName(feature, option));
      return list([...phrases], 'or');
    }
    case 'presence':
      for (const fact of known) if (fact.kind === 'presence') phrases.add(presence(feature, fact.present));
      return list([...phrases], 'or');
    case 'mark': {
      for (const fact of known) {
        if (fact.kind !== 'mark') continue;
        for (const text of fact.anyOf) phrases.add(`“${text}”`);
        if (fact.blank) phrases.add('no letters');
      }
      const all = [...phrases];
      return `${list(all.length > 6 ? [...all.slice(0, 5), `${all.length - 5} others`] : all, 'or')} (${feature.name})`;
    }
  }
};

/** The counts of several facts: `10 or 12`, `7 to 9`. */
export const countsText = (facts: readonly Fact[]): string => {
  const ranges = facts.flatMap((fact) => (fact.kind === 'count' ? [fact] : []));
  const sorted = [...new Map(ranges.map((range) => [`${range.from}:${range.to}`, range])).values()].sort((a, b) => a.from - b.from);
  return list(
    sorted.map(({ from, to }) => (from === to ? `${from}` : `${from} to ${to}`)),
    'or',
  );
};

/** The limits of several facts, those that meet as one, and the whole span where there are more than four: `51.2 to 51.4 or 54`. */
export const spansText = (facts: readonly Fact[]): string => {
  const limits = facts.flatMap((fact) =>
    fact.kind === 'measure' ? [[fact.nominal + fact.lower, fact.nominal + fact.upper] as const] : [],
  );
  const sorted = [...limits].sort((a, b) => a[0] - b[0]);
  const merged: [number, number][] = [];
  for (const [low, high] of sorted) {
    const last = merged.at(-1);
    if (last && low <= last[1]) last[1] = Math.max(last[1], high);
    else merged.push([low, high]);
  }
  const spans = merged.length > 4 ? [[merged[0]?.[0], merged.at(-1)?.[1]] as [number, number]] : merged;
  return list(
    spans.map(([low, high]) => (low === high ? size(low) : `${size(low)} to ${size(high)}`)),
    'or',
  );
};
