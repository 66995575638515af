import type { FitRule } from '../atlas/rule.ts';
import type { FeatureId } from '../ids.ts';
import { comparisonsOf } from './comparisons.ts';

/**
 * Every feature a rule reads, once each, in the rule's order. Two parts with equal facts on these are judged alike,
 * so parts may be grouped by them before pairs are judged.
 */
export const featuresOf = (rule: FitRule): readonly FeatureId[] => [
  ...new Set(comparisonsOf(rule).flatMap((comparison) => [comparison.first, comparison.second])),
];
