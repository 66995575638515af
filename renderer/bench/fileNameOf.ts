import type { Sheet } from '../../reasoner/index.ts';

/** A file name from the sheet's title that every system takes. */
export const fileNameOf = (sheet: Sheet, kind: 'json' | 'pdf' = 'json'): string => {
  const plain = sheet.title
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 80)
    .toLowerCase();
  return `${plain === '' ? 'sheet' : plain}.${kind}`;
};
