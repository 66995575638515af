import type { FitRule } from '../atlas/rule.ts';
import type { FeatureId } from '../ids.ts';
import type { PointKind, Span } from './fit.ts';

/** One comparison of two features, as a rule asks for it. A rule is nothing but its comparisons; each gives one point of the finding. */
export type Comparison =
  /** (first − second)/per must lie within `asked`, mm; `per` is 2 for a radial clearance of diameters. */
  | {
      readonly kind: 'difference';
      readonly what: PointKind;
      readonly first: FeatureId;
      readonly second: FeatureId;
      readonly per: 1 | 2;
      readonly asked: Span;
    }
  | {
      readonly kind: 'same choice' | 'same thread' | 'same count';
      readonly what: PointKind;
      readonly first: FeatureId;
      readonly second: FeatureId;
    }
  /** What `first` needs, `second` offers. */
  | { readonly kind: 'service'; readonly what: 'service'; readonly first: FeatureId; readonly second: FeatureId };

export type Difference = Extract<Comparison, { kind: 'difference' }>;

/** A rule's comparisons, made once for each rule: a joint is judged for every pair of parts. */
export const comparisonsOf = (rule: FitRule): readonly Comparison[] => {
  let comparisons = made.get(rule);
  if (comparisons === undefined) {
    comparisons = make(rule);
    made.set(rule, comparisons);
  }
  return comparisons;
};

const made = new WeakMap<FitRule, readonly Comparison[]>();

const make = (rule: FitRule): readonly Comparison[] => {
  switch (rule.kind) {
    case 'pilot':
      return [difference('clearance', rule.recess, rule.spigot, 1, rule)];
    case 'running clearance':
      return [difference('clearance', rule.outer, rule.inner, 1, rule)];
    case 'press fit':
      return [difference('interference', rule.shaft, rule.bore, 1, rule)];
    case 'wheel to contour':
      return rule.pairs.map((pair) =>
        pair.way === 'radial'
          ? difference('radial clearance', pair.housing, pair.wheel, 2, pair)
          : difference('axial clearance', pair.housing, pair.wheel, 1, pair),
      );
    case 'thread':
      return [
        { kind: 'same thread', what: 'thread', first: rule.external.size, second: rule.internal.size },
        { kind: 'same choice', what: 'hand of thread', first: rule.external.hand, second: rule.internal.hand },
      ];
    case 'bolt circle':
      return [
        { kind: 'same count', what: 'hole count', first: rule.a.count, second: rule.b.count },
        difference('circle diameter', rule.a.diameter, rule.b.diameter, 1, { min: -rule.within, max: rule.within }),
        { kind: 'same thread', what: 'bolt', first: rule.a.bolt, second: rule.b.bolt },
      ];
    case 'services':
      return rule.pairs.map((pair) => ({ kind: 'service', what: 'service', first: pair.needs, second: pair.offers }));
    case 'clamp profile':
      return [{ kind: 'same choice', what: 'clamp profile', first: rule.a, second: rule.b }];
    case 'direction of rotation':
      return [{ kind: 'same choice', what: 'direction of rotation', first: rule.a, second: rule.b }];
    case 'same':
      return [{ kind: 'same choice', what: 'agreement', first: rule.a, second: rule.b }];
  }
};

const difference = (
  what: PointKind,
  first: FeatureId,
  second: FeatureId,
  per: 1 | 2,
  limits: { readonly min: number; readonly max: number },
): Difference => ({ kind: 'difference', what, first, second, per, asked: { least: limits.min, greatest: limits.max } });
