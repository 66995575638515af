import type { Becomes, Find, Listing, Observation, Sheet } from '../../reasoner/index.ts';
import { type Edit, nextObservationIds, together, withClaim, withClaimedMaker, withObservations, withStory } from '../bench/sheetEdits.ts';

/** What is taken of a listing: for each find whether, and as which of the things it could become; null where that is still to be chosen. */
export interface Chosen {
  readonly taken: boolean;
  readonly as: number | null;
}

/** Settled finds are taken to begin with, but one claim only, as a unit is offered under one name: a name of the atlas before others. */
export const chosenAtFirst = ({ finds }: Listing): readonly Chosen[] => {
  const claims = finds.filter(isClaim);
  const claim = claims.find(({ becomes: [first] }) => first.kind === 'claim' && first.model !== null) ?? claims[0];
  return finds.map((find) => ({ taken: find.settled && (!isClaim(find) || find === claim), as: find.settled ? 0 : null }));
};

export const isClaim = (find: Find): boolean => find.becomes[0].kind === 'claim';

/** Takes or refuses one find; taking a claim refuses the others. */
export const withTaken = (finds: readonly Find[], chosen: readonly Chosen[], index: number, taken: boolean): readonly Chosen[] =>
  chosen.map((one, at) => {
    if (at === index) return { ...one, taken };
    const rival = taken && isClaim(finds[index] as Find) && isClaim(finds[at] as Find);
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

/** What is taken, as one change of the sheet. Observations are told, whatever they say; the listing's words go to the story where wanted. */
export const asEdit = (sheet: Sheet, taken: readonly Becomes[], words: string | null): Edit => {
  const told = taken.flatMap((one) => (one.kind === 'told' ? [one] : []));
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
  const numbers = taken.flatMap((one) =>
    one.kind === 'part number' ? [`It names ${one.number}: ${one.parts.map(({ name }) => name).join(', ')}.`] : [],
  );
  const story = [sheet.story, ...(words === null ? [] : [`From a listing: ${words.trim()}`]), ...numbers]
    .filter((part) => part !== '')
    .join('\n');
  return together([
    ...(claim === undefined ? [] : [withClaim(claim.text)]),
    ...(maker === null ? [] : [withClaimedMaker(maker)]),
    withObservations(observations),
    ...(story === sheet.story ? [] : [withStory(story.slice(0, 20_000))]),
  ]);
};
