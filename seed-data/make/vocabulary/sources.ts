import type { Source } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';

/** Where the figures of the vocabulary come from: what is no habit of the trade is invented. */
export const sources: readonly Plain<Source>[] = [
  { id: 'limits-of-joints', title: 'Limits for joints, for work and for running warm (invented)', kind: 'invented' },
  { id: 'figures-of-instruments', title: 'Steps and uncertainties of instruments (invented)', kind: 'invented' },
  { id: 'trade-habit', title: 'Common practice of the trade, no source', kind: 'common practice, no source' },
];
