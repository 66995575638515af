import type { SwapSet } from '../../reasoner/index.ts';

/** What a swap takes, and how much of that is work on parts. */
export const sayMinutes = ({ minutes, work }: Pick<SwapSet, 'minutes' | 'work'>): string =>
  `${minutes} min${work > 0 ? `, ${work} of them work` : ''}`;
