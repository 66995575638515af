import { dirname } from 'node:path';
import { backupShelf } from '../backups/backup-shelf.ts';
import type { BackupPlace } from '../backups/make-backup.ts';
import { doorTo } from '../driver/door.ts';
import type { Driver } from '../driver/driver.ts';
import { changeShelf } from '../edits/change-shelf.ts';
import { atlasShelf } from '../graph/atlas-shelf.ts';
import { graphShelf } from '../graph/graph-shelf.ts';
import type { FitEngine } from '../graph/keep-fits.ts';
import { packShelf } from '../packs/pack-shelf.ts';
import type { Asked } from '../read/asked.ts';
import { caseShelf } from '../shop/case-shelf.ts';
import { documentShelf } from '../shop/document-shelf.ts';
import { learningShelf } from '../shop/learning-shelf.ts';
import { photoShelf } from '../shop/photo-shelf.ts';
import { priceShelf } from '../shop/price-shelf.ts';
import { sampleShelf } from '../shop/sample-shelf.ts';
import { settingsShelf } from '../shop/settings-shelf.ts';
import { sheetShelf } from '../shop/sheet-shelf.ts';
import { stockShelf } from '../shop/stock-shelf.ts';
import { keyShelf } from '../signing/key-shelf.ts';
import { templateShelf } from '../tables/template-shelf.ts';
import type { Store } from './store.ts';

export interface Setting {
  readonly now: () => Date;
  readonly asked: Asked;
  readonly fitEngine: FitEngine | undefined;
  readonly migrated: readonly number[];
  readonly writable: boolean;
  /** The folder in which the atlas is kept as it was read; nowhere without it. */
  readonly keptIn?: string | undefined;
  /** Where backups are kept; none are made without it. */
  readonly backups?: BackupPlace | undefined;
}

/** The store over an open driver whose schema is up to date. */
export const storeOver = (driver: Driver, setting: Setting): Store => {
  const door = doorTo(driver, setting.now, setting.writable);
  const backups = backupShelf(door, setting.backups ?? null);
  return {
    file: driver.file,
    writable: setting.writable,
    migrated: setting.migrated,
    atlas: atlasShelf(door, setting.keptIn ?? null),
    packs: packShelf(door, {
      ...setting,
      keys: dirname(driver.file),
      backUp: setting.backups === undefined ? null : () => backups.make('before-pack'),
    }),
    changes: changeShelf(door, setting),
    graph: graphShelf(door, setting),
    sheets: sheetShelf(door, setting.asked),
    cases: caseShelf(door),
    photos: photoShelf(door),
    learning: learningShelf(door),
    keys: keyShelf(door, driver.file),
    settings: settingsShelf(door),
    stock: stockShelf(door),
    samples: sampleShelf(door),
    prices: priceShelf(door),
    documents: documentShelf(door),
    templates: templateShelf(door),
    backups,
    close: () => driver.close(),
  };
};
