import type { Outcome } from '../trouble.ts';
import { type Cells, type CellsTaken, strictly } from './cells.ts';
import { readDelimited, textIn } from './read-delimited.ts';
import { readXlsx } from './read-xlsx.ts';

/** A file by what its name says it is; bytes that begin as a ZIP are a workbook, whatever it is called. */
export const cellsHanded = (bytes: Buffer, name: string, taken: CellsTaken = strictly): Outcome<Cells> => {
  if (/\.xls[xm]$/i.test(name) || (bytes[0] === 0x50 && bytes[1] === 0x4b)) return readXlsx(bytes, name, taken);
  const { text, note } = textIn(bytes);
  return readDelimited(text, name, note === null ? [] : [note], taken);
};
