import type { ChangeSeen } from '../../db/answers.ts';

const names: Readonly<Record<string, string>> = {
  parts: 'parts',
  'parts.facts': 'facts of parts',
  models: 'models',
  allowed: 'parts that may sit in a model',
  makers: 'makers',
  sources: 'sources',
};

/** `parts: 290 new, 3 altered; facts of parts: 1,200 new`. */
export const sayCounts = (counts: ChangeSeen['counts']): string =>
  counts
    .filter(({ of }) => of !== 'pack')
    .map(({ of, added, altered, removed }) => {
      const each = [
        [added, 'new'],
        [altered, 'altered'],
        [removed, 'taken away'],
      ] as const;
      return `${names[of] ?? of}: ${each
        .filter(([many]) => many > 0)
        .map(([many, how]) => `${many} ${how}`)
        .join(', ')}`;
    })
    .join('; ');
