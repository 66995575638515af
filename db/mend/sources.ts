import { readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { cleanPhoto } from '../photos/clean-photo.ts';
import { namesIn, timeIn } from '../plain/files.ts';
import type { Layout } from '../salvage/salvage.ts';
import { photoIdOf } from '../shop/case-photos.ts';
import type { SheetFile, Sources } from './gathering.ts';
import { sheetIn } from './sheet-in.ts';
import { type KeptPhoto, openSource, type Source } from './source.ts';

/** Everything beside a damaged atlas that may hold a copy of what it held: backups, and what was written aside before. */
export interface OpenSources extends Sources {
  close(): void;
}

/** Names in a folder; none where something else has its name, which is no reason not to mend. */
const copiesIn = (folder: string): Promise<string[]> =>
  namesIn(folder).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOTDIR') return [];
    throw error;
  });

/** @param damaged the file, where it stands now */
export const openSources = async (folder: string, damaged: string, layouts: readonly Layout[]): Promise<OpenSources> => {
  const backupFolder = join(folder, 'backups');
  const backupFiles = (await copiesIn(backupFolder))
    .filter((name) => name.endsWith('.sqlite') && timeIn(name) !== null)
    .sort((a, b) => (String(timeIn(a)) < String(timeIn(b)) ? 1 : -1));
  const aside = (await namesIn(folder))
    .filter((name) => /^recovered-[^.]*$/.test(name))
    .sort()
    .reverse();
  const asideFiles: { readonly path: string; readonly at: string | null }[] = [];
  for (const name of aside)
    for (const inner of ['.', 'photographs'])
      for (const file of (await copiesIn(join(folder, name, inner))).sort())
        asideFiles.push({ path: join(folder, name, inner, file), at: timeIn(name) });

  const own = openSource(damaged, null, layouts);
  let backups: readonly Source[] | null = null;
  return {
    damaged: own,
    backups: () => {
      backups ??= backupFiles.flatMap((name) => {
        try {
          return [openSource(join(backupFolder, name), timeIn(name), layouts)];
        } catch {
          // A copy that cannot be read is no copy.
          return [];
        }
      });
      return backups;
    },
    sheetFiles: () => asideFiles.filter(({ path }) => path.endsWith('.json')).flatMap(({ path, at }) => sheetOfFile(path, at) ?? []),
    photoFile: (id) => {
      // One may have been spoilt since by itself.
      for (const { path, at } of asideFiles) {
        const photo = basename(path).startsWith(id) ? photoIn(path, id, at) : null;
        if (photo !== null) return photo;
      }
      return null;
    },
    close: () => {
      for (const source of [own, ...(backups ?? [])]) source.close();
    },
  };
};

const sheetOfFile = (path: string, at: string | null): SheetFile | null => {
  const sheet = sheetIn(textIn(path));
  if (sheet === null) return null;
  return { file: join(basename(dirname(path)), basename(path)), at, id: sheet.id, body: JSON.stringify(sheet) };
};

const textIn = (path: string): string => {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
};

const photoIn = (path: string, id: string, at: string | null): KeptPhoto | null => {
  let bytes: Buffer;
  try {
    bytes = readFileSync(path);
  } catch {
    return null;
  }
  const read = photoIdOf(bytes) === id ? cleanPhoto(bytes, id) : null;
  if (!read?.ok) return null;
  const { type, width, height } = read.value;
  const row = { id, type, width, height, size: bytes.length, bytes, thumbnail_type: null, thumbnail: null };
  return { id, small: false, from: { file: join(basename(dirname(path)), basename(path)), at }, read: () => row };
};
