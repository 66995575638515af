import { dirname, join } from 'node:path';
import { moveIfThere, namesIn, sideFiles } from '../plain/files.ts';

/** Files of an atlas that were set aside before, newest first. */
export const setAsideBefore = async (file: string): Promise<readonly string[]> => {
  const folder = dirname(file);
  const begin = `${file.slice(folder.length + 1)}.damaged-`;
  const names = (await namesIn(folder)).filter((name) => name.startsWith(begin) && !sideFiles.some((suffix) => name.endsWith(suffix)));
  return names
    .sort()
    .reverse()
    .map((name) => join(folder, name));
};

/** Moves side files to a file's new name; what is not there is there already. */
export const moveSideFiles = async (from: string, to: string): Promise<void> => {
  for (const suffix of sideFiles) await moveIfThere(from + suffix, to + suffix);
};
