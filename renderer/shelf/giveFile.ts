import type { Sheet } from '../../reasoner/index.ts';

/** A file name from the sheet's title that every system takes. */
export const fileNameOf = (sheet: Sheet): string => {
  const plain = sheet.title
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 80)
    .toLowerCase();
  return `${plain === '' ? 'sheet' : plain}.json`;
};

/** Hands a text over as a download; the browser or Electron asks where to. */
export function giveFile(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has its own hold on the data once it has begun.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
