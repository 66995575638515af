/** What rounding may add to a chance above one or take from nothing. */
const rounding = 1e-9;

/** Entropy in bits of chances that sum to one. @throws RangeError when one of them is no chance */
export const entropyOf = (chances: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < chances.length; i += 1) {
    const chance = chances[i] as number;
    if (!(chance >= -rounding && chance <= 1 + rounding)) throw new RangeError(`chance ${i + 1}: found ${chance}, expected 0 to 1`);
    if (chance > 0) sum -= chance * Math.log2(chance);
  }
  // A chance a rounding above one would say less than nothing.
  return Math.max(0, sum);
};
