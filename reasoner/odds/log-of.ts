/** Stretches a power of two is cut into. */
const cuts = 512;

const middles = Array.from({ length: cuts }, (_, i) => 1 + (i + 0.5) / cuts);
const inverse = Float64Array.from(middles, (middle) => 1 / middle);
const ofMiddle = Float64Array.from(middles, Math.log);
const exponents = Array.from({ length: 2048 }, (_, i) => i - 1023);
const scale = Float64Array.from(exponents, (exponent) => 2 ** -exponent);
const ofScale = Float64Array.from(exponents, (exponent) => exponent * Math.LN2);
const number = new Float64Array(1);
/** Its sign, exponent and first digits, whichever way round the machine keeps a number. */
const halves = new Int32Array(number.buffer);
number[0] = -1;
const high = halves[1] === 0 ? 0 : 1;

/**
 * Natural logarithm of a chance, to 1e−15 of it or of one, in less than half the time of `Math.log`: by its exponent, the middle of one of 512 stretches, and five terms of the series of log(1 + r), |r| ≤ 2⁻¹⁰.
 * Of nothing, and of less than 2.3e−308, some finite number: times the chance it is nothing. @param chance not less than nothing, and finite
 */
export const logOf = (chance: number): number => {
  number[0] = chance;
  const bits = halves[high] as number;
  const exponent = bits >>> 20;
  const cut = (bits >>> 11) & (cuts - 1);
  const r = chance * (scale[exponent] as number) * (inverse[cut] as number) - 1;
  return (ofScale[exponent] as number) + (ofMiddle[cut] as number) + r * (1 - r * (1 / 2 - r * (1 / 3 - r * (1 / 4 - r / 5))));
};

/** The exponent of two of a number, and 1023 more; 0 of nothing. */
export const exponentOf = (value: number): number => {
  number[0] = value;
  return ((halves[high] as number) >>> 20) & 2047;
};
