import type { Sheet, SheetId } from '../../reasoner/index.ts';
import type { Door } from '../driver/door.ts';
import type { MadeAgainst } from '../driver/made-against.ts';
import type { Outcome } from '../trouble.ts';
import type { CaseDetails, CaseFile, CaseFilter, CaseSummary, HereBefore, ShopWord } from './case.ts';
import { sayingsOf, wordSaid } from './case-words.ts';
import { caseDescribed, openCaseFile } from './kept-cases.ts';
import { listCases } from './list-cases.ts';

import { casesBefore } from './unit-numbers.ts';

/** Case files: one for every sheet the shop has saved. */
export interface CaseShelf {
  /** Saved last first. */
  list(filter: CaseFilter): Promise<Outcome<readonly CaseSummary[]>>;
  /** As it stands, or as it stood at an instant (ISO). */
  open(sheet: SheetId, asOf: string | null): Promise<Outcome<CaseFile>>;
  /** Words beside the sheet. `changed-since` when they were made against other words than those that are there. */
  describe(sheet: SheetId, details: CaseDetails, madeAgainst?: MadeAgainst): Promise<Outcome<CaseFile>>;
  /**
   * Writes down what the shop or the maker decided; null takes back what holds. Saying the same again keeps nothing. `changed-since` when
   * another saying is the last than the one it was made against (`version` of a `Saying`; null where there was none).
   */
  say(sheet: SheetId, word: ShopWord | null, who: string, madeAgainst?: MadeAgainst): Promise<Outcome<CaseFile>>;
  /** What holds of what was said; null for a sheet without a case, and where nothing was said or it was taken back. */
  word(sheet: SheetId): Promise<Outcome<ShopWord | null>>;
  /** Other cases that have a number stamped on this sheet's unit, saved or not. */
  before(sheet: Sheet): Promise<Outcome<HereBefore>>;
}

export const caseShelf = ({ read, write, now }: Door): CaseShelf => ({
  list: (filter) => read((reader) => listCases(reader, filter)),
  open: (sheet, asOf) => read((reader) => openCaseFile(reader, sheet, asOf)),
  describe: async (sheet, details, madeAgainst) => {
    const at = now().toISOString();
    const written = await write(async (reader) => ({ batch: await caseDescribed(reader, sheet, details, at, madeAgainst), value: null }));
    return written.ok ? read((reader) => openCaseFile(reader, sheet, null)) : written;
  },
  say: async (sheet, word, who, madeAgainst) => {
    const at = now().toISOString();
    const written = await write(async (reader) => ({ batch: await wordSaid(reader, sheet, { word, who, at }, madeAgainst), value: null }));
    return written.ok ? read((reader) => openCaseFile(reader, sheet, null)) : written;
  },
  word: (sheet) => read(async (reader) => (await sayingsOf(reader, sheet)).at(-1)?.word ?? null),
  before: (sheet) => read((reader) => casesBefore(reader, sheet)),
});
