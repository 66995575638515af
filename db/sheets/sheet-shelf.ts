import type { Sheet, SheetId } from '../../reasoner/index.ts';
import type { SheetSummary } from '../answers.ts';
import { type Judged, keepEntry, openCase } from '../cases/kept-cases.ts';
import type { Asked } from '../packs/pack.ts';
import type { Door } from '../store/door.ts';
import { editionOf } from '../store/read-atlas.ts';
import { type Outcome, TroubleError, trouble } from '../trouble.ts';
import { knownTo, listSheets, openSheet, removeSheet, saveSheet } from './kept-sheets.ts';
import { checkSheet, parseSheet } from './read-sheet.ts';

/** Sheets: the shop's own, and the samples of the packs. */
export interface SheetShelf {
  list(): Promise<Outcome<readonly SheetSummary[]>>;
  open(id: SheetId): Promise<Outcome<Sheet>>;
  /**
   * Holds the sheet against the atlas, then saves it as the shop's own, with its case and the verdict it was judged by: all of it or
   * nothing. `atlas-changed` when the verdict is of another edition than the atlas now is; judge it again then.
   */
  save(sheet: Sheet, judged: Judged): Promise<Outcome<SheetSummary>>;
  /** Takes an own sheet off the shelf, its case and the photographs no other case shows with it. The case's number is not given again. */
  remove(id: SheetId): Promise<Outcome<null>>;
  /** Reads the text of a sheet file against the atlas; nothing is saved. `file` is only named in troubles. */
  read(text: string, file: string): Promise<Outcome<Sheet>>;
  /** Holds a sheet from anywhere against the atlas. */
  check(sheet: Sheet): Promise<Outcome<Sheet>>;
}

export const sheetShelf = ({ read, transact, now }: Door, { slipOf }: Pick<Asked, 'slipOf'>): SheetShelf => ({
  list: () => read(listSheets),
  open: (id) => read((reader) => openSheet(reader, id)),
  save: (sheet, judged) =>
    transact(async (connection) => {
      valueIn(checkSheet(sheet, await knownTo(connection, sheet)));
      if (judged.verdict.edition !== (await editionOf(connection))) throw new TroubleError(atlasChanged(sheet.id));
      const at = now();
      const saved = await saveSheet(connection, sheet, at.toISOString());
      await openCase(connection, sheet.id, judged.who, at);
      await keepEntry(connection, sheet, judged, at.toISOString());
      return saved;
    }),
  remove: (id) =>
    transact(async (connection) => {
      await removeSheet(connection, id);
      return null;
    }),
  read: (text, file) =>
    read(async (reader) => {
      const { sheet, places } = valueIn(parseSheet(text, file));
      const known = await knownTo(reader, sheet);
      return valueIn(checkSheet(sheet, slipOf === undefined ? known : { ...known, slipOf }, { file, places }));
    }),
  check: (sheet) => read(async (reader) => valueIn(checkSheet(sheet, await knownTo(reader, sheet)))),
});

const valueIn = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new TroubleError(outcome.trouble);
  return outcome.value;
};

const atlasChanged = (sheet: SheetId) =>
  trouble('atlas-changed', `sheet ${sheet}`, 'The atlas changed while the sheet was judged, so it was not saved. Save it again.');
