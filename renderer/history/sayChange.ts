import type { ChangeEntry, Vocabulary } from '../../db/answers.ts';

/** One entry of the atlas, whose history is asked for. */
export interface OfEntry {
  readonly list: string;
  readonly id: string;
}

/** What a pack is called; by its id where the atlas has it no more. */
export const titlesIn =
  ({ packs }: Pick<Vocabulary, 'packs'>) =>
  (id: string): string =>
    packs.find((pack) => pack.id === id)?.title ?? id;

/** What was done, in a few words. */
export const sayKind = (
  { kind, packs, undoes }: Pick<ChangeEntry, 'kind' | 'packs' | 'undoes'>,
  titleOf: (pack: string) => string,
): string => {
  switch (kind) {
    case 'pack loaded':
      return `Pack put in: ${packs.map(titleOf).join(', ')}`;
    case 'pack removed':
      return `Pack taken out: ${packs.map(titleOf).join(', ')}`;
    case 'edited':
      return 'Edited';
    case 'undone':
      return `Change ${undoes ?? ''} undone`;
  }
};
