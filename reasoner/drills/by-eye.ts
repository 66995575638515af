import type { Fact, Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { FeatureId } from '../ids.ts';
import type { Facts } from './drill.ts';

/**
 * What a size is taken by eye and a rule held to it: to the whole millimetre, and by no more than 3 mm wrong (2u, O2). Sizes that differ by less are no
 * look of this level.
 */
export const roughly = { step: 1, u: 1.5 } as const;

/** Of sizes smaller than this, mm, 3 mm is too much to say anything. */
const smallestSize = 10;

/** Seen or counted with nothing in the hand: letters, what is there, what it looks like, how many; no choice between threads or sizes to a tenth. */
export const seenByEye = ({ kind, options = [], instrument }: Feature): boolean =>
  kind !== 'measure' && instrument === undefined && !options.some(({ name }) => /\d[.,]\d/.test(name));

/** A length that can be held against a rule. */
export const sizedByEye = ({ kind, unit }: Feature): boolean => kind === 'measure' && unit === 'mm';

/** A size as it is taken by eye; null where it is too small for that. */
export const sizeByEye = (size: number): number | null => {
  const whole = Math.round(size / roughly.step) * roughly.step;
  return whole < smallestSize ? null : whole;
};

/** Facts to draw for whoever measures nothing: sizes in whole millimetres, and none where they are too small for that. */
export const factsByEye = (atlas: CompiledAtlas, facts: Facts): Facts =>
  Object.fromEntries(
    Object.entries(facts).flatMap(([id, fact]): [string, Fact][] => {
      const feature = atlas.features.get(id as FeatureId);
      if (feature === undefined || fact.kind === 'not known') return [];
      if (fact.kind !== 'measure') return seenByEye(feature) ? [[id, fact]] : [];
      const size = sizedByEye(feature) ? sizeByEye(fact.nominal) : null;
      return size === null ? [] : [[id, { kind: 'measure', nominal: size, lower: 0, upper: 0 }]];
    }),
  ) as Facts;
