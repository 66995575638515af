import { plain } from '../values/figures.ts';

/** Chances (0..1) and minutes as a person says them. No chance is written as none or as certain, not even one that rounding put beyond. */

/** `33 %`, `2.4 %`, `99.7 %`, `under 0.1 %`, `over 99.9 %`. */
export const sayShare = (chance: number): string => {
  const percent = chance * 100;
  if (percent < 0.1) return `under ${plain(0.1, 1)} %`;
  if (percent > 99.9) return `over ${plain(99.9, 1)} %`;
  const fine = percent < 9.95 || percent > 99;
  return `${plain(percent, fine ? 1 : 0)} %`;
};

/** `under 1 min`, `2.5 min`, `14 min`: tenths only where there are few. */
export const sayMinutes = (minutes: number): string =>
  minutes <= 0 ? 'no time' : minutes < 0.95 ? 'under 1 min' : `${plain(minutes, minutes < 10 ? 1 : 0)} min`;

/** How long a check takes in all, and how much of it is opening the unit: `1 min`, `16 min, 14 min of it to open the unit`. */
export const sayTime = ({ minutes, openingMinutes }: { readonly minutes: number; readonly openingMinutes: number }): string =>
  openingMinutes <= 0
    ? sayMinutes(minutes)
    : `${sayMinutes(minutes + openingMinutes)}, ${sayMinutes(openingMinutes)} of it to open the unit`;

/** So many letters of what a check would settle go on the screen's one line. */
const oneLine = 100;

/** What a check would settle, cut to the first of its clauses where all of them would not go on a line; a clause is never cut. */
export const sayBriefly = (settles: string): string => {
  const clauses = settles.split('; ');
  let kept = 1;
  while (kept < clauses.length && clauses.slice(0, kept + 1).join('; ').length <= oneLine) kept += 1;
  return kept === clauses.length ? settles : `${clauses.slice(0, kept).join('; ')}.`;
};

/** Fewer equally likely answers than this are one. */
const settledBelow = 1.15;

/** Of what is uncertain, how much a check is expected to settle: `40 %`. Both in bits. */
export const saySettles = (drop: number, bits: number): string => (bits <= 0 ? 'nothing' : sayShare(Math.min(1, drop / bits)));

/** What a reading leaves uncertain, beside what is now, in bits: `all but settled`, `leaves 40 % of what is uncertain`, `as uncertain as now`, `more uncertain than now`. */
export const sayLeft = (before: number, after: number): string => {
  if (2 ** after < settledBelow) return 'all but settled';
  const left = after / before;
  if (left > 1.02) return 'more uncertain than now';
  return left > 0.98 ? 'as uncertain as now' : `leaves ${sayShare(left)} of what is uncertain`;
};

/** So many equally likely answers would leave one as unsure: 2 to the power of the bits. */
export const sayAsAmong = (bits: number): string => {
  const among = 2 ** bits;
  if (among < settledBelow) return 'all but settled';
  return `as unsure as a pick from ${plain(among, among < 10 ? 1 : 0)} equally likely names`;
};

/**
 * Several that are equally likely, none of them to be taken for the likeliest: `Tern 7, or Tern 9`, `Tern 7, Tern 9, Tern 16 and 6 more`.
 * @param alike how many there are; `texts` may hold fewer of them, or more that are less likely
 */
export const sayAlike = (texts: readonly string[], alike: number): string => {
  const named = texts.slice(0, Math.min(alike, alikeNamed));
  if (alike <= named.length) return named.join(', or ');
  return `${named.join(', ')} and ${alike - named.length} more`;
};

/** `The first 3 are equally likely.`, `84 are equally likely; 12 of them are listed.` */
export const sayHowManyAlike = (alike: number, listed: number): string =>
  alike > listed ? `${alike} are equally likely; ${listed} of them are listed.` : `The first ${alike} are equally likely.`;

/** So many are named in one line. */
const alikeNamed = 3;

/** How far the atlas knows what was seen in a slot: the share of its observations the likely parts have a known fact for; null: nothing was seen. */
export const sayCovered = (covered: number | null): string =>
  covered === null ? 'nothing seen here yet' : `${sayShare(covered)} of what was seen is in the atlas`;
