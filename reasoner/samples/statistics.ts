import type { FeatureId, SheetId } from '../ids.ts';
import { sameValue } from '../plain/same-value.ts';
import { meanOf, spreadOf } from './mean.ts';
import { outliersAmong } from './outliers.ts';
import type { FeatureSamples, MeasureStatistics, Sample, Specimen, Tally } from './sample.ts';
import { toleranceFactor } from './tolerance-factor.ts';

/** Of fewer, limits would be told that no shop believes: k is above 6. */
export const fewestForLimits = 5;

/** What specimens say together of a measure. Every specimen counts alike, however well it was measured. @throws RangeError without one, and of what is no number */
export const measureStatistics = (specimens: readonly Pick<Specimen, 'value' | 'u'>[]): MeasureStatistics => {
  const values = specimens.map(({ value }) => value);
  const n = values.length;
  if (n === 0 || specimens.some(({ value, u }) => !(Number.isFinite(value) && Number.isFinite(u) && u >= 0)))
    throw new RangeError('measureStatistics: no specimens, or one that is no number');
  const mean = meanOf(values);
  const spread = n < 2 ? null : spreadOf(values);
  const noLimits = spread === null || n < fewestForLimits ? 'too few' : spread === 0 ? 'all alike' : null;
  const k = noLimits === null ? toleranceFactor(n) : null;
  return {
    n,
    mean,
    spread,
    measuring: Math.sqrt(specimens.reduce((sum, { u }) => sum + u * u, 0) / n),
    limits: k === null || spread === null ? null : { lower: mean - k * spread, upper: mean + k * spread, k },
    noLimits,
    outliers: outliersAmong(values),
  };
};

/**
 * The samples of one part, feature by feature, in the order they come. Several readings of a measure in one case are one specimen: their mean, its u the root of the sum of
 * squares over their number, since they err independently. What is no measure is counted by what was seen, each case once.
 */
export const statisticsOf = (samples: readonly Sample[]): readonly FeatureSamples[] =>
  [...grouped(samples, ({ feature }) => feature)].flatMap(([feature, of]) => {
    const specimens = specimensOf(of);
    const tallies = talliesOf(of);
    return [
      ...(specimens.length === 0 ? [] : [measured(feature, specimens)]),
      ...(tallies.length === 0 ? [] : [{ kind: 'seen' as const, feature, tallies }]),
    ];
  });

const measured = (feature: FeatureId, specimens: readonly Specimen[]): FeatureSamples => ({
  kind: 'measure',
  feature,
  specimens,
  statistics: measureStatistics(specimens),
});

const specimensOf = (samples: readonly Sample[]): readonly Specimen[] => {
  const readings = samples.flatMap(({ sheet, entry, value, u }) =>
    value.kind === 'measure' && u !== null ? [{ sheet, entry, value: value.value, u }] : [],
  );
  return [...grouped(readings, ({ sheet }) => sheet)].map(([sheet, of]) => ({
    sheet,
    value: meanOf(of.map(({ value }) => value)),
    u: Math.sqrt(of.reduce((sum, { u }) => sum + u * u, 0)) / of.length,
    entries: of.map(({ entry }) => entry),
  }));
};

const talliesOf = (samples: readonly Sample[]): readonly Tally[] => {
  const tallies: { value: Tally['value']; sheets: SheetId[] }[] = [];
  for (const { value, sheet } of samples) {
    if (value.kind === 'measure') continue;
    const held = tallies.find((one) => sameValue(one.value, value));
    if (held === undefined) tallies.push({ value, sheets: [sheet] });
    else if (!held.sheets.includes(sheet)) held.sheets.push(sheet);
  }
  return tallies.sort((a, b) => b.sheets.length - a.sheets.length);
};

const grouped = <T, K>(all: readonly T[], keyOf: (one: T) => K): ReadonlyMap<K, T[]> => {
  const groups = new Map<K, T[]>();
  for (const one of all) {
    const key = keyOf(one);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return groups;
};
