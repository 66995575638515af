import type { Sheet } from '../../reasoner/index.ts';
import { pathText } from '../packs/json-places.ts';
import { parseJson } from '../packs/parse-json.ts';
import { done, failed, type Outcome, type Trouble, trouble } from '../trouble.ts';
import { faultsOfSheet, type KnownToAtlas, type SheetFault } from './check-sheet.ts';
import { sheetSchema } from './schema.ts';

/**
 * The text of a sheet file as a sheet. Whether the atlas knows what it speaks of is asked by `checkSheet`.
 * Troubles: `sheet-unreadable` (no JSON), `sheet-invalid` (another shape), each with its row, all of them in `all`.
 */
export const parseSheet = (text: string, file: string): Outcome<Sheet> => {
  const parsed = parseJson(text, sheetSchema);
  if (parsed.ok) return done(parsed.value);
  const code = parsed.isJson ? 'sheet-invalid' : 'sheet-unreadable';
  return failed(
    together(
      parsed.faults.map(({ row, column, found, expected }) => {
        const place = [`${file}, row ${row}`, column].filter((word) => word !== null).join(', ');
        const sentence = parsed.isJson ? `found ${found}, expected ${expected}` : `found ${found}, expected JSON, with ${expected} here`;
        return trouble(code, place, `${place}: ${sentence}.`);
      }),
    ),
  );
};

/** The sheet, held against the atlas. Troubles: `sheet-unknown` for what the atlas does not have, `sheet-invalid` for what it has otherwise. */
export const checkSheet = (sheet: Sheet, atlas: KnownToAtlas, file: string | null = null): Outcome<Sheet> => {
  const faults = faultsOfSheet(sheet, atlas);
  return faults.length === 0 ? done(sheet) : failed(together(faults.map((fault) => troubleOfFault(fault, file ?? `sheet ${sheet.id}`))));
};

const troubleOfFault = (fault: SheetFault, file: string): Trouble => at(fault.code, file, fault.path, `"${fault.found}"`, fault.expected);

const at = (code: SheetFault['code'], file: string, path: readonly PropertyKey[], found: string, expected: string): Trouble => {
  const place = path.length === 0 ? file : `${file}, ${pathText(path)}`;
  return trouble(code, place, `${place}: found ${found}, expected ${expected}.`);
};

const together = (troubles: readonly Trouble[]): Trouble => {
  const [first] = troubles;
  if (first === undefined) throw new Error('no troubles to put together');
  const sentence = troubles.length === 1 ? first.sentence : `${first.sentence} (${troubles.length} such places in all.)`;
  return troubles.length === 1 ? first : { ...first, sentence, all: troubles };
};
