import type { Beside, ListingsItem } from '../../reasoner/index.ts';
import { columnName } from '../../reasoner/plain/column-name.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { type Cell, type CellSheet, type CellsTaken, noCell } from './cells.ts';
import type { ListingMatching, ListingUse } from './listing-columns.ts';
import { oddity } from './rows.ts';

/** Of listings a cell may hold a whole offer, and one that cannot be read keeps no other row out. */
export const listingCells: CellsTaken = { letters: limits.listingLetters, each: true };

/**
 * The rows of a table of listings, each by itself. A row whose words cannot be read, or that has none, is one with its faults, by row (as a spreadsheet counts) and
 * column; of a price or a link that cannot be taken at its word the row says so and goes on. Empty rows are passed over.
 */
export const readOffers = (sheet: CellSheet, { headings, columns }: ListingMatching, file: string): readonly ListingsItem[] => {
  const heads = headings === 0 ? [] : (sheet.rows[headings - 1] ?? []);
  const headingAt = (column: number): string => heads[column]?.text ?? '';
  return sheet.rows.slice(headings).flatMap((cells, at): ListingsItem[] => {
    if (cells.every(({ text, is }) => text === '' && is === 'text')) return [];
    const row = headings + at + 1;
    const source = `${file}, row ${row}`;
    const place = (column: number): string =>
      `${source}, column ${columnName(column)}${headingAt(column) === '' ? '' : ` “${headingAt(column)}”`}`;
    const used = (...uses: readonly ListingUse[]) =>
      columns.flatMap((use, column) => (uses.includes(use) ? [{ use, column, cell: cells[column] ?? noCell }] : []));
    const wrong = (of: readonly { readonly column: number; readonly cell: Cell }[]): string[] =>
      of.flatMap(({ column, cell }) => {
        const odd = oddity(cell);
        return odd === null ? [] : [`${place(column)}: ${odd.sentence ?? `Found ${odd.found}, expected ${odd.expected}.`}`];
      });
    const plain = (cell: Cell): string => (oddity(cell) === null ? cell.text : '');
    const textOf = (use: ListingUse): string | null =>
      used(use)
        .map(({ cell }) => plain(cell))
        .find((text) => text !== '') ?? null;
    const beside: Beside = {
      price: textOf('price'),
      link: textOf('link'),
      carried: columnsBeyond(cells, columns).flatMap(({ column, cell }) =>
        cell.text === '' || cell.is === 'too long'
          ? []
          : [{ heading: headingAt(column) || `Column ${columnName(column)}`, text: cell.text }],
      ),
    };
    const told = used('title', 'description', 'words');
    const faults = wrong(told);
    const title = textOf('title');
    const words = [
      ...(title === null ? [] : [title]),
      ...told.flatMap(({ use, column, cell }) => {
        if (use === 'title' || cell.text === '') return [];
        return [use === 'words' && headingAt(column) !== '' ? `${headingAt(column)}: ${cell.text}` : cell.text];
      }),
    ].join('\n');
    if (faults.length === 0 && words === '') {
      const where = told[0] === undefined ? source : place(told[0].column);
      faults.push(`${where}: found nothing${beside.price === null ? '' : ' but a price'}, expected the words of a listing.`);
    }
    if (words.length > limits.listingLetters)
      faults.push(`${source}: found ${words.length} characters in all its words, expected at most ${limits.listingLetters}.`);
    if (faults.length > 0) return [{ source, faults, beside }];
    return [{ source, offer: { row, title: title ?? firstLine(words), words, ...beside, notes: wrong(used('price', 'link')) } }];
  });
};

/** What nothing is made of; cells beyond the last column that was matched too. */
const columnsBeyond = (cells: readonly Cell[], columns: readonly ListingUse[]) =>
  cells.flatMap((cell, column) => ((columns[column] ?? 'carried') === 'carried' ? [{ column, cell }] : []));

const firstLine = (words: string): string => (words.split('\n')[0] ?? '').slice(0, 120);
