import type { Sheet, SheetId } from '../../reasoner/index.ts';
import type { Door } from '../driver/door.ts';
import type { MadeAgainst } from '../driver/made-against.ts';
import type { Outcome } from '../trouble.ts';
import type { CaseDetails, CaseFile, CaseFilter, CaseSummary, HereBefore, ParcelSeen, ShopWord, TakenInCase } from './case.ts';
import { sayingsOf, wordSaid } from './case-words.ts';
import { givenElsewhere } from './given-elsewhere.ts';
import { caseDescribed, openCaseFile } from './kept-cases.ts';
import { caseLeft, countTold, type LastTold, type Leaving, lastTold } from './kept-told.ts';
import { listCases } from './list-cases.ts';

import { readParcel } from './parcel/read-parcel.ts';
import { parcelSeen, parcelTakenIn } from './parcel/take-in.ts';
import { writeParcel } from './parcel/write-parcel.ts';
import { casesBefore } from './unit-numbers.ts';

/** Case files: one for every sheet the shop has saved. */
export interface CaseShelf {
  /** Saved last first. */
  list(filter: CaseFilter): Promise<Outcome<readonly CaseSummary[]>>;
  /** As it stands, or as it stood at an instant (ISO). */
  open(sheet: SheetId, asOf: string | null): Promise<Outcome<CaseFile>>;
  /** Words beside the sheet, and who wrote them. `changed-since` when they were made against other words than those that are there. */
  describe(sheet: SheetId, details: CaseDetails, madeAgainst?: MadeAgainst, who?: string): Promise<Outcome<CaseFile>>;
  /**
   * Writes down what the shop or the maker decided; null takes back what holds. Saying the same again keeps nothing. `changed-since` when
   * another saying is the last than the one it was made against (`version` of a `Saying`; null where there was none).
   */
  say(sheet: SheetId, word: ShopWord | null, who: string, madeAgainst?: MadeAgainst): Promise<Outcome<CaseFile>>;
  /** What holds of what was said; null for a sheet without a case, and where nothing was said or it was taken back. */
  word(sheet: SheetId): Promise<Outcome<ShopWord | null>>;
  /** Other cases that have a number stamped on this sheet's unit, saved or not. */
  before(sheet: Sheet): Promise<Outcome<HereBefore>>;
  /** What every case was told last, to be held against today's atlas. */
  lastTold(): Promise<Outcome<readonly LastTold[]>>;
  /** How many those are. */
  countTold(): Promise<Outcome<number>>;
  /** Leaves a case as it was told, for a reason. `changed-since` where another entry is the last. */
  leave(sheet: SheetId, leaving: Omit<Leaving, 'at'>): Promise<Outcome<CaseFile>>;
  /** The one file that holds the whole case with its photographs, a ZIP: the same case, the same bytes. `case-file-too-large`, `photo-altered`. */
  write(sheet: SheetId): Promise<Outcome<{ readonly number: string; readonly bytes: Buffer }>>;
  /** What such a file holds, verified, beside what is here. `file` is only named in troubles: `case-file-unreadable`, `-invalid`, `-too-large`, and as of photographs and sheets. */
  look(bytes: Buffer, file: string): Promise<Outcome<ParcelSeen>>;
  /**
   * Takes it in, whole or not at all, under the next number of this shop. `case-is-here` where a case of its sheet is here, unless it is taken in as another (`as`: the id it
   * gets then).
   */
  takeIn(bytes: Buffer, file: string, how: { readonly as: SheetId | null; readonly who: string }): Promise<Outcome<TakenInCase>>;
}

export const caseShelf = ({ one, read, write, now }: Door): CaseShelf => ({
  list: (filter) => read((reader) => listCases(reader, filter)),
  open: (sheet, asOf) => read((reader) => openCaseFile(reader, sheet, asOf)),
  describe: async (sheet, details, madeAgainst, who = '') => {
    const by = { at: now().toISOString(), who };
    const written = await write(async (reader) => ({ batch: await caseDescribed(reader, sheet, details, by, madeAgainst), value: null }));
    return written.ok ? read((reader) => openCaseFile(reader, sheet, null)) : written;
  },
  say: async (sheet, word, who, madeAgainst) => {
    const at = now().toISOString();
    const written = await write(async (reader) => ({ batch: await wordSaid(reader, sheet, { word, who, at }, madeAgainst), value: null }));
    return written.ok ? read((reader) => openCaseFile(reader, sheet, null)) : written;
  },
  word: (sheet) => read(async (reader) => (await sayingsOf(reader, sheet)).at(-1)?.word ?? null),
  before: (sheet) => read((reader) => casesBefore(reader, sheet)),
  lastTold: () => read(lastTold),
  countTold: () => one(countTold),
  leave: async (sheet, leaving) => {
    const at = now().toISOString();
    const left = await write(async (reader) => ({ batch: await caseLeft(reader, sheet, { ...leaving, at }), value: null }));
    return left.ok ? read((reader) => openCaseFile(reader, sheet, null)) : left;
  },
  write: (sheet) =>
    read(async (reader) => ({
      number: (await openCaseFile(reader, sheet, null)).number,
      bytes: await writeParcel(reader, sheet),
    })),
  look: async (bytes, file) => {
    const parcel = await readParcel(bytes, file);
    return parcel.ok ? read((reader) => parcelSeen(reader, parcel.value)) : parcel;
  },
  takeIn: async (bytes, file, { as, who }) => {
    const parcel = await readParcel(bytes, file);
    if (!parcel.ok) return parcel;
    const sheet = as ?? parcel.value.parcel.sheet.id;
    const at = now();
    const taken = await write(async (reader) => ({
      batch: await parcelTakenIn(reader, parcel.value, { sheet, who, now: at }),
      value: await givenElsewhere(reader, parcel.value.parcel.number, parcel.value.parcel.sheet.id),
    }));
    if (!taken.ok) return taken;
    return read(async (reader) => ({ sheet, number: (await openCaseFile(reader, sheet, null)).number, elsewhere: taken.value }));
  },
});
