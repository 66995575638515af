/** A seeded source of chance: the same seed gives the same draws on every machine. */
export interface Dice {
  /** Evenly spread in [0, 1), 53 bits. */
  readonly even: () => number;
  /** Normal with mean 0 and standard deviation 1. */
  readonly normal: () => number;
}

/**
 * xoshiro128** (Blackman & Vigna 2018) seeded by splitmix32; normals by Marsaglia's polar method (1964). The seed is a whole number, of which the
 * lowest 32 bits count.
 */
export const diceOf = (seed: number): Dice => {
  if (!Number.isInteger(seed)) throw new RangeError(`a seed is a whole number; found ${seed}`);
  let mix = seed | 0;
  const scatter = (): number => {
    mix = (mix + 0x9e3779b9) | 0;
    let word = mix;
    word = Math.imul(word ^ (word >>> 16), 0x85ebca6b);
    word = Math.imul(word ^ (word >>> 13), 0xc2b2ae35);
    return (word ^ (word >>> 16)) >>> 0;
  };
  let [a, b, c, d] = [scatter(), scatter(), scatter(), scatter()] as [number, number, number, number];
  const word = (): number => {
    const out = Math.imul(turn(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = turn(d, 11);
    return out;
  };
  const even = (): number => ((word() >>> 5) * 67108864 + (word() >>> 6)) / 9007199254740992;
  let spare: number | null = null;
  const normal = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const x = 2 * even() - 1;
      const y = 2 * even() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const scale = Math.sqrt((-2 * Math.log(square)) / square);
      spare = y * scale;
      return x * scale;
    }
  };
  return { even, normal };
};

const turn = (word: number, by: number): number => (word << by) | (word >>> (32 - by));
