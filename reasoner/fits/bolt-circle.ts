/**
 * Straight distance between two holes of a bolt circle, `apart` steps from each other (1: neighbours): D·sin(π·apart/n). mm in, mm out.
 * @throws RangeError for fewer than two holes, or no diameter
 */
export const chordOf = (diameter: number, holes: number, apart = 1): number => {
  checkSize('diameter', diameter);
  checkChord(holes, apart);
  return diameter * Math.sin((Math.PI * apart) / holes);
};

/** The circle's diameter from a measured chord, for odd counts where no hole faces another. @throws RangeError for fewer than two holes, or no chord */
export const circleOfChord = (chord: number, holes: number, apart = 1): number => {
  checkSize('chord', chord);
  checkChord(holes, apart);
  return chord / Math.sin((Math.PI * apart) / holes);
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

/** ISO 273 clearance holes for metric bolts, mm: fine, medium, coarse. M6, M8 and M10 in the check values (M); the others from memory (M). */
export const clearanceHoles: Readonly<Record<number, { readonly fine: number; readonly medium: number; readonly coarse: number }>> = {
  3: { fine: 3.2, medium: 3.4, coarse: 3.6 },
  4: { fine: 4.3, medium: 4.5, coarse: 4.8 },
  5: { fine: 5.3, medium: 5.5, coarse: 5.8 },
  6: { fine: 6.4, medium: 6.6, coarse: 7 },
  8: { fine: 8.4, medium: 9, coarse: 10 },
  10: { fine: 10.5, medium: 11, coarse: 12 },
  12: { fine: 13, medium: 13.5, coarse: 14.5 },
};
