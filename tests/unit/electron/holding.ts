import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { atlasFile } from '../../../electron/desk/data-folder.ts';
import { openAtlas } from '../../../electron/desk/open-house.ts';

const folders = new Map<string, Promise<string>>();

/** A data folder that holds one pack, for commands that only read: made once for each process, where `--pack` reads the whole pack for each question. */
export const holding = (pack: string): Promise<string> => {
  const known = folders.get(pack) ?? made(pack);
  folders.set(pack, known);
  return known;
};

const made = async (pack: string): Promise<string> => {
  const folder = mkdtempSync(path.join(tmpdir(), 'kinplate-holding-'));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true }));
  const opened = await openAtlas(atlasFile(folder));
  if (!opened.ok) throw new Error(opened.trouble.sentence);
  const loaded = await opened.value.packs.load(pack, { strangerIsFine: true });
  await opened.value.close();
  if (!loaded.ok) throw new Error(loaded.trouble.sentence);
  return folder;
};
