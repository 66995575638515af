import type { CompiledAtlas } from '../compile/compiled.ts';
import { nameKey } from '../grammar/read-name.ts';
import { asId, type MakerId, type ObservationId, type SheetId } from '../ids.ts';
import type { Becomes, Find } from '../listing/listing.ts';
import { readListing } from '../listing/read-listing.ts';
import { blankSheet } from '../plain/blank-sheet.ts';
import { limits } from '../plain/limits.ts';
import { sameValue } from '../plain/same-value.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import type { Offer } from './listings.ts';

type Claimed = Extract<Becomes, { kind: 'claim' }>;

/** The words of one listing, read: what it claims, and what of it could not be used. */
export interface OfferRead {
  /** Every name it is offered under, once: those the atlas lists first, each in the order of the words. */
  readonly names: readonly Claimed[];
  /** Makers named beside the names, each once. */
  readonly makers: readonly MakerId[];
  readonly told: readonly Observation[];
  /** The first serial number it gives; null of none. */
  readonly serial: string | null;
  /** What could not be used, and part numbers it names, each a sentence. */
  readonly said: readonly string[];
}

/** Finds that leave open what they are of are named, and not used. Of more than these the first are. */
const mostNamed = 3;

export const readOffer = (atlas: CompiledAtlas, { words }: Offer): OfferRead => {
  const { finds } = readListing(atlas, words);
  const settled = finds.filter((find) => find.settled);
  const firsts = settled.map(({ becomes: [first] }) => first);
  return {
    names: namesAmong(firsts),
    makers: [...new Set(firsts.flatMap((one) => (one.kind === 'maker' ? [one.maker] : [])))],
    told: toldAmong(firsts),
    serial: firsts.find((one) => one.kind === 'serial')?.number ?? null,
    said: [...leftOut(finds), ...numbersAmong(firsts)],
  };
};

const namesAmong = (firsts: readonly Becomes[]): Claimed[] => {
  const claims = firsts.flatMap((one) => (one.kind === 'claim' ? [one] : []));
  const keyOf = ({ model, maker, text }: Claimed): string => model ?? `${maker ?? ''} ${nameKey(text)}`;
  const once = claims.filter((one, at) => claims.findIndex((other) => keyOf(other) === keyOf(one)) === at);
  return [...once.filter(({ model }) => model !== null), ...once.filter(({ model }) => model === null)];
};

/** Each once, in the order of the words. */
const toldAmong = (firsts: readonly Becomes[]): Observation[] => {
  const told = firsts.flatMap((one) => (one.kind === 'told' ? [one] : []));
  return told
    .filter((one, at) => told.findIndex((other) => other.feature === one.feature && sameValue(other.value, one.value)) === at)
    .map(({ slot, feature, value }, at) => ({
      id: asId<ObservationId>(`o${at + 1}`),
      slot,
      feature,
      value,
      sure: { kind: 'told' },
      note: 'from a listing',
    }));
};

const leftOut = (finds: readonly Find[]): string[] => {
  const open = finds.filter(({ settled, becomes: [first] }) => !settled && first.kind !== 'not taken');
  const refused = finds.flatMap(({ text, becomes: [first] }) =>
    first.kind === 'not taken' ? [`“${text}” is not taken: ${first.sentence}`] : [],
  );
  return [
    ...open.slice(0, mostNamed).map(({ text }) => `“${text}” is left out: of which part it is said is not clear.`),
    ...refused.slice(0, mostNamed),
  ];
};

const numbersAmong = (firsts: readonly Becomes[]): string[] =>
  firsts.flatMap((one) => (one.kind === 'part number' ? [`It names ${one.number}: ${one.parts.map(({ name }) => name).join(', ')}.`] : []));

/** The sheet of a listing offered under one of its names, or under none. All of it is told. */
export const offerSheet = (offer: Offer, source: string, read: OfferRead, claim: Claimed | null): Sheet => ({
  ...blankSheet(asId<SheetId>(`listing-${offer.row}`)),
  title: offer.title.replace(/\s+/g, ' ').trim().slice(0, 200),
  story: [
    `From a listing (${source}): ${offer.words}`,
    ...(offer.price === null ? [] : [`Price asked: ${offer.price}`]),
    ...(offer.link === null ? [] : [`Link: ${offer.link}`]),
    ...offer.carried.map(({ heading, text }) => `${heading}: ${text}`),
    ...read.said,
  ]
    .join('\n')
    .slice(0, limits.listingLetters),
  ...(read.serial === null ? {} : { serial: read.serial }),
  claimed: claim?.text ?? null,
  claimedMaker: claim?.maker ?? read.makers[0] ?? null,
  observations: read.told,
});
