import type { FeatureId } from '../ids.ts';
import { type Dice, diceOf } from './dice.ts';
import type { Span } from './fit.ts';
import { type Limits, nanometres } from './limits.ts';
import { shareInterval, z95 } from './share-interval.ts';

/**
 * How sizes are taken to spread within their limits. `normal`: mean in the middle, limits at ±3 standard deviations, tails beyond them
 * included. `normal, sorted`: the same with everything beyond the limits sent back. `triangular`: likeliest in the middle, none beyond. `even`: anything
 * within the limits as likely as anything else, the most cautious of the four. A measured size is normal with its own uncertainty under each of them.
 */
export type Spread = 'normal' | 'normal, sorted' | 'triangular' | 'even';

/** What a share rests on; shown with it. Sizes of different features are taken to be independent throughout. */
export type Statistics =
  | { readonly method: 'closed form'; readonly spread: 'normal' }
  | {
      readonly method: 'Monte Carlo';
      readonly spread: Spread;
      readonly seed: number;
      readonly draws: number;
      /** The share, 0..1, with 95 % confidence (`shareInterval`). */
      readonly interval: Span;
      /** Of the share: half that interval over 1.96. About √(p(1 − p)/draws), and never 0: that nothing was within is not known exactly either. */
      readonly standardError: number;
    };

export interface Draws {
  readonly seed: number;
  readonly draws: number;
  readonly spread: Spread;
}

/** A sum of sizes and where it must lie. A feature that stands in several conditions is drawn once for all of them. */
export interface Condition {
  readonly terms: readonly { readonly feature: FeatureId; readonly limits: Limits; readonly measured: boolean; readonly times: number }[];
  readonly asked: Span;
}

/** The share of draws in which every condition holds at once. @throws RangeError when fewer than one draw is asked for */
export const simulate = (
  conditions: readonly Condition[],
  { seed, draws, spread }: Draws,
): { readonly share: number; readonly statistics: Statistics } => {
  if (!(Number.isInteger(draws) && draws >= 1))
    throw new RangeError(`a Monte Carlo needs a whole number of draws, one or more; found ${draws}`);
  const dice = diceOf(seed);
  const features = [...new Set(conditions.flatMap((condition) => condition.terms.map((term) => term.feature)))];
  const sizes = features.map((feature) => {
    const term = conditions.flatMap((condition) => condition.terms).find((each) => each.feature === feature);
    if (!term) throw new Error(`no term for ${feature}`);
    return { limits: term.limits, spread: term.measured ? ('normal' as const) : spread };
  });
  const sums = conditions.map(({ terms, asked }) => ({
    terms: terms.map((term) => ({ at: features.indexOf(term.feature), times: term.times })),
    least: nanometres(asked.least),
    greatest: nanometres(asked.greatest),
  }));
  const drawn = new Float64Array(features.length);
  let within = 0;
  for (let i = 0; i < draws; i += 1) {
    sizes.forEach((size, at) => {
      drawn[at] = draw(size.limits, size.spread, dice);
    });
    if (sums.every((sum) => holds(sum, drawn))) within += 1;
  }
  const interval = shareInterval(within, draws);
  const standardError = (interval.greatest - interval.least) / (2 * z95);
  return { share: within / draws, statistics: { method: 'Monte Carlo', spread, seed, draws, interval, standardError } };
};

const holds = (
  sum: { readonly terms: readonly { readonly at: number; readonly times: number }[]; readonly least: number; readonly greatest: number },
  drawn: Float64Array,
): boolean => {
  let total = 0;
  for (const term of sum.terms) total += term.times * (drawn[term.at] as number);
  return total >= sum.least && total <= sum.greatest;
};

const draw = ({ low, high, sd }: Limits, spread: Spread, dice: Dice): number => {
  const middle = (low + high) / 2;
  switch (spread) {
    case 'normal':
      return middle + sd * dice.normal();
    case 'normal, sorted':
      for (;;) {
        const size = middle + sd * dice.normal();
        if (size >= low && size <= high) return size;
      }
    case 'triangular':
      return middle + ((high - low) / 2) * (dice.even() + dice.even() - 1);
    case 'even':
      return low + (high - low) * dice.even();
  }
};
