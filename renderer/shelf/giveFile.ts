import type { Sheet } from '../../reasoner/index.ts';
import { giveBlob } from '../look/giveBlob.ts';

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

/** Hands a text over as a download; the browser or Electron asks where to. */
export const giveFile = (name: string, text: string, type = 'application/json'): void => giveBlob(name, new Blob([text], { type }));

/** Hands bytes over in the same way. */
export const giveBytes = (name: string, bytes: Uint8Array<ArrayBuffer>, type: string): void => giveBlob(name, new Blob([bytes], { type }));
