import type { NearNumber } from '../answers.ts';

export type NumberSlip = NonNullable<NearNumber['slip']>;

const signs = '0123456789abcdefghijklmnopqrstuvwxyz';

/**
 * Every number one slip away from what was typed (Damerau 1964: a sign changed, left out, put in, or two neighbours exchanged), with what the slip was. In the order in which the
 * hand makes them: exchanged neighbours first. Texts as they are compared: letters and digits alone, in small letters.
 * @returns the number that may be meant, and what is wrong with the one that was typed
 */
export const nearNumbers = (typed: string): ReadonlyMap<string, NumberSlip> => {
  const near = new Map<string, NumberSlip>();
  const all = [...typed];
  const add = (number: string, slip: NumberSlip): void => {
    if (number !== typed && number !== '' && !near.has(number)) near.set(number, slip);
  };
  for (let at = 0; at + 1 < all.length; at += 1)
    add([...all.slice(0, at), all[at + 1], all[at], ...all.slice(at + 2)].join(''), 'two signs changed places');
  const alphabet = new Set([...signs, ...all]);
  for (let at = 0; at < all.length; at += 1)
    for (const sign of alphabet) add([...all.slice(0, at), sign, ...all.slice(at + 1)].join(''), 'one sign is another');
  for (let at = 0; at <= all.length; at += 1)
    for (const sign of alphabet) add([...all.slice(0, at), sign, ...all.slice(at)].join(''), 'one sign is missing');
  for (let at = 0; at < all.length; at += 1) add([...all.slice(0, at), ...all.slice(at + 1)].join(''), 'one sign is too many');
  return near;
};
