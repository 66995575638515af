import type { Sheet } from '../../reasoner/index.ts';

/** What a sheet is called where it has no title. */
export const titleOf = ({ title, kind }: Pick<Sheet, 'title' | 'kind'>): string =>
  title !== '' ? title : kind === 'planned' ? 'untitled build' : 'untitled unit';
