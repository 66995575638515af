/**
 * Straight distance between two holes of a bolt circle, `apart` steps from each other (1: neighbours): D·sin(π·apart/n). mm in, mm out.
 * @throws RangeError for fewer than two holes, or no diameter
 */
export const chordOf = (diameter: number, holes: number, apart = 1): number => {
  checkSize('diameter', diameter);
  checkChord(holes, apart);
  return diameter * Math.sin((Math.PI * apart) / holes);
};

/**
 * Two circles on one axis, clocked for the most room: the least distance between a hole of one and a hole of the other, mm. With n and m
 * holes the angles between them repeat every 360°/lcm(n, m), so the best clocking leaves half of that.
 * @throws RangeError for a circle without holes or diameter
 */
export const roomBetweenCircles = (
  one: { readonly diameter: number; readonly holes: number },
  other: { readonly diameter: number; readonly holes: number },
): number => {
  for (const { diameter, holes } of [one, other]) {
    checkSize('diameter', diameter);
    checkHoles(holes, 1);
  }
  const angle = (Math.PI * divisor(one.holes, other.holes)) / (one.holes * other.holes);
  const [a, b] = [one.diameter / 2, other.diameter / 2];
  return Math.sqrt(Math.max(0, a * a + b * b - 2 * a * b * Math.cos(angle)));
};

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

const checkSize = (what: string, size: number): void => {
  if (!(size > 0 && size < Number.POSITIVE_INFINITY))
    throw new RangeError(`the ${what} of a bolt circle is greater than zero; found ${size}`);
};

/** Of one hole there is no distance to the next. */
const checkChord = (holes: number, apart: number): void => {
  checkHoles(holes, apart);
  if (holes < 2) throw new RangeError(`a chord lies between two holes or more; found ${holes}`);
};

const checkHoles = (holes: number, apart: number): void => {
  if (!(Number.isInteger(holes) && holes >= 1 && Number.isInteger(apart) && apart >= 1 && (apart < holes || holes === 1))) {
    throw new RangeError(`a bolt circle has whole holes, counted from one to the next; found ${holes} holes, ${apart} apart`);
  }
};
