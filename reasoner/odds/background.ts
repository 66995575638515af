import type { Blind } from './blind.ts';
import type { JointOdds } from './joint-odds.ts';
import { logOf } from './log-of.ts';

/** So many targets are added up sooner than looked up between others. */
const few = 16;
/** So much of a sum times its logarithm is less than it is exact to. */
const rounding = 1e-19;
/** Logarithms of `times` are cut into stretches of this width, with so many points in each. */
const [width, points] = [2, 16];

/** Chebyshev's points on −1..1, and what each weighs between the others: (−1)ʲ·sin. */
const angles = Array.from({ length: points }, (_, j) => ((2 * j + 1) * Math.PI) / (2 * points));
const nodes = Float64Array.from(angles, (angle) => Math.cos(angle));
const weighing = Float64Array.from(angles, (angle, j) => (j % 2 === 0 ? 1 : -1) * Math.sin(angle));

/** By target, of every target. */
const spread = new WeakMap<JointOdds['any'], Float64Array>();

/**
 * What readings of one slot share, whatever the parts that give them: of each target its blind chance, and so many `times` what any listed part has. The sum of q·log q over q = blind + times·any is asked for
 * by reading after reading, and is a smooth function of log times: each of its terms is analytic but for −any·times = blind, which lies π off the real line. So where many ask, it is taken between
 * points once added up (barycentric interpolation in Chebyshev's points: Berrut, Trefethen, SIAM Review 46 (2004)): on a stretch of half width 1 the error falls as (π + √(π² + 1))^−points, a 1e−13th of the sum.
 */
export class Background {
  readonly blind: Blind;
  /** By target, what any listed part has; and the sum of it. */
  readonly any: Float64Array;
  readonly anySum: number;
  readonly #any: JointOdds['any'];
  /** By stretch: how often it was asked for; once that is often, the sums at its points. */
  readonly #asked = new Map<number, number>();
  readonly #known = new Map<number, Float64Array>();

  constructor(blind: Blind, any: JointOdds['any']) {
    this.blind = blind;
    this.#any = any;
    const known = spread.get(any) ?? new Float64Array(blind.chances.length);
    spread.set(any, known);
    this.any = known;
    let sum = 0;
    for (let i = 0; i < any.targets.length; i += 1) {
      const chance = any.chances[i] as number;
      known[any.targets[i] as number] = chance;
      sum += chance;
    }
    this.anySum = sum;
  }

  /** Σ over targets of q·log q, q = blind + times·any. @param times not less than nothing */
  entropic(times: number): number {
    // Less of any part than rounding.
    if (times * this.anySum <= rounding * this.blind.sum) return this.blind.entropic;
    if (this.#any.targets.length <= few) return this.#addedUp(times);
    const log = Math.log(times);
    const stretch = Math.floor(log / width);
    const known = this.#known.get(stretch);
    if (known !== undefined) return between(known, log - stretch * width - width / 2);
    const asked = (this.#asked.get(stretch) ?? 0) + 1;
    this.#asked.set(stretch, asked);
    if (asked < points) return this.#addedUp(times);
    const made = new Float64Array(points);
    for (let j = 0; j < points; j += 1) made[j] = this.#addedUp(Math.exp(stretch * width + (((nodes[j] as number) + 1) * width) / 2));
    this.#known.set(stretch, made);
    return between(made, log - stretch * width - width / 2);
  }

  #addedUp(times: number): number {
    const { chances: blind, logs } = this.blind;
    const { targets, chances } = this.#any;
    let sum = this.blind.entropic;
    for (let i = 0; i < targets.length; i += 1) {
      const target = targets[i] as number;
      const apart = blind[target] as number;
      const both = apart + times * (chances[i] as number);
      sum += both * logOf(both);
      sum -= apart * (logs[target] as number);
    }
    return sum;
  }
}

/** @param off from the middle of the stretch */
const between = (values: Float64Array, off: number): number => {
  const at = (2 * off) / width;
  let above = 0;
  let below = 0;
  for (let j = 0; j < points; j += 1) {
    const apart = at - (nodes[j] as number);
    if (apart === 0) return values[j] as number;
    const share = (weighing[j] as number) / apart;
    above += share * (values[j] as number);
    below += share;
  }
  return above / below;
};
