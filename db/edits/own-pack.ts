import { randomBytes } from 'node:crypto';
import { compareEditions, type Pack } from '../atlas/pack.ts';
import { blankPack } from './edited-packs.ts';

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
