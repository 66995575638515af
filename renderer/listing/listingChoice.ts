import type { Becomes, Find, Listing, Observation, Sheet } from '../../reasoner/index.ts';
import { sameMark } from '../../reasoner/plain/letters.ts';
import {
  type Edit,
  nextObservationIds,
  together,
  withClaim,
  withClaimedMaker,
  withObservations,
  withSerial,
  withStory,
} from '../bench/sheetEdits.ts';

/** What is taken of a listing: for each find whether, and as which of the things it could become; null where that is still to be chosen. */
export interface Chosen {
  readonly taken: boolean;
  readonly as: number | null;
}

/**
 * Settled finds are taken to begin with, but one claim only, as a unit is offered under one name: a name of the atlas before others; and one serial number.
 * A doubt is taken by whoever reads it: as the one thing it can be, or as one of several once it is said which.
 */
export const chosenAtFirst = ({ finds }: Listing): readonly Chosen[] => {
  const claims = finds.filter(isClaim);
  const claim = claims.find(({ becomes: [first] }) => first.kind === 'claim' && first.model !== null) ?? claims[0];
  const serial = finds.find(isSerial);
  return finds.map((find) => ({
    taken: find.settled && (!isClaim(find) || find === claim) && (!isSerial(find) || find === serial),
    as: find.settled || isOneDoubt(find) ? 0 : null,
  }));
};

const isOneDoubt = ({ becomes }: Find): boolean => becomes.length === 1 && becomes[0].kind !== 'not taken';
const isSerial = (find: Find): boolean => find.becomes[0].kind === 'serial';

export const isClaim = (find: Find): boolean => find.becomes[0].kind === 'claim';

/** Takes or refuses one find; taking a claim, or a serial number, refuses the others. */
export const withTaken = (finds: readonly Find[], chosen: readonly Chosen[], index: number, taken: boolean): readonly Chosen[] =>
  chosen.map((one, at) => {
    if (at === index) return { ...one, taken };
    const rival = taken && [isClaim, isSerial].some((is) => is(finds[index] as Find) && is(finds[at] as Find));
    return rival ? { ...one, taken: false } : one;
  });

/** Says what a find is; it is then taken. */
export const withMeaning = (finds: readonly Find[], chosen: readonly Chosen[], index: number, as: number): readonly Chosen[] =>
  withTaken(finds, chosen, index, true).map((one, at) => (at === index ? { ...one, as } : one));

/** Everything taken, as what it is taken for. */
export const takenOf = ({ finds }: Listing, chosen: readonly Chosen[]): readonly Becomes[] =>
  finds.flatMap((find, at) => {
    const { taken, as } = chosen[at] ?? { taken: false, as: null };
    const becomes = taken && as !== null ? find.becomes[as] : undefined;
    return becomes === undefined ? [] : [becomes];
  });

/**
 * What is taken, as one change of the sheet. Observations are told, whatever they say, and one the sheet has already been told goes on it once; a serial number never
 * takes the place of another; the listing's words go to the story where wanted.
 */
export const asEdit = (sheet: Sheet, taken: readonly Becomes[], words: string | null): Edit => {
  const known = sheet.observations.flatMap(({ feature, value, sure }) => (sure.kind === 'told' ? [[feature, value]] : []));
  const told = taken.flatMap((one) =>
    one.kind === 'told' && !known.some((before) => JSON.stringify(before) === JSON.stringify([one.feature, one.value])) ? [one] : [],
  );
  const ids = nextObservationIds(sheet, told.length);
  const observations = told.map(
    ({ slot, feature, value }, at): Observation => ({
      id: ids[at] as Observation['id'],
      slot,
      feature,
      value,
      sure: { kind: 'told' },
      note: 'from a listing',
    }),
  );
  const claim = taken.find((one) => one.kind === 'claim');
  const maker = claim?.maker ?? taken.find((one) => one.kind === 'maker')?.maker ?? null;
  const serial = taken.find((one) => one.kind === 'serial')?.number;
  const other = sheet.serial !== undefined && serial !== undefined && !sameMark(sheet.serial, serial);
  const numbers = taken.flatMap((one) =>
    one.kind === 'part number' ? [`It names ${one.number}: ${one.parts.map(({ name }) => name).join(', ')}.`] : [],
  );
  const named =
    serial === undefined || (sheet.serial !== undefined && !other)
      ? []
      : [other ? `A listing gives another serial number: ${serial}.` : `The serial number ${serial} is a listing’s.`];
  const story = [sheet.story, ...(words === null ? [] : [`From a listing: ${words.trim()}`]), ...numbers, ...named]
    .filter((part) => part !== '')
    .join('\n');
  return together([
    ...(claim === undefined ? [] : [withClaim(claim.text)]),
    ...(maker === null ? [] : [withClaimedMaker(maker)]),
    withObservations(observations),
    ...(serial === undefined || sheet.serial !== undefined ? [] : [withSerial(serial)]),
    ...(story === sheet.story ? [] : [withStory(story.slice(0, 20_000))]),
  ]);
};
