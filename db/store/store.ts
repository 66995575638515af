import type { Atlas, Sheet, SheetId } from '../../reasoner/index.ts';
import type { SheetSummary } from '../answers.ts';
import type { Loaded, LoadOptions } from '../packs/load.ts';
import type { Outcome } from '../trouble.ts';

export interface PackSummary {
  readonly id: string;
  readonly title: string;
  readonly edition: string;
  readonly invented: boolean;
  readonly note: string;
}

export type LoadPackOptions = Pick<LoadOptions, 'anyEdition' | 'onProgress'>;

/**
 * The atlas on disk. Every answer is a value; what can go wrong comes back as a trouble, and only a bug throws
 * (`readAtlas` alone throws its trouble, as a TroubleError, because without an atlas there is nothing to go on with).
 */
export interface Store {
  readonly file: string;
  /** False when the file, or how it was opened, lets nothing be saved. */
  readonly writable: boolean;
  /** Numbers of the migrations this opening has run. */
  readonly migrated: readonly number[];

  readAtlas(): Promise<Atlas>;
  packs(): Promise<Outcome<readonly PackSummary[]>>;
  /** Loads a folder; all of it or nothing. See `loadPack` for its troubles. */
  loadPack(folder: string, options?: LoadPackOptions): Promise<Outcome<Loaded>>;

  listSheets(): Promise<Outcome<readonly SheetSummary[]>>;
  openSheet(id: SheetId): Promise<Outcome<Sheet>>;
  /** Holds the sheet against the atlas, then saves it as the shop's own. */
  saveSheet(sheet: Sheet): Promise<Outcome<SheetSummary>>;
  removeSheet(id: SheetId): Promise<Outcome<null>>;
  /** Reads the text of a sheet file against the atlas; nothing is saved. `file` is only named in troubles. */
  readSheet(text: string, file: string): Promise<Outcome<Sheet>>;
  /** Holds a sheet from anywhere against the atlas. */
  checkSheet(sheet: Sheet): Promise<Outcome<Sheet>>;

  close(): Promise<void>;
}
