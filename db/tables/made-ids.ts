import { idFrom } from '../../reasoner/plain/id-from.ts';

/** Texts as one id; `entry` where they have no letter and no figure. */
export const idFor = (...texts: readonly string[]): string => idFrom(texts.join(' ')) || 'entry';

/** The same, or with the first number behind it that makes it nobody else’s. */
export const freeId = (wanted: string, isTaken: (id: string) => boolean): string => {
  if (!isTaken(wanted)) return wanted;
  let count = 2;
  while (isTaken(`${wanted}-${count}`)) count += 1;
  return `${wanted}-${count}`;
};
