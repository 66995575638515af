import type { BackupShelf } from '../backups/backup-shelf.ts';
import type { ChangeShelf } from '../edits/change-shelf.ts';
import type { AtlasShelf } from '../graph/atlas-shelf.ts';
import type { GraphShelf } from '../graph/graph-shelf.ts';
import type { PackShelf } from '../packs/pack-shelf.ts';
import type { CaseShelf } from '../shop/case-shelf.ts';
import type { DocumentShelf } from '../shop/document-shelf.ts';
import type { LearningShelf } from '../shop/learning-shelf.ts';
import type { PhotoShelf } from '../shop/photo-shelf.ts';
import type { PriceShelf } from '../shop/price-shelf.ts';
import type { SampleShelf } from '../shop/sample-shelf.ts';
import type { SettingsShelf } from '../shop/settings-shelf.ts';
import type { SheetShelf } from '../shop/sheet-shelf.ts';
import type { StockShelf } from '../shop/stock-shelf.ts';
import type { KeyShelf } from '../signing/key-shelf.ts';
import type { TemplateShelf } from '../tables/template-shelf.ts';

/**
 * The atlas on disk, in shelves. Every answer is a value; what can go wrong comes back as a trouble, and only a bug throws
 * (reading the whole atlas alone throws its trouble).
 */
export interface Store {
  readonly file: string;
  /** False when the file, or how it was opened, lets nothing be saved. */
  readonly writable: boolean;
  /** Numbers of the migrations this opening has run. */
  readonly migrated: readonly number[];

  readonly atlas: AtlasShelf;
  readonly packs: PackShelf;
  readonly changes: ChangeShelf;
  readonly graph: GraphShelf;
  readonly sheets: SheetShelf;
  readonly cases: CaseShelf;
  readonly photos: PhotoShelf;
  /** Learners, courses, and what each has answered. */
  readonly learning: LearningShelf;
  /** What the shop says of itself. */
  readonly settings: SettingsShelf;
  /** What lies on its shelves. */
  readonly stock: StockShelf;
  /** What was seen and measured, in cases, of parts of the atlas. */
  readonly samples: SampleShelf;
  /** What it asks for parts. */
  readonly prices: PriceShelf;
  /** Papers it keeps beside sources and parts. */
  readonly documents: DocumentShelf;
  readonly backups: BackupShelf;
  /** The shop's own key, and whom it trusts. */
  readonly keys: KeyShelf;
  /** How the shop’s own tables are matched. */
  readonly templates: TemplateShelf;

  close(): Promise<void>;
}
