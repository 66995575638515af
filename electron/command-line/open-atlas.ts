import { access } from 'node:fs/promises';
import type { Outcome, Store } from '../../db/index.ts';
import { refusal } from '../bridge/reply.ts';
import { atlasFile, defaultDataFolder } from '../desk/data-folder.ts';
import { keepPrivate, makePrivately } from '../desk/keep-private.ts';
import { missingFrom, openAtlas } from '../desk/open-house.ts';
import type { AtlasChoice } from './option.ts';

/** `use` is `read` for commands that change nothing: they neither make nor migrate an atlas, and wait for nobody. */
export const openChosen = async (choice: AtlasChoice, use: 'read' | 'write'): Promise<Outcome<Store>> => {
  if (choice.pack.length > 0) return fromPacks(choice.pack);
  const folder = choice.data ?? defaultDataFolder();
  const file = atlasFile(folder);
  const missing = await missingFrom(folder);
  if (missing !== null) return { ok: false, trouble: missing };
  if (use === 'read' && !(await isThere(file)))
    return refusal(
      'not-found',
      file,
      `There is no atlas in ${folder}. Name a pack with --pack, another folder with --data, or begin one with kinplate begin.`,
    );
  if (use === 'write') {
    makePrivately();
    // Where the folder cannot be made, opening the atlas says so.
    await keepPrivate(folder).catch(() => undefined);
  }
  return openAtlas(file, use === 'read');
};

const fromPacks = async (folders: readonly string[]): Promise<Outcome<Store>> => {
  const opened = await openAtlas(':memory:');
  if (!opened.ok) return opened;
  for (const folder of folders) {
    // Read for one question: there is no keyring to ask, and nothing is kept. A signature that does not hold is refused all the same.
    const loaded = await opened.value.packs.load(folder, { strangerIsFine: true });
    if (!loaded.ok) {
      await opened.value.close();
      return loaded;
    }
  }
  return opened;
};

export const isThere = (file: string): Promise<boolean> =>
  access(file).then(
    () => true,
    () => false,
  );
