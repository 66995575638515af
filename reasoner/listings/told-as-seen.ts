import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import { mmPerInch } from '../plain/units.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { contradictionsIn } from '../verdict/answer.ts';
import { hasPhrase } from '../words/has-phrase.ts';

/** A sheet as it would be were what is told on it true. */
export interface Supposed {
  readonly sheet: Sheet;
  /** What is told in two ways that cannot both be, each a sentence; none of it is supposed. */
  readonly disagree: readonly string[];
}

/**
 * Told entries taken for seen, for nothing but to ask what the words would mean (SPEC, Many listings): no status of the sheet comes of it. Told entries that cannot be
 * true beside each other, or beside what was seen, are left out, both of a pair. Null where nothing is told.
 */
export const toldAsSeen = (atlas: CompiledAtlas, sheet: Sheet): Supposed | null => {
  const told = sheet.observations.filter(({ sure }) => sure.kind === 'told');
  if (told.length === 0) return null;
  const observations = sheet.observations.map((one) => (one.sure.kind === 'told' ? asSeen(atlas, one) : one));
  const disagreeing = contradictionsIn(atlas, { ...sheet, observations })?.contradictions ?? [];
  const isTold = new Set(told.map(({ id }) => id));
  const aside = new Set(disagreeing.flatMap((one) => one.observations.filter((id) => isTold.has(id))));
  const of = (id: Observation['id']): Observation => observations.find((one) => one.id === id) as Observation;
  return {
    sheet: { ...sheet, observations: observations.filter(({ id }) => !aside.has(id)) },
    disagree: disagreeing
      // What is told otherwise than it was seen is found false by the verdict, and said there.
      .filter((one) => one.observations.every((id) => aside.has(id)))
      .map(({ observations: [a, b] }) => {
        const feature = atlas.features.get(of(a).feature) as Feature;
        const slot = slotNameOf(atlas, feature.slot);
        const [one, other] = [hasPhrase(feature, of(a)), hasPhrase(feature, of(b))];
        return `Of the ${slot} its own words say both ${one} and ${other}: neither is used.`;
      }),
  };
};

const asSeen = (atlas: CompiledAtlas, one: Observation): Observation =>
  one.value.kind === 'measure'
    ? { ...one, sure: { kind: 'measured', u: writtenWithin(atlas.features.get(one.feature) as Feature, one.value.value) / 2 } }
    : { ...one, sure: { kind: 'seen' } };

/** A size nobody saw being measured is never taken for closer than this, nor for rougher: mm, and the share of the size. */
const roughest = { mm: 0.5, share: 0.02 } as const;

/**
 * How far off a size that is told may be where it was written, in its own unit: one of its last figure, in mm or in inches, whichever takes fewer figures, within the doubt
 * of the feature's instrument (twice u = resolution / √3) and half a millimetre or 2 % of it. Common practice, no source.
 */
export const writtenWithin = (feature: Feature, value: number): number => {
  const least = (2 * (feature.resolution ?? 0)) / Math.sqrt(3);
  const last = lastFigure(value);
  const inches = feature.unit === 'deg' ? null : lastFigure(value / mmPerInch);
  const written = inches !== null && inches.figures <= last.figures ? Math.max(last.size, inches.size * mmPerInch) : last.size;
  return Math.max(least, Math.min(written, Math.max(roughest.mm, roughest.share * Math.abs(value))));
};

/** The figures behind the point that write a number to a ten-thousandth, and what one of the last is worth. */
const lastFigure = (value: number): { readonly figures: number; readonly size: number } => {
  const figures = (Number(value.toFixed(4)).toString().split('.')[1] ?? '').length;
  return { figures, size: 10 ** -figures };
};
