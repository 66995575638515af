import type { Sheet } from '../../reasoner/index.ts';
import { type JsonPlaces, pathText } from '../read/json-places.ts';
import { parseJson } from '../read/parse-json.ts';
import { done, failed, type Outcome, type Trouble, trouble } from '../trouble.ts';
import { faultsOfSheet, type KnownToAtlas } from './check-sheet.ts';
import { sheetSchema } from './schema.ts';

/**
 * The text of a sheet file as a sheet, with the rows things stand in. Whether the atlas knows what it speaks of is asked by `checkSheet`.
 * Troubles: `sheet-unreadable` (no JSON), `sheet-invalid` (another shape), each with its row, all of them in `all`.
 */
export const parseSheet = (text: string, file: string): Outcome<{ readonly sheet: Sheet; readonly places: JsonPlaces }> => {
  const parsed = parseJson(text, sheetSchema);
  if (parsed.ok) return done({ sheet: parsed.value, places: parsed.places });
  const code = parsed.isJson ? 'sheet-invalid' : 'sheet-unreadable';
  return failed(
    together(
      parsed.faults.map(({ row, column, found, expected }) => {
        const place = [file, `row ${row}`, column].filter((word) => word !== null).join(', ');
        return trouble(code, place, `${place}: found ${found}, expected ${parsed.isJson ? expected : `JSON, with ${expected} here`}.`);
      }),
    ),
  );
};

/** A file's name, and the rows of what it holds. */
export interface SheetFile {
  readonly file: string;
  readonly places: JsonPlaces;
}

/**
 * The sheet, held against the atlas. Troubles: `sheet-unknown` for what the atlas does not have, `sheet-invalid` for what it has otherwise; and where the
 * sheet comes from the window, `sheet-doubted` for figures somebody has yet to confirm. Of a file nobody can be asked, so there they are invalid.
 */
export const checkSheet = (sheet: Sheet, atlas: KnownToAtlas, from: SheetFile | null = null): Outcome<Sheet> => {
  const faults = faultsOfSheet(sheet, atlas);
  if (faults.length === 0) return done(sheet);
  return failed(
    together(
      [...faults.filter(({ code }) => code !== 'sheet-doubted'), ...faults.filter(({ code }) => code === 'sheet-doubted')].map(
        ({ code, path, found, expected, question }) => {
          const where = from === null ? `sheet ${sheet.id}` : `${from.file}, row ${from.places.rowOf(path)}`;
          const place = `${where}, ${pathText(path)}`;
          if (from === null && question !== undefined) return trouble(code, place, question);
          return trouble(
            code === 'sheet-doubted' ? 'sheet-invalid' : code,
            place,
            `${place}: found ${JSON.stringify(found)}, expected ${expected}.`,
          );
        },
      ),
    ),
  );
};

/** The text of a sheet file, parsed and held against the atlas in memory; its troubles name the rows. Nothing is saved. */
export const readSheetText = (text: string, file: string, atlas: KnownToAtlas): Outcome<Sheet> => {
  const parsed = parseSheet(text, file);
  return parsed.ok ? checkSheet(parsed.value.sheet, atlas, { file, places: parsed.value.places }) : parsed;
};

const together = (troubles: readonly Trouble[]): Trouble => {
  const [first] = troubles;
  if (first === undefined) throw new Error('no troubles to put together');
  return troubles.length === 1
    ? first
    : { ...first, sentence: `${first.sentence} There are ${troubles.length} faults in all.`, all: troubles };
};
