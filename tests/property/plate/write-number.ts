import type { NumberPattern } from '../../../reasoner/index.ts';

/** The number as it is stamped, from the text of its pieces. */
export const writeNumber = ({ pieces }: NumberPattern, texts: readonly string[]): string =>
  texts.map((text, i) => (i === 0 ? text : `${pieces[i]?.before ?? ''}${text}`)).join('');
