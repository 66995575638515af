import type { Atlas, Fact, FeatureId, FitRule } from '../../../reasoner/index.ts';

/** Two sizes a rule of a joint holds together: the middle of `outer` less the middle of `inner` is to be in [min, max]. */
export interface MatingSizes {
  readonly inner: FeatureId;
  readonly outer: FeatureId;
  readonly min: number;
  readonly max: number;
}

/** The sizes of a rule, in mm of the sizes themselves: a clearance round a wheel is had twice on a diameter. Nothing of a rule without sizes. */
export const matingSizesOf = (rule: FitRule): readonly MatingSizes[] => {
  switch (rule.kind) {
    case 'pilot':
      return [{ inner: rule.spigot, outer: rule.recess, min: rule.min, max: rule.max }];
    case 'running clearance':
      return [{ inner: rule.inner, outer: rule.outer, min: rule.min, max: rule.max }];
    case 'press fit':
      return [{ inner: rule.bore, outer: rule.shaft, min: rule.min, max: rule.max }];
    case 'wheel to contour':
      return rule.pairs.map(({ wheel, housing, way, min, max }) => {
        const times = way === 'radial' ? 2 : 1;
        return { inner: wheel, outer: housing, min: min * times, max: max * times };
      });
    case 'bolt circle':
      return [{ inner: rule.a.diameter, outer: rule.b.diameter, min: -rule.within, max: rule.within }];
    default:
      return [];
  }
};

export type Measure = Extract<Fact, { kind: 'measure' }>;

/** What an atlas has of the measures of a feature: its facts, smallest first. */
export const measuresOf = (atlas: Atlas): ((feature: FeatureId) => readonly Measure[]) => {
  const byFeature = new Map<FeatureId, Measure[]>();
  for (const { facts } of atlas.parts) {
    for (const [id, fact] of Object.entries(facts) as [FeatureId, Fact][]) {
      if (fact.kind === 'measure') byFeature.set(id, [...(byFeature.get(id) ?? []), fact]);
    }
  }
  for (const facts of byFeature.values()) facts.sort((a, b) => a.nominal - b.nominal);
  return (feature) => byFeature.get(feature) ?? [];
};

/** The middle of what a size may be, less its nominal. */
export const middleOf = ({ lower, upper }: Pick<Measure, 'lower' | 'upper'>): number => (lower + upper) / 2;
