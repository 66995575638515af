import { expect, test } from 'vitest';
import { linesOf, type Sheet } from '../../../reasoner/index.ts';
import { groundOf, reportOn } from '../report/proof.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const texts = (sheet: Sheet): string[] => linesOf(reportOn(groundOf(demo, sheet))).map(({ text }) => text);
const said = (text: string): boolean => text.startsWith('± is twice the standard uncertainty');

test('[O2] a report that shows a measured size says once what its ± means, and one that shows none does not', () => {
  const found = demoPack.sheets.filter(({ kind }) => kind === 'found');
  const measured = found.filter(({ observations }) => observations.some(({ sure }) => sure.kind === 'measured'));
  expect(measured.length).toBeGreaterThan(3);
  for (const sheet of measured) expect(texts(sheet).filter(said), sheet.id).toHaveLength(1);
  const looked = {
    ...(measured[0] as Sheet),
    observations: measured[0]?.observations.filter(({ sure }) => sure.kind !== 'measured') ?? [],
  };
  expect(texts(looked).filter(said)).toEqual([]);
});
