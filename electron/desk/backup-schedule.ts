import type { BackupShelf, Trouble } from '../../db/index.ts';

/** A backup is made so often, where something has changed; in milliseconds. */
export const backupEvery = 3_600_000;

export interface BackupSchedule {
  /** Makes a backup where an hour has passed since the last and the atlas is no longer the same. To be called again and again; called while one is being made it does nothing. */
  look(): Promise<void>;
}

/**
 * @param now the clock; one that was set back makes the next look the first again
 * @param stopped whether the program is being closed: a backup under way is then given up, and nobody is told
 * @param failed told why a backup could not be made, once for each that was due
 */
export const backupSchedule = (
  backups: Pick<BackupShelf, 'lastMade' | 'makeIfChanged'>,
  now: () => Date,
  failed: (trouble: Trouble) => void,
  stopped: () => boolean = () => false,
): BackupSchedule => {
  let last: number | null = null;
  let looking = false;
  const due = async (at: number): Promise<boolean> => {
    if (last === null || last > at) {
      const made = await backups.lastMade();
      const before = made.ok && made.value !== null ? Date.parse(made.value) : Number.NaN;
      // None, or one of a time to come: the look is due now.
      last = before <= at ? before : Number.NEGATIVE_INFINITY;
    }
    return at - last >= backupEvery;
  };
  return {
    look: async () => {
      if (looking || stopped()) return;
      looking = true;
      try {
        const at = now().getTime();
        if (!(await due(at))) return;
        last = at;
        const made = await backups.makeIfChanged('hourly', stopped);
        if (!made.ok && !stopped()) failed(made.trouble);
      } finally {
        looking = false;
      }
    },
  };
};
