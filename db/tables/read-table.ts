import type { CellSheet } from './cells.ts';
import { readFacts } from './read-facts.ts';
import { decimalSignIn } from './read-figure.ts';
import { readModels } from './read-models.ts';
import { readParts } from './read-parts.ts';
import type { TableRead, Taking } from './taking.ts';

/** A table as it is matched and mended, read against the atlas. Nothing is guessed and nothing throws: what cannot be read is a fault of its cell, and keeps its row out. */
export const readTable = (
  sheet: CellSheet,
  taking: Omit<Taking, 'reading'> & { readonly reading: Omit<Taking['reading'], 'decimal'> },
): TableRead => {
  const whole: Taking = { ...taking, reading: { ...taking.reading, decimal: decimalSignIn(textsOf(sheet, taking)) } };
  switch (taking.matching.kind) {
    case 'parts':
      return readParts(sheet, whole);
    case 'models':
      return readModels(sheet, whole);
    case 'facts':
      return readFacts(sheet, whole);
  }
};

/** The texts of all columns that hold figures: they show which decimal sign the table writes. */
function* textsOf(sheet: CellSheet, { matching, mended }: Pick<Taking, 'matching' | 'mended'>): Iterable<string> {
  const columns = new Set(
    matching.columns.flatMap(({ is }, column) => (is === 'figure' || is === 'value' || is === 'lower' || is === 'upper' ? [column] : [])),
  );
  for (const row of sheet.rows.slice(matching.headings))
    for (const [column, cell] of row.entries()) if (columns.has(column) && cell.is === 'text') yield cell.text;
  for (const [key, text] of Object.entries(mended.cells)) if (columns.has(Number(key.split(':')[1]))) yield text;
}
