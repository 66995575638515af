import { randomBytes } from 'node:crypto';
import { compareEditions, type Pack } from '../atlas/pack.ts';
import { blankPack } from './edited-packs.ts';
import { namesIn, referencesOf } from './references.ts';

/** The shop's own pack, before it has anything in it. Its id is no other shop's, so that the two can stand in one atlas. */
export const newOwnPack = (today: string): Pack =>
  blankPack({
    format: 'kinplate atlas pack',
    version: 1,
    id: `shop-${randomBytes(4).toString('hex')}`,
    title: 'This shop’s own atlas',
    edition: today,
    invented: false,
    note: 'What this shop has put into its atlas itself.',
  });

/** The edition after another one: of this day, or where the clock stands before it, of the same day as that one. */
export const editionAfter = (edition: string, today: string): string => {
  if (compareEditions(today, edition) > 0) return today;
  const [day = today, count = '1'] = edition.split('.');
  return `${day}.${Number(count) + 1}`;
};

/**
 * The packs that the shop's own cannot be without: those it names already where it still needs them, and of what several share, the one without makers, which is the words of
 * the trade.
 */
export const leaningOf = (own: Pack, others: readonly Pack[]): readonly string[] => {
  const wanted = new Set(referencesOf(own));
  const before = new Set(own.head.leansOn ?? []);
  const order = [...others].sort(
    (a, b) =>
      Number(before.has(b.head.id)) - Number(before.has(a.head.id)) ||
      Number(a.makers.length > 0) - Number(b.makers.length > 0) ||
      (a.head.id < b.head.id ? -1 : 1),
  );
  const leaning: string[] = [];
  for (const pack of order) {
    const many = wanted.size;
    for (const name of namesIn(pack)) wanted.delete(name);
    if (wanted.size < many) leaning.push(pack.head.id);
  }
  return leaning.sort();
};
