import type { Fact, Part } from '../../atlas/atlas.ts';
import type { Holding } from '../../atlas/operation.ts';
import type { FeatureId } from '../../ids.ts';
import type { Comparison, Difference } from '../comparisons.ts';
import type { FitVerdict, Span } from '../fit.ts';
import { toleranceOf } from '../iso286.ts';
import { judgeComparison } from '../judge-rule.ts';
import { type FactOf, known } from '../known.ts';
import { type Limits, limitsOf, millimetres, nanometres } from '../limits.ts';
import type { FinishedSize, Refusal, Work } from './work.ts';

/** One part on the bench at one joint: what the joint compares, and what is known of both parts. */
export interface Job {
  readonly part: Part;
  readonly comparisons: readonly Comparison[];
  readonly factOf: FactOf;
}

/** What an operation comes to: sized work, or why not. Null when it touches nothing that is wrong. */
export type Sized = Pick<Work, 'sizes' | 'metal' | 'changes' | 'allowed' | 'missing'>;
export type Sizing = { readonly kind: 'work'; readonly work: Sized } | { readonly kind: 'refused'; readonly because: Refusal } | null;

export const refuse = (because: Refusal): Sizing => ({ kind: 'refused', because });

export const comparisonsWith = (job: Job, feature: FeatureId): readonly Comparison[] =>
  job.comparisons.filter((comparison) => comparison.first === feature || comparison.second === feature);

export const verdictOf = (job: Job, comparison: Comparison): FitVerdict => judgeComparison(comparison, job.factOf).verdict;

/** Whether some comparison of this feature fails, or holds for some pairs only. */
export const isWrong = (job: Job, feature: FeatureId): boolean =>
  comparisonsWith(job, feature).some((comparison) => {
    const verdict = verdictOf(job, comparison);
    return verdict === 'will not fit' || verdict === 'after work';
  });

export const limitsAt = (job: Job, feature: FeatureId): Limits | null => {
  const size = known(job.factOf, feature, 'measure');
  return size && limitsOf(size);
};

/** Where the feature must lie so that every comparison of it holds with every good example of the other part; nm. Unknown partners ask nothing. */
const windowOf = (job: Job, feature: FeatureId): { readonly low: number; readonly high: number } => {
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  for (const comparison of comparisonsWith(job, feature)) {
    if (comparison.kind !== 'difference') continue;
    const isFirst = comparison.first === feature;
    const other = limitsAt(job, isFirst ? comparison.second : comparison.first);
    if (other === null) continue;
    const asked = within(comparison);
    low = Math.max(low, isFirst ? asked.least + other.high : other.high - asked.greatest);
    high = Math.min(high, isFirst ? asked.greatest + other.low : other.low - asked.least);
  }
  return { low, high };
};

const within = ({ asked, per }: Difference): Span => ({ least: per * nanometres(asked.least), greatest: per * nanometres(asked.greatest) });

/**
 * The size to finish a feature to. Going larger the lower limit is made (the upper going smaller) as soon as the window allows, on a whole hundredth
 * where there is one, so that no more metal goes than must; the operation's tolerance runs from there.
 */
export const finish = (job: Job, feature: FeatureId, way: 'larger' | 'smaller', holds: Holding): FinishedSize | Refusal => {
  const from = limitsAt(job, feature);
  if (from === null) return { kind: 'nothing to work to', feature };
  const window = windowOf(job, feature);
  if (!Number.isFinite(window.low) || !Number.isFinite(window.high)) return { kind: 'nothing to work to', feature };
  const size = millimetres((window.low + window.high) / 2);
  const held = holds.kind === 'tolerance' ? { ok: true as const, value: holds.tolerance * 1000 } : toleranceOf(size, holds.grade);
  if (!held.ok) return { kind: 'no tolerance', feature, sentence: held.sentence };
  const tolerance = Math.round(held.value * 1000);
  const room = window.high - window.low;
  if (room < tolerance) return { kind: 'too coarse', feature, window: millimetres(room), tolerance: millimetres(tolerance) };
  // A part going smaller is one going larger, seen from the other side of zero.
  const sign = way === 'larger' ? 1 : -1;
  const near = sign * (way === 'larger' ? window.low : window.high);
  const lower = roundUp(near, sign * (way === 'larger' ? window.high : window.low) - tolerance);
  const upper = lower + tolerance;
  const [least, greatest] = way === 'larger' ? [from.low, from.high] : [-from.high, -from.low];
  if (least > upper) return { kind: 'wrong way', feature };
  if (greatest > upper) return { kind: 'some are past it', feature };
  return {
    feature,
    from: { least: millimetres(from.low), greatest: millimetres(from.high) },
    nominal: millimetres(sign * lower),
    lower: way === 'larger' ? 0 : millimetres(-tolerance),
    upper: way === 'larger' ? millimetres(tolerance) : 0,
    removes: { least: millimetres(Math.max(0, lower - greatest)), greatest: millimetres(upper - least) },
  };
};

/** The first whole hundredth at or above, failing that the first whole thousandth, that is not above `most`. */
const roundUp = (nm: number, most: number): number => {
  for (const step of [10_000, 1_000]) {
    const rounded = Math.ceil(nm / step) * step;
    if (rounded <= most) return rounded;
  }
  return nm;
};

export const measureOf = (size: FinishedSize): Fact => ({ kind: 'measure', nominal: size.nominal, lower: size.lower, upper: size.upper });

/** Limits moved by anything from `least` to `greatest`, mm. */
export const shifted = (limits: Limits, least: number, greatest: number): Fact => {
  const low = millimetres(limits.low + nanometres(least));
  const high = millimetres(limits.high + nanometres(greatest));
  return { kind: 'measure', nominal: low, lower: 0, upper: millimetres(nanometres(high - low)) };
};
