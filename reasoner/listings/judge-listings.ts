import type { CompiledAtlas } from '../compile/compiled.ts';
import { reasonKinds } from '../why/order-of-reasons.ts';
import { cautions } from '../words/cautions.ts';
import { offerJudge } from './judge-offers.ts';
import { type Listings, type ListingsItem, type ListingsProgress, type ListingsRow, standings } from './listings.ts';
import { rowOfSheet } from './row-of-sheet.ts';

/**
 * Judges listings and sheets one after another and puts the plainest failures first. Yields after each; answered with true it stops there, and what is left
 * is rows that say they were not reached. Nothing handed in is dropped.
 */
export function* judgeListings(
  atlas: CompiledAtlas,
  items: readonly ListingsItem[],
): Generator<ListingsProgress, Listings, boolean | undefined> {
  const rows: ListingsRow[] = [];
  const offered = offerJudge(atlas);
  let stopped = false;
  for (const item of items) {
    if ('faults' in item) rows.push(unreadable(item));
    else if (stopped) rows.push(notReached(item));
    else if ('offer' in item) rows.push(offered(item.source, item.offer).row);
    else rows.push(rowOfSheet(atlas, item.source, item.sheet));
    if (!stopped) stopped = (yield { judged: rows.length, of: items.length }) === true && rows.length < items.length;
  }
  return { edition: atlas.data.edition, rows: rows.sort(plainestFirst), complete: !stopped, cautions };
}

const blank = { sheet: null, title: '', claimed: null, plainness: null, lookFirst: null, may: null, offer: null } as const;

/** What could not be read is so whether or not its turn came. */
const unreadable = ({ source, faults, beside }: Extract<ListingsItem, { faults: unknown }>): ListingsRow => ({
  ...blank,
  source,
  standing: 'unreadable',
  sentences: faults,
  offer: beside ?? null,
});

const notReached = (item: Exclude<ListingsItem, { faults: unknown }>): ListingsRow => {
  const row = { ...blank, source: item.source, standing: 'not reached', sentences: ['Not judged: it was stopped before.'] } as const;
  if ('sheet' in item) return { ...row, sheet: item.sheet.id, title: item.sheet.title, claimed: item.sheet.claimed };
  const { price, link, carried, title } = item.offer;
  return { ...row, title, offer: { price, link, carried } };
};

/**
 * Standing first. Of claims ruled out, and of those their own words speak against, by their first reason in the order of K1: what it rests on, fewest members, least strip-down to see it; then most
 * reasons that share no entry. What is alike in all of that is ordered by where it came from.
 */
export const plainestFirst = (a: ListingsRow, b: ListingsRow): number =>
  standings.indexOf(a.standing) - standings.indexOf(b.standing) ||
  (a.plainness === null || b.plainness === null
    ? 0
    : reasonKinds.indexOf(a.plainness.restsOn) - reasonKinds.indexOf(b.plainness.restsOn) ||
      a.plainness.members - b.plainness.members ||
      a.plainness.minutes - b.plainness.minutes ||
      b.plainness.reasons.count - a.plainness.reasons.count) ||
  inOrder(a.source, b.source) ||
  inOrder(a.sheet ?? '', b.sheet ?? '');

/** By code point, numbers among the letters by their size: `unit 9` before `unit 10`, the same in every language of the machine. */
const inOrder = (a: string, b: string): number => {
  const pieces = (text: string): string[] => text.split(/(\d+)/);
  const [one, other] = [pieces(a), pieces(b)];
  for (let i = 0; i < Math.max(one.length, other.length); i += 1) {
    const [x, y] = [one[i] ?? '', other[i] ?? ''];
    if (x === y) continue;
    const size = i % 2 === 1 ? Number(x) - Number(y) : 0;
    return size !== 0 ? size : x < y ? -1 : 1;
  }
  return 0;
};
