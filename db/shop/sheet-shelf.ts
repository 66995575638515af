import type { Sheet, SheetId } from '../../reasoner/index.ts';
import type { OpenedSheet, SavedSheet, SheetSummary } from '../answers.ts';
import type { Door } from '../driver/door.ts';
import { checkMadeAgainst, type MadeAgainst } from '../driver/made-against.ts';
import { versionOf } from '../driver/version.ts';
import { atlasStands } from '../graph/atlas-guard.ts';
import { editionOf } from '../graph/read-atlas.ts';
import type { Asked } from '../read/asked.ts';
import { checkSheet, parseSheet } from '../sheets/read-sheet.ts';
import { done, type Outcome, TroubleError, trouble } from '../trouble.ts';
import { numberOfCase } from './case-number.ts';
import { entryKept, type Judged } from './kept-cases.ts';
import { heldSheet, knownTo, listSheets, openSheet, ownStands, sheetSaved } from './kept-sheets.ts';
import { openedSheet } from './opened-sheet.ts';
import { sheetRemoved } from './sheet-removed.ts';
import { unitNumbersKept } from './unit-numbers.ts';

/** Sheets: the shop's own, and the samples of the packs. */
export interface SheetShelf {
  list(): Promise<Outcome<readonly SheetSummary[]>>;
  open(id: SheetId): Promise<Outcome<Sheet>>;
  /** With what saving or removing it is made against, and who saved it when. */
  opened(id: SheetId): Promise<Outcome<OpenedSheet>>;
  /**
   * Holds the sheet against the atlas, then saves it as the shop's own, with its case and the verdict it was judged by: all of it or
   * nothing. `atlas-changed` when the verdict is of another edition than the atlas now is; judge it again then. `changed-since` when it was made
   * against another sheet than opening it would now give.
   */
  save(sheet: Sheet, judged: Judged, madeAgainst?: MadeAgainst): Promise<Outcome<SavedSheet>>;
  /**
   * Takes an own sheet off the shelf, its case and the photographs no other case shows with it. The case's number is not given again. `changed-since` where the whole (`opened`)
   * is not what it was decided of.
   */
  remove(id: SheetId, madeAgainst?: MadeAgainst): Promise<Outcome<null>>;
  /** Reads the text of a sheet file against the atlas; nothing is saved. `file` is only named in troubles. */
  read(text: string, file: string): Promise<Outcome<Sheet>>;
  /** Holds a sheet from anywhere against the atlas. */
  check(sheet: Sheet): Promise<Outcome<Sheet>>;
}

export const sheetShelf = ({ read, write, now }: Door, { slipOf }: Pick<Asked, 'slipOf'>): SheetShelf => ({
  list: () => read(listSheets),
  open: (id) => read((reader) => openSheet(reader, id)),
  opened: (id) => read((reader) => openedSheet(reader, id)),
  save: async (sheet, judged, madeAgainst) => {
    const at = now();
    const saved = await write(async (reader) => {
      const known = await knownTo(reader, sheet);
      valueIn(checkSheet(sheet, known));
      if (judged.verdict.edition !== (await editionOf(reader))) throw new TroubleError(atlasChanged(sheet.id));
      const held = await heldSheet(reader, sheet.id);
      checkMadeAgainst(madeAgainst, held.sheet, `sheet ${sheet.id}`, `The sheet "${sheet.id}"`, sheet);
      const { statement, summary } = sheetSaved(sheet, at.toISOString());
      const kept = await entryKept(reader, sheet, judged, at);
      const numbers = unitNumbersKept(sheet, (feature) => known.feature(feature)?.says);
      const guards = [await atlasStands(reader, atlasChanged(sheet.id)), ownStands(sheet.id, held.own), ...kept.guards];
      const statements = [statement, ...kept.statements, ...numbers];
      return { batch: { guards, statements }, value: { ...summary, version: versionOf(sheet) } };
    });
    if (!saved.ok) return saved;
    // The store itself gave it.
    const number = await read((reader) => numberOfCase(reader, sheet.id));
    return number.ok ? done({ ...saved.value, number: number.value }) : number;
  },
  remove: (id, madeAgainst) => write(async (reader) => ({ batch: await sheetRemoved(reader, id, madeAgainst), value: null })),
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
