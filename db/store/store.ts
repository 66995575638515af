import type { Atlas, FamilyId, MakerId, ModelId, PartId, Sheet, SheetId } from '../../reasoner/index.ts';
import type {
  DescentAnswer,
  FamilyPage,
  FitsAnswer,
  MakerPage,
  ModelPage,
  NodeRef,
  PartPage,
  RelatedAnswer,
  SearchHit,
  SheetSummary,
  TreeAnswer,
  TreeParts,
  Vocabulary,
} from '../answers.ts';
import type { CaseDetails, CaseFile, CaseFilter, CasePhoto, CaseSummary, PhotoAbout, PhotoId } from '../cases/case.ts';
import type { PhotoBytes, PhotoToAdd } from '../cases/case-photos.ts';
import type { Judged } from '../cases/case-shelf.ts';
import type { RecoveredCases } from '../cases/recover-cases.ts';
import type { LearningShelf } from '../drills/learning-shelf.ts';
import type { Loaded, LoadOptions } from '../packs/load.ts';
import type { Outcome } from '../trouble.ts';
import type { JudgeFit } from './fits.ts';
import type { NodeKey } from './related-nodes.ts';

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

  /** Takes a pack out, its samples with it; own sheets stay. */
  removePack(id: string): Promise<Outcome<null>>;
  /** Writes a loaded pack into a new folder: what was loaded, in canonical form. */
  exportPack(id: string, folder: string): Promise<Outcome<null>>;

  vocabulary(): Promise<Outcome<Vocabulary>>;
  /** Names and part numbers, as one types. */
  search(text: string, limit: number): Promise<Outcome<readonly SearchHit[]>>;
  maker(id: MakerId): Promise<Outcome<MakerPage>>;
  family(id: FamilyId): Promise<Outcome<FamilyPage>>;
  model(id: ModelId): Promise<Outcome<ModelPage>>;
  part(id: PartId): Promise<Outcome<PartPage>>;
  /** What else a part fits, judged by the function handed in. */
  fits(part: PartId, judge: JudgeFit): Promise<Outcome<FitsAnswer>>;
  descent(family: FamilyId): Promise<Outcome<DescentAnswer>>;
  /** The shortest reason two families are related. */
  related(a: FamilyId, b: FamilyId): Promise<Outcome<RelatedAnswer>>;
  /** The shortest reason any two nodes are related, be they makers, families, generations, models or parts. */
  relatedNodes(a: NodeKey, b: NodeKey): Promise<Outcome<RelatedAnswer>>;
  /** Makers, families, generations and models with their lines and what they share. */
  tree(): Promise<Outcome<TreeAnswer>>;
  treeParts(models: readonly ModelId[]): Promise<Outcome<readonly TreeParts[]>>;
  /** The line of parts that took each other's place, oldest first. */
  supersession(part: PartId): Promise<Outcome<readonly NodeRef[]>>;
  /** Models one and the same core may be right for. */
  sharesCore(model: ModelId): Promise<Outcome<readonly NodeRef[]>>;

  listSheets(): Promise<Outcome<readonly SheetSummary[]>>;
  openSheet(id: SheetId): Promise<Outcome<Sheet>>;
  /**
   * Holds the sheet against the atlas, then saves it as the shop's own, with its case and the verdict it was judged by: all of it or
   * nothing. `atlas-changed` when the verdict is of another edition than the atlas now is; judge it again then.
   */
  saveSheet(sheet: Sheet, judged: Judged): Promise<Outcome<SheetSummary>>;
  /** Takes an own sheet off the shelf, its case and the photographs no other case shows with it. The case's number is not given again. */
  removeSheet(id: SheetId): Promise<Outcome<null>>;
  /** Reads the text of a sheet file against the atlas; nothing is saved. `file` is only named in troubles. */
  readSheet(text: string, file: string): Promise<Outcome<Sheet>>;
  /** Holds a sheet from anywhere against the atlas. */
  checkSheet(sheet: Sheet): Promise<Outcome<Sheet>>;

  /** Puts back what `recoverCases` read out of a damaged file, before the sheets themselves are saved; a case that is there stays as it is. */
  putBackCases(recovered: Pick<RecoveredCases, 'cases' | 'numbers'>): Promise<Outcome<null>>;
  /** Saved last first. */
  listCases(filter: CaseFilter): Promise<Outcome<readonly CaseSummary[]>>;
  /** As it stands, or as it stood at an instant (ISO). */
  openCase(sheet: SheetId, asOf: string | null): Promise<Outcome<CaseFile>>;
  describeCase(sheet: SheetId, details: CaseDetails): Promise<Outcome<CaseFile>>;
  /** Cleans, then stores; `photo-unreadable`, `photo-damaged`, `photo-too-large`, `photos-too-many`. Gives the case's photographs. */
  addPhoto(sheet: SheetId, photo: PhotoToAdd): Promise<Outcome<readonly CasePhoto[]>>;
  describePhoto(sheet: SheetId, photo: PhotoId, caption: string, about: PhotoAbout | null): Promise<Outcome<readonly CasePhoto[]>>;
  removePhoto(sheet: SheetId, photo: PhotoId): Promise<Outcome<readonly CasePhoto[]>>;
  photo(photo: PhotoId, which: 'whole' | 'thumbnail'): Promise<Outcome<PhotoBytes>>;

  /** Learners, courses, and what each has answered. */
  readonly learning: LearningShelf;

  close(): Promise<void>;
}
