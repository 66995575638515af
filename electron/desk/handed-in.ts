import {
  type Cells,
  cellsHanded,
  type ListingMatching,
  listingCells,
  listingHeadingRow,
  matchListings,
  type Outcome,
  readOffers,
  readSheetTable,
  readSheetText,
  sheetIn,
  textIn,
} from '../../db/index.ts';
import { type CompiledAtlas, type ListingsItem, slipOf } from '../../reasoner/index.ts';
import { knownIn } from './kept-atlas.ts';

/** A sheet file somebody handed in; null for bytes that are no UTF-8. */
export interface HandedIn {
  readonly name: string;
  readonly text: string | null;
}

/** A table somebody handed in: of sheets, or of listings, as it was matched (null: by its headings). */
export interface TableHandedIn {
  readonly name: string;
  readonly bytes: Buffer;
  readonly matching: ListingMatching | null;
}

/** What a sheet file holds; one that cannot be read is an item too, with all its faults. */
export const itemOf = (atlas: CompiledAtlas, { name, text }: HandedIn): ListingsItem => {
  if (text === null) return { source: name, faults: [notUtf8(name)] };
  const read = readSheetText(text, name, knownIn(atlas));
  if (read.ok) return { source: name, sheet: read.value };
  return { source: name, faults: (read.trouble.all ?? [read.trouble]).map(({ sentence }) => sentence) };
};

const notUtf8 = (name: string): string => `${name}: found bytes that are not UTF-8, expected text in UTF-8.`;

/**
 * What a table holds, row by row or unit by unit.
 * @param cellsOf its cells, where somebody has them already
 */
export const itemsOfTable = (
  atlas: CompiledAtlas,
  table: TableHandedIn,
  cellsOf = (): Outcome<Cells> => listingCellsIn(table.bytes, table.name),
): readonly ListingsItem[] => {
  const { name, matching } = table;
  const ofSheets = matching === null ? sheetTableIn(table) : null;
  if (ofSheets !== null) return itemsOfUnits(atlas, name, ofSheets.text);
  const cells = cellsOf();
  if (!cells.ok) return [{ source: name, faults: (cells.trouble.all ?? [cells.trouble]).map(({ sentence }) => sentence) }];
  const sheet = sheetIn(cells.value, matching?.sheet ?? null);
  if (sheet === undefined) return [{ source: name, faults: [`${name}: found no sheet with cells, expected rows.`] }];
  const [first, ...rest] = readOffers(sheet, matching ?? listingsMatched(cells.value, null, null).matching, name);
  if (first === undefined) return [{ source: name, faults: [`${name}: found headings and no rows, expected at least one listing.`] }];
  // What was taken for granted in reading the file is said once.
  const { notes } = cells.value;
  return ['offer' in first ? { ...first, offer: { ...first.offer, notes: [...first.offer.notes, ...notes] } } : first, ...rest];
};

const itemsOfUnits = (atlas: CompiledAtlas, name: string, text: string | null): ListingsItem[] => {
  if (text === null) return [{ source: name, faults: [notUtf8(name)] }];
  const units = readSheetTable(text, name, { ...atlas.data, slipOf });
  if (units.length === 0) return [{ source: name, faults: [`${name}: found a header and no rows, expected at least one unit.`] }];
  return units.map((unit) => ({
    source: unit.source,
    ...(unit.ok ? { sheet: unit.sheet } : { faults: unit.faults.map(({ sentence }) => sentence) }),
  }));
};

export const listingCellsIn = (bytes: Buffer, name: string): Outcome<Cells> => cellsHanded(bytes, name, listingCells);

/** How a table of listings is taken by itself, the headings from the row said, where one is; with how surely, and the rows of its sheet. */
export const listingsMatched = (cells: Cells, sheetName: string | null, row: number | null) => {
  const sheet = sheetIn(cells, sheetName);
  const rows = sheet?.rows ?? [];
  const headings = row ?? listingHeadingRow(rows);
  const matches = matchListings(rows, headings);
  const matching: ListingMatching = { sheet: sheet?.name ?? null, headings, columns: matches.map(({ use }) => use) };
  return { matching, matches, rows };
};

/** Columns by which a table of sheets (SHEET-TABLES.md) is known from one of listings, its own faults aside. */
const ofSheetsAlone = ['unit', 'slot', 'feature', 'value', 'how'];

/** The text of a table of sheets, null in it for bytes that are no UTF-8; null where it is no such table. */
export const sheetTableIn = ({ name, bytes }: Pick<TableHandedIn, 'name' | 'bytes'>): { readonly text: string | null } | null => {
  if (/\.xls[xm]$/i.test(name) || (bytes[0] === 0x50 && bytes[1] === 0x4b)) return null;
  const { text, note } = textIn(bytes);
  const [first = ''] = text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/, 1);
  const headings = first
    .toLowerCase()
    .split(/[,;\t]/)
    .map((heading) => heading.replace(/^[\s"]+|[\s"]+$/g, ''));
  return ofSheetsAlone.every((heading) => headings.includes(heading)) ? { text: note === null ? text : null } : null;
};
