import type { Independent } from '../../reasoner/index.ts';

const small = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

/** How many reasons share no entry (K1): `one reason`, `at least three independent reasons`. */
export const reasonsInWords = ({ count, exact }: Independent): string =>
  `${exact ? '' : 'at least '}${small[count] ?? count} ${count === 1 ? 'reason' : 'independent reasons'}`;
