import { readdir } from 'node:fs/promises';
import path from 'node:path';
import { mendedBeside } from '../driver/open-sqlite.ts';
import { sizeOf } from '../plain/files.ts';
import { type Trouble, trouble } from '../trouble.ts';
import { namedIn } from './folder.ts';

/** The file a first start leaves in the data folder: that there was an atlas is then known even where nothing else is left of it. */
export const beganFile = 'began-here.txt';

/**
 * Null where the atlas file is there and has something in it, or where there never was one. Else the trouble `atlas-missing`: the file is gone, or is empty, and something beside it shows that there was one: backups,
 * what a mending took out or set aside, a log, or the note of the first start. A mending that was interrupted is for mending to tell.
 */
export const missingAtlas = async (file: string, backups: string): Promise<Trouble | null> => {
  const size = await sizeOf(file);
  if (size !== null && size > 0) return null;
  // With a journal beside it, it is damaged: opening says so, and mending reads what was saved last.
  if ((await sizeOf(mendedBeside(file))) !== null || ((await sizeOf(`${file}-wal`)) ?? 0) > 0) return null;
  const folder = path.dirname(file);
  const names: readonly string[] = await readdir(folder).catch(() => []);
  const held = await namedIn(backups).catch(() => []);
  const name = path.basename(file);
  const traces = [
    held.length === 0
      ? null
      : held.length === 1
        ? '1 backup'
        : `${held.length} backups, the newest of ${held[0]?.at.slice(0, 16).replace('T', ' ')} UTC`,
    names.some((one) => one.startsWith(`${name}.damaged-`)) ? 'a damaged atlas that was set aside' : null,
    names.some((one) => one.startsWith('recovered-')) ? 'what a mending took out of a damaged atlas' : null,
    names.includes('logs') ? 'the log of an earlier run' : null,
    names.includes(beganFile) ? 'the note of its first start' : null,
  ].filter((trace) => trace !== null);
  if (traces.length === 0) return null;
  const listed = traces.length === 1 ? traces[0] : `${traces.slice(0, -1).join(', ')} and ${traces.at(-1)}`;
  return trouble(
    'atlas-missing',
    file,
    `${size === null ? 'The atlas file is gone' : 'The atlas file is empty'}, and there was an atlas here: ${listed} ${traces.length === 1 ? 'is' : 'are'} still in the folder. Nothing was made in its place. ${held.length === 0 ? 'No backup is left to put back: say' : 'Put a backup back (kinplate restore), or say'} that you want to begin anew (kinplate anew): ${file}`,
  );
};
