/** Entropy in bits of chances that sum to one. */
export const entropyOf = (chances: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < chances.length; i += 1) {
    const chance = chances[i] as number;
    if (chance > 0) sum -= chance * Math.log2(chance);
  }
  // A chance a rounding above one would say less than nothing.
  return Math.max(0, sum);
};
