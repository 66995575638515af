import type { Feature, Stage } from '../../reasoner/index.ts';

/**
 * By which features found alike are offered, least first: what can be told earliest in the strip-down, and of one stage what is counted before all else, since a
 * count tells parts apart that look the same and is read without a tool. One of a stage the atlas does not have comes last.
 * A feature typed whole still comes before all (`matching`).
 * @param stages in the order of the strip-down: as received is the first
 */
export const offeredBefore = ({ kind, stage }: Pick<Feature, 'kind' | 'stage'>, stages: readonly Pick<Stage, 'id'>[]): number => {
  const at = stages.findIndex(({ id }) => id === stage);
  return 2 * (at < 0 ? stages.length : at) + (kind === 'count' ? 0 : 1);
};
