import type { ChangeEntry } from '../../db/answers.ts';

/** One entry of the atlas, whose history is asked for. */
export interface OfEntry {
  readonly list: string;
  readonly id: string;
}

/** What was done, in a few words. */
export const sayKind = ({ kind, packs, undoes }: Pick<ChangeEntry, 'kind' | 'packs' | 'undoes'>): string => {
  switch (kind) {
    case 'pack loaded':
      return `Pack put in: ${packs.join(', ')}`;
    case 'pack removed':
      return `Pack taken out: ${packs.join(', ')}`;
    case 'edited':
      return 'Edited';
    case 'undone':
      return `Change ${undoes ?? ''} undone`;
  }
};
