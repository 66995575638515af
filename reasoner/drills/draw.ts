import { type Dice, diceOf } from '../fits/dice.ts';

/** Chance as drills use it: every draw comes from the one seed, in a fixed order. */
export interface Draw {
  /** A whole number below `count`. */
  readonly below: (count: number) => number;
  /** True with this chance. */
  readonly chance: (share: number) => boolean;
  /** Evenly within [0, 1). */
  readonly even: () => number;
  readonly pick: <T>(list: readonly [T, ...T[]]) => T;
  /** One of the list, or undefined of an empty one. */
  readonly any: <T>(list: readonly T[]) => T | undefined;
  readonly shuffled: <T>(list: readonly T[]) => T[];
}

export const drawFrom = (seed: number): Draw => {
  const dice: Dice = diceOf(seed);
  const below = (count: number): number => Math.floor(dice.even() * count);
  return {
    below,
    chance: (share) => dice.even() < share,
    even: dice.even,
    pick: (list) => list[below(list.length)] as (typeof list)[number],
    any: (list) => list[below(list.length)],
    /** Fisher & Yates, from the end. */
    shuffled: (list) => {
      const all = [...list];
      for (let i = all.length - 1; i > 0; i -= 1) {
        const j = below(i + 1);
        [all[i], all[j]] = [all[j] as (typeof all)[number], all[i] as (typeof all)[number]];
      }
      return all;
    },
  };
};

/** A seed from words, for who needs one (FNV-1a, Fowler, Noll & Vo), 31 bits so that any store holds it as a whole number. */
export const seedOf = (...words: readonly (string | number)[]): number => {
  let hash = 0x811c9dc5;
  for (const letter of words.join('\u0000')) {
    hash ^= letter.codePointAt(0) as number;
    hash = Math.imul(hash, 0x01000193);
  }
  return hash >>> 1;
};
