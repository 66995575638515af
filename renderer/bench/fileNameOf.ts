import type { Sheet } from '../../reasoner/index.ts';

/** A file name from the sheet's title that every system takes, the number of its case before it where it is given. */
export const fileNameOf = (sheet: Pick<Sheet, 'title'>, kind: 'json' | 'pdf' = 'json', number: string | null = null): string => {
  const plain = sheet.title
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 80)
    .toLowerCase();
  return `${[number ?? [], plain === '' && number === null ? 'sheet' : plain].flat().filter(Boolean).join('-')}.${kind}`;
};
