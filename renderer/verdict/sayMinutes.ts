import type { SwapSet } from '../../reasoner/index.ts';
import { plain } from '../values/figures.ts';

/** What a swap takes, and how much of that is work on parts. */
export const sayMinutes = ({ minutes, work }: Pick<SwapSet, 'minutes' | 'work'>): string =>
  `${plain(minutes, 1)} min${work > 0 ? `, ${plain(work, 1)} of them work` : ''}`;
