import type { CompiledAtlas } from '../compile/compiled.ts';
import { list, numberInWords } from '../plain/text.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { type ListingsRow, type Offer, standings } from './listings.ts';
import { type OfferRead, offerSheet, readOffer } from './offer-sheet.ts';
import { rowOfSheet } from './row-of-sheet.ts';

/** Under more names than these it is a list of what it may fit, and no claim. */
export const mostNames = 5;

export interface JudgedOffer {
  readonly row: ListingsRow;
  readonly sheet: Sheet;
}

/**
 * Judges listings, and what was judged once is not judged again: hundreds offer the same name, and what they are told to be is soon alike.
 * A listing under several names is judged for each, and stands as the one that fails least.
 */
export const offerJudge = (atlas: CompiledAtlas): ((source: string, offer: Offer) => JudgedOffer) => {
  const known = new Map<string, ListingsRow>();
  const judged = (sheet: Sheet): ListingsRow => {
    const { claimed, claimedMaker, observations } = sheet;
    const told = observations.map(({ feature, value }) => JSON.stringify([feature, value])).sort();
    const key = JSON.stringify([claimed, claimedMaker, told]);
    const before = known.get(key);
    if (before !== undefined) return before;
    const row = rowOfSheet(atlas, '', inOneOrder(sheet));
    known.set(key, row);
    return row;
  };
  return (source, offer) => {
    const read = readOffer(atlas, offer);
    const many = read.names.length > mostNames;
    const tried = (read.names.length === 0 || many ? [null] : read.names).map((name) => {
      const sheet = offerSheet(offer, source, read, name);
      return { sheet, row: judged(sheet), listed: name?.model != null };
    });
    const best = tried.reduce((one, other) => (rank(other.row) > rank(one.row) ? other : one));
    const { price, link, carried } = offer;
    return {
      sheet: best.sheet,
      row: {
        ...best.row,
        source,
        sheet: best.sheet.id,
        title: best.sheet.title,
        sentences: [...namesSaid(atlas, read, best.sheet), ...becameOf(best), ...read.said, ...offer.notes],
        may: null,
        offer: { price, link, carried },
      },
    };
  };
};

/** Of a listed name left open by words alone the verdict would name every slot there is: nothing was looked at. */
const becameOf = ({ row, listed }: { readonly row: ListingsRow; readonly listed: boolean }): readonly string[] =>
  row.standing === 'open' && listed
    ? ['Nothing it says speaks against the name, and nothing it says proves it.', ...row.sentences.slice(1)]
    : row.sentences;

const rank = ({ standing }: ListingsRow): number => standings.indexOf(standing);

/** The same told entries are one sheet, in whatever order the words had them. */
const inOneOrder = (sheet: Sheet): Sheet => ({
  ...sheet,
  observations: [...sheet.observations].sort((a, b) => (said(a) < said(b) ? -1 : 1)),
});
const said = ({ feature, value }: Sheet['observations'][number]): string => JSON.stringify([feature, value]);

const namesSaid = (atlas: CompiledAtlas, { names, makers }: OfferRead, { claimed, claimedMaker }: Sheet): string[] => {
  const each = names.map(({ text }) => `“${text}”`);
  const others = makers.filter((maker) => maker !== claimedMaker).map((maker) => atlas.makers.get(maker)?.name ?? maker);
  const beside = others.length === 0 ? [] : [`It names ${list(others)} beside it.`];
  if (names.length > mostNames)
    return [
      `It names ${names.length}: ${each.slice(0, mostNames).join(', ')} and others. That is a list of what it may fit, and no claim.`,
    ];
  if (names.length > 1)
    return [
      `It is offered under ${numberInWords(names.length)} names, ${list(each)}, and can be one at most. Judged is “${claimed}”, which fails least.`,
      ...beside,
    ];
  if (names.length === 1) return beside;
  return claimedMaker === null
    ? []
    : [`It names ${list([...makers].map((maker) => atlas.makers.get(maker)?.name ?? maker))}, and no model.`];
};
