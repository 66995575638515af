import { logOf } from './log-of.ts';
import type { Posterior } from './posterior.ts';
import type { TargetRows } from './target-sums.ts';

/** What a blind reading goes with: a slip's of any part, and all readings of those that give no other. */
export interface Blind {
  /** By target. */
  readonly chances: Float64Array;
  readonly logs: Float64Array;
  readonly sum: number;
  /** Σ of chances times their logarithms. */
  readonly entropic: number;
}

/**
 * @param silent the row of the parts that give blind readings and no other, among all added up; null where there are none
 * @param lost by target, what is taken to read blind because it is too unlikely to be weighed
 * @param times how often they give a blind reading
 */
export const blindOf = (
  { likely, assumptions: { slip } }: Pick<Posterior, 'likely' | 'assumptions'>,
  facts: TargetRows | null,
  silent = 0,
  lost: Float64Array | null = null,
  times = 1,
): Blind => {
  const chances = likely.chances.map((chance) => slip * chance);
  if (facts !== null) {
    const { from, targets: own, chances: often, any, weights } = facts;
    for (let i = from[silent] as number; i < (from[silent + 1] as number); i += 1) {
      const target = own[i] as number;
      chances[target] = (chances[target] as number) + (1 - slip) * times * (often[i] as number);
    }
    const weight = (1 - slip) * times * (weights[silent] as number);
    for (let i = 0; i < any.targets.length; i += 1) {
      const target = any.targets[i] as number;
      chances[target] = (chances[target] as number) + weight * (any.chances[i] as number);
    }
  }
  if (lost !== null)
    for (let target = 0; target < chances.length; target += 1)
      chances[target] = (chances[target] as number) + (1 - slip) * (lost[target] as number);
  const logs = new Float64Array(chances.length);
  let sum = 0;
  let entropic = 0;
  for (let target = 0; target < chances.length; target += 1) {
    const chance = chances[target] as number;
    if (chance <= 0) {
      chances[target] = 0;
      continue;
    }
    const log = logOf(chance);
    logs[target] = log;
    sum += chance;
    entropic += chance * log;
  }
  return { chances, logs, sum, entropic };
};
