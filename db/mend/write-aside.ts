import { mkdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { sheetText } from '../packs/canonical.ts';
import { namesIn } from '../plain/files.ts';
import type { Gathered } from './gather.ts';
import { sheetIn } from './sheet-in.ts';

/** Sheets as files, and what has no place in the atlas: photographs nobody's case shows, rows of sheets that are lost, packs of the shop's own. */
export const writeAside = async (folder: string, { sheets, strayPhotos, strayRows }: Gathered): Promise<boolean> => {
  const write = (name: string, content: string | Buffer) => writeFile(join(folder, name), content, { flag: 'wx', mode: 0o600 });
  let many = 0;
  for (const { body } of sheets.values()) {
    const sheet = sheetIn(body);
    many += 1;
    // Numbered, because an id may hold what no file name may.
    if (sheet !== null) await write(`${String(many).padStart(4, '0')}.json`, sheetText(sheet));
  }
  if (strayPhotos.length > 0) await mkdir(join(folder, 'photographs'), { mode: 0o700 });
  for (const photo of strayPhotos) {
    const row = photo.read();
    if (row === null) continue;
    many += 1;
    await write(join('photographs', `${photo.id}.${String(row.type).replace('image/', '').replace('jpeg', 'jpg')}`), row.bytes as Buffer);
  }
  if (strayRows.length > 0) {
    many += 1;
    await write('rows-without-a-sheet.txt', `${strayRows.map(({ table, row }) => JSON.stringify({ table, ...row })).join('\n')}\n`);
  }
  const kept = (await namesIn(join(folder, 'packs'))).length > 0;
  if (!kept) await rm(join(folder, 'packs'), { recursive: true, force: true });
  return many > 0 || kept;
};
