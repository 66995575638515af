import type { ReadingSeen } from '../answer/odds.ts';
import type { Feature } from '../atlas/atlas.ts';
import { size } from '../plain/sizes.ts';
import { list, singular } from '../plain/text.ts';
import { optionName, unitSign } from './phrases.ts';

/** So many readings are named one by one. */
const named = 3;

/** Readings of one check, as the first clause or one after it: `if there are 10 or 11 blades`, `if “woad”, “teal” or one of 4 others`, `if it is there`. The likeliest come first. */
export const ifItReads = (feature: Feature, readings: readonly ReadingSeen[], first: boolean): string =>
  `if ${first || feature.kind === 'presence' ? `${before(feature, readings)} ` : ''}${readsPhrase(feature, readings)}`;

/** Letters and sizes are read; blades are there, and so is a port; a look is one of several. */
const before = (feature: Feature, [first]: readonly ReadingSeen[]): string => {
  switch (first?.seen?.kind) {
    case 'count':
      return isCounted(feature) ? (first.seen.to === 1 ? 'there is' : 'there are') : 'it reads';
    case 'mark':
      return first.seen.text === null ? 'there are' : 'it reads';
    case 'measure':
      return 'it reads';
    case 'choice':
    case 'presence':
      return 'it is';
    case undefined:
      return feature.kind === 'measure' || feature.kind === 'mark' ? 'it reads' : 'it is';
  }
};

const isCounted = ({ kind, unit }: Feature): boolean => kind === 'count' && unit !== undefined && unit !== 'year';

/** The readings alone, as they would be entered. */
export const readsPhrase = (feature: Feature, readings: readonly ReadingSeen[]): string => {
  const texts = [...new Set(joined(readings).map((reading) => oneReading(feature, reading)))];
  const shown = texts.length > named ? [...texts.slice(0, named - 1), `one of ${texts.length - named + 1} others`] : texts;
  return list(shown, 'or');
};

/** Ranges of sizes that touch as one, from small to large. */
const joined = (readings: readonly ReadingSeen[]): readonly ReadingSeen[] => {
  if (!readings.some(({ seen }) => seen?.kind === 'measure')) return readings;
  const ranges: ReadingSeen[] = [];
  for (const next of [...readings].sort((a, b) => (a.from ?? Number.NEGATIVE_INFINITY) - (b.from ?? Number.NEGATIVE_INFINITY))) {
    const last = ranges.at(-1);
    if (last === undefined || last.to !== next.from || next.from === undefined) ranges.push(next);
    else
      ranges[ranges.length - 1] = {
        seen: last.seen,
        ...(last.from === undefined ? {} : { from: last.from }),
        ...(next.to === undefined ? {} : { to: next.to }),
      };
  }
  return ranges;
};

const oneReading = (feature: Feature, { seen, from, to }: ReadingSeen): string => {
  const sign = unitSign(feature);
  switch (seen?.kind) {
    case undefined:
      return feature.kind === 'mark' ? 'other letters' : feature.kind === 'count' ? 'another number' : 'anything else';
    case 'measure':
      if (from !== undefined && to !== undefined) return `${size(from)} to ${size(to)}${sign}`;
      return from !== undefined ? `above ${size(from)}${sign}` : to !== undefined ? `below ${size(to)}${sign}` : 'any size';
    case 'count': {
      const figures = seen.from === seen.to ? `${seen.from}` : `${seen.from} ${seen.to === seen.from + 1 ? 'or' : 'to'} ${seen.to}`;
      if (!isCounted(feature)) return figures;
      return `${figures === '0' ? 'no' : figures} ${figures === '1' ? singular(feature.unit ?? '') : feature.unit}`;
    }
    case 'choice':
      return `“${optionName(feature, seen.option)}”`;
    case 'presence':
      return seen.present ? 'there' : 'not there';
    case 'mark':
      return seen.text === null ? 'no letters' : `“${seen.text}”`;
  }
};
