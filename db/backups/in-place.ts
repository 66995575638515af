import { tellAbout } from '../driver/door.ts';
import type { Outcome } from '../trouble.ts';
import type { Backups, Restored, RestorePreview } from './backup.ts';
import { backupsIn } from './folder.ts';
import type { BackupPlace } from './make-backup.ts';
import { chosenBackup, previewRestore, putBackAsItIs, restoreInPlaceOf } from './restore.ts';

/** What can be done about an atlas file nobody has open, whether or not it can be opened. */
export interface InPlace {
  list(): Promise<Outcome<Backups>>;
  /** What a backup would bring back where there is nothing that can be read. */
  preview(named: string): Promise<Outcome<RestorePreview>>;
  /** Puts a backup where the atlas is missing, empty or damaged. */
  restore(named: string): Promise<Outcome<Restored>>;
  /** Puts a backup's file there byte for byte. `usable`: the atlas there can be opened, and goes into a backup first. */
  asItIs(named: string, usable: boolean): Promise<Outcome<Restored>>;
}

/** A backup may be named by its path here. */
export const backupsInPlace = (place: BackupPlace): InPlace => {
  const tell = tellAbout(place.file);
  return {
    list: () => tell(async () => ({ folder: place.folder, backups: await backupsIn(place.folder), atMost: place.atMost, failed: null })),
    preview: (named) => tell(async () => previewRestore(place, await chosenBackup(place, named, true), false)),
    restore: (named) => tell(async () => restoreInPlaceOf(place, await chosenBackup(place, named, true))),
    asItIs: (named, usable) => tell(async () => putBackAsItIs(place, await chosenBackup(place, named, true), usable)),
  };
};
