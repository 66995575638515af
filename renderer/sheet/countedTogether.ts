import type { Feature } from '../../reasoner/index.ts';

/**
 * What is counted in one go round a part: the feature itself and those of the same slot whose things go by the same last word,
 * as full blades and splitter blades do. In the order the atlas has them, so that the numbers of the keys stay put.
 */
export const countedTogether = (feature: Feature, ofSlot: readonly Feature[]): readonly Feature[] => {
  const thing = lastWord(feature);
  if (thing === null) return [feature];
  const alike = ofSlot.filter((one) => one.id === feature.id || (one.unit !== feature.unit && lastWord(one) === thing));
  return alike.some(({ id }) => id === feature.id) ? alike : [feature];
};

const lastWord = ({ kind, unit }: Feature): string | null =>
  kind !== 'count' || unit === undefined || unit === 'year' ? null : (unit.split(' ').at(-1) ?? null);
