import type { PlateDisagreement } from '../answer/plate-reading.ts';
import type { Feature } from '../atlas/atlas.ts';
import { type LengthUnit, mmPerInch } from '../plain/units.ts';
import type { Seen } from '../sheet/sheet.ts';
import type { SlipHow, Wrong } from '../sheet/slip.ts';

type Figures = Extract<Seen, { kind: 'measure' | 'count' }>;

/** What is said of an entry that cannot be (O7). */
export const impossibleSentence = (feature: Feature, value: Figures, wrong: Wrong, lengths: LengthUnit = 'mm'): string => {
  const what = inWords(feature, value, lengths);
  switch (wrong) {
    case 'no figure':
      return `${what} is no figure.`;
    case 'absurd':
      return `${what} cannot be: no part is like that.`;
    case 'not above zero':
      return `${what} cannot be: a length is greater than zero.`;
    case 'more than a turn':
      return `${what} cannot be: a full turn is 360°.`;
    case 'below zero':
      return `${what} cannot be: a count is zero or more.`;
    case 'not whole':
      return `${what} cannot be: a count is a whole number.`;
    case 'runs down':
      return `${what} cannot be: a count runs from the smaller number to the larger.`;
    case 'uncertainty':
      return `An uncertainty u of ${figuresOf(feature, value, lengths)} cannot be: that of a measured size is greater than zero.`;
  }
};

/** An uncertainty wider than all that is plausible. */
export const wideSentence = (feature: Feature, u: number, lengths: LengthUnit = 'mm'): string =>
  `An uncertainty u of ${figuresOf(feature, { kind: 'measure', value: u }, lengths)} cannot be: with it the ${feature.name} could be anything at all.`;

/** What is asked about. */
export const implausibleSentence = (feature: Feature, value: Figures, lengths: LengthUnit = 'mm'): string =>
  `${inWords(feature, value, lengths)} lies outside what is usual, ${rangeOf(feature, lengths)}.`;

/** `20 to 200 mm`; of a count the figures alone. */
export const rangeOf = ({ kind, unit, plausible }: Feature, lengths: LengthUnit = 'mm'): string => {
  if (plausible === undefined) return '';
  if (kind === 'count' || unit === 'deg' || lengths === 'mm')
    return `${plausible.from} to ${plausible.to}${kind === 'count' ? '' : unit === 'deg' ? '°' : ' mm'}`;
  return `${inInches(plausible.from)} to ${inInches(plausible.to)} in`;
};

/** A length in mm as figures of inches, to a ten-thousandth, finer than what reads it. */
const inInches = (mm: number): number => Number((mm / mmPerInch).toFixed(4));

/** How it may have come about, to stand behind what may have been meant: `if the decimal point slipped`. */
export const slipReason = (feature: Feature, value: Figures, how: SlipHow, lengths: LengthUnit = 'mm'): string =>
  `if ${reasons(feature, value, lengths)[how]}`;

const reasons = (feature: Feature, value: Figures, lengths: LengthUnit): Readonly<Record<SlipHow, string>> => ({
  inches: 'it was read in inches',
  millimetres: 'it was read in millimetres and entered in inches',
  'decimal point': 'the decimal point slipped',
  'figure twice': 'a figure was written twice',
  swapped: 'two figures changed places',
  'figure too many': 'a figure too many was written',
  century: 'the century was left out',
  radius: `${figuresOf(feature, value, lengths)} is the radius`,
  diameter: `${figuresOf(feature, value, lengths)} is the diameter`,
});

/** `An exducer diameter of 5720 mm`, `A count of 111 blades`. */
const inWords = (feature: Feature, value: Figures, lengths: LengthUnit): string => {
  const named = value.kind === 'count' && feature.unit !== undefined && feature.unit !== 'year' ? 'count' : feature.name;
  return `${/^[aeio]|^u(?!ni)/i.test(named) ? 'An' : 'A'} ${named} of ${figuresOf(feature, value, lengths)}`;
};

/** `57.2 mm`, `11 blades`, `1987`. */
export const figuresOf = ({ unit }: Feature, value: Figures, lengths: LengthUnit = 'mm'): string => {
  if (value.kind === 'measure' && unit !== 'deg' && lengths === 'inch') return `${inInches(value.value)} in`;
  if (value.kind === 'measure') return `${value.value}${unit === 'deg' ? '°' : ' mm'}`;
  const figures = value.from === value.to ? `${value.from}` : `${value.from} to ${value.to}`;
  return unit === undefined || unit === 'year' ? figures : `${figures} ${unit}`;
};

type Misread = Extract<PlateDisagreement, { kind: 'check digit' | 'not this maker’s number' }>;

/** A number that may have been misread. */
export const numberSlipSentence = (text: string, says: string, found: Misread, maker: string): string =>
  found.kind === 'check digit'
    ? `“${text}” is made as ${maker} makes its ${says}s, but for its check digit: ${found.stamped} stands where the figures before it give ${found.wanted}. One of them may have been misread.`
    : `${maker} makes no ${says}s like “${text}”. A sign may have been misread.`;
