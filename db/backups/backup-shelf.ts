import type { Door } from '../driver/door.ts';
import type { Version } from '../driver/version.ts';
import { type Outcome, TroubleError, trouble } from '../trouble.ts';
import type { Backup, BackupReason, Backups, Restored, RestorePreview } from './backup.ts';
import { hasChanged } from './changed.ts';
import { backupsIn, namedIn } from './folder.ts';
import { type BackupPlace, makeBackup } from './make-backup.ts';
import { chosenBackup, previewRestore, restoreBackup } from './restore.ts';

/** The backups of an atlas file, made and put back while it is in use. */
export interface BackupShelf {
  list(): Promise<Outcome<Backups>>;
  /** When the newest was made, by its name alone (ISO); null where there is none. */
  lastMade(): Promise<Outcome<string | null>>;
  /** `backup-failed` with why it could not be made. */
  make(reason: BackupReason): Promise<Outcome<Backup>>;
  /** Makes one, unless it is `stopped` meanwhile, where the atlas is no longer what the newest sound one holds; null where it is. */
  makeIfChanged(reason: BackupReason, stopped?: () => boolean): Promise<Outcome<Backup | null>>;
  /** What restoring it would come to; nothing is changed. `elsewhere`: it may be a copy outside of the folder, by its path. */
  preview(named: string, elsewhere?: boolean): Promise<Outcome<RestorePreview>>;
  /** Puts it back. `changed-since` where the atlas is no longer the one the preview was made against. */
  restore(named: string, madeAgainst: Version, elsewhere?: boolean): Promise<Outcome<Restored>>;
}

/** @param place null for an atlas in memory, or one that is opened for reading only */
export const backupShelf = ({ tell }: Pick<Door, 'tell'>, place: BackupPlace | null): BackupShelf => {
  let failed: Backups['failed'] = null;
  const placed = (): BackupPlace => {
    if (place === null)
      throw new TroubleError(
        trouble('backup-failed', null, 'This atlas has no folder for backups, so none is made of it. Nothing was changed.'),
      );
    return place;
  };
  const making = async (reason: BackupReason, stopped = () => false): Promise<Outcome<Backup>> => {
    const made = await tell(() => makeBackup({ ...placed(), stopped }, reason));
    failed = made.ok ? null : { at: (place?.now() ?? new Date()).toISOString(), sentence: made.trouble.sentence };
    return made;
  };
  return {
    list: () =>
      tell(async () => {
        if (place === null) return { folder: '', backups: [], atMost: 0, failed };
        return { folder: place.folder, backups: await backupsIn(place.folder), atMost: place.atMost, failed };
      }),
    lastMade: () => tell(async () => (place === null ? null : ((await namedIn(place.folder))[0]?.at ?? null))),
    make: (reason) => making(reason),
    makeIfChanged: async (reason, stopped) => {
      const changed = await tell(() => hasChanged(placed()));
      if (!changed.ok) return changed;
      return changed.value ? making(reason, stopped) : { ok: true, value: null };
    },
    preview: (named, elsewhere = false) => tell(async () => previewRestore(placed(), await chosenBackup(placed(), named, elsewhere), true)),
    restore: (named, madeAgainst, elsewhere = false) =>
      tell(async () => restoreBackup(placed(), await chosenBackup(placed(), named, elsewhere), madeAgainst)),
  };
};
