import { homedir } from 'node:os';
import path from 'node:path';
import { type BackupPlace, defaultAtMost } from '../../db/index.ts';

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

/** Where the backups of an atlas file are kept, and in how many bytes at most where $KINPLATE_BACKUPS_MIB says so. */
export const backupsOf = (
  file: string,
  env: Readonly<Record<string, string | undefined>> = process.env,
): { readonly folder: string; readonly atMost?: number } => {
  const folder = path.join(path.dirname(file), 'backups');
  const mebibytes = Number(env.KINPLATE_BACKUPS_MIB);
  return mebibytes > 0 && Number.isFinite(mebibytes) ? { folder, atMost: mebibytes * 2 ** 20 } : { folder };
};

/** The atlas file of a data folder. */
export const atlasFile = (folder: string): string => path.join(folder, 'atlas.sqlite');

/** The backups of a data folder, whether or not its atlas can be opened. */
export const backupPlace = (folder: string, now: () => Date): BackupPlace => {
  const file = atlasFile(folder);
  return { file, now, atMost: defaultAtMost, ...backupsOf(file) };
};
