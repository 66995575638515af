import type { ChangeSeen } from '../../db/answers.ts';

/** How many things of one sort a change adds, alters and takes away: `2 new, 1 altered`. */
export const sayAmounts = ({ added, altered, removed }: ChangeSeen['counts'][number]): string =>
  (
    [
      [added, 'new'],
      [altered, 'altered'],
      [removed, 'gone'],
    ] as const
  )
    .filter(([many]) => many !== 0)
    .map(([many, word]) => `${many} ${word}`)
    .join(', ');
