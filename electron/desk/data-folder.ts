import { homedir } from 'node:os';
import path from 'node:path';
// Not by the door of the room: hosts ask here where the data is, and load no store.
import { defaultAtMost } from '../../db/backups/at-most.ts';
import type { BackupPlace } from '../../db/index.ts';

/**
 * Where the atlas and the shop's sheets are kept when nothing else is asked for: the place the system gives a
 * program's own data of one user (XDG Base Directory on Linux, and its like elsewhere). $KINPLATE_DATA overrides it.
 */
export const defaultDataFolder = (
  env: Readonly<Record<string, string | undefined>> = process.env,
  platform: NodeJS.Platform = process.platform,
  home: string = homedir(),
): string => {
  const named = env.KINPLATE_DATA;
  if (named !== undefined && named !== '') return path.resolve(named);
  switch (platform) {
    case 'darwin':
      return path.join(home, 'Library', 'Application Support', 'Kinplate');
    case 'win32':
      return path.join(env.LOCALAPPDATA ?? path.join(home, 'AppData', 'Local'), 'Kinplate');
    default: {
      const xdg = env.XDG_DATA_HOME;
      // The specification says to ignore a relative path here.
      return path.join(xdg !== undefined && path.isAbsolute(xdg) ? xdg : path.join(home, '.local', 'share'), 'kinplate');
    }
  }
};

type Environment = Readonly<Record<string, string | undefined>>;

/** How many bytes backups may take: what $KINPLATE_BACKUPS_MIB says, null where it says nothing, or a sentence where it says no such thing. */
export const backupBytes = (env: Environment = process.env): number | null | string => {
  const said = env.KINPLATE_BACKUPS_MIB ?? '';
  if (said.trim() === '') return null;
  const mebibytes = Number(said);
  return mebibytes > 0 && Number.isFinite(mebibytes)
    ? mebibytes * 2 ** 20
    : `$KINPLATE_BACKUPS_MIB is “${said}”. It takes the number of MiB that all backups together may take, above 0. Nothing was changed.`;
};

/** Where the backups of an atlas file are kept, and in how many bytes at most where that is said. */
export const backupsOf = (file: string, env: Environment = process.env): { readonly folder: string; readonly atMost?: number } => {
  const folder = path.join(path.dirname(file), 'backups');
  const atMost = backupBytes(env);
  return typeof atMost === 'number' ? { folder, atMost } : { folder };
};

/** What keeps room on the disk beside an atlas file, so that there is enough to remove something when it is full. */
export const reserveOf = (file: string): string => path.join(path.dirname(file), 'room-to-remove');

/** The atlas file of a data folder. */
export const atlasFile = (folder: string): string => path.join(folder, 'atlas.sqlite');

/** The backups of a data folder, whether or not its atlas can be opened. */
export const backupPlace = (folder: string, now: () => Date): BackupPlace => {
  const file = atlasFile(folder);
  return { file, now, atMost: defaultAtMost, ...backupsOf(file) };
};
