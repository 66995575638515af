import type { FeatureId } from '../ids.ts';
import type { FitRule } from './rule.ts';

/**
 * Every feature a rule reads, once each, in the rule's order. Two parts with equal facts on these are judged alike,
 * so parts may be grouped by them before pairs are judged.
 */
export const featuresOf = (rule: FitRule): readonly FeatureId[] => {
  switch (rule.kind) {
    case 'pilot':
      return [rule.spigot, rule.recess];
    case 'running clearance':
      return [rule.inner, rule.outer];
    case 'press fit':
      return [rule.shaft, rule.bore];
    case 'wheel to contour':
      return [...new Set(rule.pairs.flatMap((pair) => [pair.wheel, pair.housing]))];
    case 'thread':
      return [rule.external.size, rule.internal.size, rule.external.hand, rule.internal.hand];
    case 'bolt circle':
      return [rule.a.count, rule.b.count, rule.a.diameter, rule.b.diameter, rule.a.bolt, rule.b.bolt];
    case 'services':
      return [...new Set(rule.pairs.flatMap((pair) => [pair.needs, pair.offers]))];
    case 'clamp profile':
    case 'direction of rotation':
    case 'same':
      return [rule.a, rule.b];
  }
};
