import { caseShelf } from '../cases/case-shelf.ts';
import { photoShelf } from '../cases/photo-shelf.ts';
import { learningShelf } from '../drills/learning-shelf.ts';
import type { Driver } from '../driver/driver.ts';
import type { Asked } from '../packs/pack.ts';
import { packShelf } from '../packs/pack-shelf.ts';
import { sheetShelf } from '../sheets/sheet-shelf.ts';
import { atlasShelf } from './atlas-shelf.ts';
import { doorTo } from './door.ts';
import { graphShelf } from './graph-shelf.ts';
import type { FitEngine } from './keep-fits.ts';
import type { Store } from './store.ts';

export interface Setting {
  readonly now: () => Date;
  readonly asked: Asked;
  readonly fitEngine: FitEngine | undefined;
  readonly migrated: readonly number[];
  readonly writable: boolean;
}

/** The store over an open driver whose schema is up to date. */
export const storeOver = (driver: Driver, setting: Setting): Store => {
  const door = doorTo(driver, setting.now, setting.writable);
  return {
    file: driver.file,
    writable: setting.writable,
    migrated: setting.migrated,
    atlas: atlasShelf(door),
    packs: packShelf(door, setting),
    graph: graphShelf(door, setting),
    sheets: sheetShelf(door, setting.asked),
    cases: caseShelf(door),
    photos: photoShelf(door),
    learning: learningShelf(door),
    close: () => driver.close(),
  };
};
