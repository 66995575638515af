/**
 * ln Γ(x) for x > 0, relative error below 1e-13: Stirling's series from x ≥ 12 on, reached by Γ(x + 1) = x·Γ(x). Abramowitz & Stegun 1964, 6.1.41 and 6.1.15
 * (formula numbers from memory).
 */
const lnGamma = (x: number): number => {
  let shift = 0;
  let at = x;
  for (; at < 12; at += 1) shift += Math.log(at);
  const inverse = 1 / (at * at);
  const series = (1 / 12 - inverse * (1 / 360 - inverse * (1 / 1260 - inverse / 1680))) / at;
  return (at - 0.5) * Math.log(at) - at + 0.5 * Math.log(2 * Math.PI) + series - shift;
};

/**
 * Share of a chi-square distribution above `x`, 0..1: Q(a, y) of the incomplete gamma function with a = degrees/2, y = x/2. The series below its middle, above it the
 * continued fraction, worked out by Lentz's method. Abramowitz & Stegun 1964, 26.4.19, 6.5.29 and 6.5.31 (formula numbers from memory).
 * @param degrees of freedom, 1 or more
 */
export const chiSquareAbove = (x: number, degrees: number): number => {
  if (!(degrees >= 1) || Number.isNaN(x)) throw new RangeError(`chiSquareAbove: found ${x} with ${degrees} degrees of freedom`);
  if (x <= 0) return 1;
  const [a, y] = [degrees / 2, x / 2];
  const front = Math.exp(a * Math.log(y) - y - lnGamma(a));
  if (y < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; term > sum * 1e-17; n += 1) {
      term *= y / (a + n);
      sum += term;
    }
    return 1 - front * sum;
  }
  const tiny = 1e-300;
  let b = y + 1 - a;
  let c = 1 / tiny;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < 10_000; n += 1) {
    const numerator = -n * (n - a);
    b += 2;
    d = 1 / (numerator * d + b || tiny);
    c = b + numerator / c || tiny;
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return front * fraction;
};

/**
 * Share of Student's t distribution further from zero than `t`, on both sides together, 0..1, for whole degrees of freedom: the finite sums of Abramowitz & Stegun 1964,
 * 26.7.3 and 26.7.4 (formula numbers from memory).
 */
const studentBeyond = (t: number, degrees: number): number => {
  const angle = Math.atan(t / Math.sqrt(degrees));
  const cos = Math.cos(angle);
  const odd = degrees % 2 === 1;
  let term = odd ? cos : 1;
  let sum = 0;
  for (let n = odd ? 1 : 0; n <= degrees - 2; n += 2) {
    sum += term;
    term *= (cos * cos * (n + 1)) / (n + 2);
  }
  const within = odd ? (2 / Math.PI) * (angle + Math.sin(angle) * sum) : Math.sin(angle) * sum;
  return 1 - within;
};

/** The t that a share `above` (0 to ½) of Student's distribution lies above. @param degrees of freedom, whole, 1 or more */
export const studentQuantile = (above: number, degrees: number): number => {
  if (!(above > 0 && above < 0.5 && Number.isInteger(degrees) && degrees >= 1))
    throw new RangeError(`studentQuantile: found ${above} with ${degrees} degrees of freedom`);
  let [low, high] = [0, 1];
  while (studentBeyond(high, degrees) > 2 * above) high *= 2;
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (studentBeyond(middle, degrees) > 2 * above) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};
