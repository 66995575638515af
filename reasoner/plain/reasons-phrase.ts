import { numberInWords } from './text.ts';

/** How many reasons share no entry, as it is counted aloud (K1): `one reason`, `at least three independent reasons`. */
export const reasonsPhrase = ({ count, exact }: { readonly count: number; readonly exact: boolean }): string =>
  `${exact ? '' : 'at least '}${numberInWords(count)} ${count === 1 ? 'reason' : 'independent reasons'}`;
