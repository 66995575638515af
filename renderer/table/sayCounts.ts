import type { ChangeSeen } from '../../db/answers.ts';
import { saySort } from '../edit/saySort.ts';
import { sayAmounts } from '../values/sayAmounts.ts';

/** `parts: 290 new, 3 altered; what is known of parts: 1,200 new`. */
export const sayCounts = (counts: ChangeSeen['counts']): string =>
  counts
    .filter(({ of }) => of !== 'pack')
    .map((count) => `${saySort(count.of)}: ${sayAmounts(count)}`)
    .join('; ');
