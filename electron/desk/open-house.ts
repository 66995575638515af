import { mkdir, readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { type ExpandCode, type Outcome, openStore, type Store } from '../../db/index.ts';
import { expandCode, faultOfListedName, featuresOf, fitsEdition, judgeJoint, partnersOf, slipOf } from '../../reasoner/index.ts';
import type { Trouble } from '../bridge/contract.ts';
import { trouble } from '../bridge/reply.ts';
import { atlasFile } from './data-folder.ts';
import type { Desk } from './desk.ts';
import { openDesk } from './open-desk.ts';

export interface House {
  readonly store: Store;
  readonly desk: Desk;
  close(): Promise<void>;
}

export type OpenHouse = { readonly ok: true; readonly value: House } | { readonly ok: false; readonly trouble: Trouble };

/**
 * Opens the store of a data folder, making the folder and filling the atlas where they are new, and the desk over it.
 * `tell` gets a line for each step that takes a while; `packs` is the folder of the packs that come with the program.
 */
export const openHouse = async (
  data: string,
  packs: string,
  tell: (line: string) => void,
  deskOver: (store: Store) => Desk = openDesk,
): Promise<OpenHouse> => {
  try {
    await mkdir(data, { recursive: true });
  } catch (error) {
    return trouble('data-folder', data, `The folder for the atlas cannot be made (${reasonOf(error)}): ${data}`);
  }
  const opened = await openAtlas(atlasFile(data));
  if (!opened.ok) return opened;
  const store = opened.value;
  const filled = await fill(store, packs, tell);
  if (filled !== null) {
    await store.close();
    return { ok: false, trouble: filled };
  }
  return { ok: true, value: { store, desk: deskOver(store), close: () => store.close() } };
};

/** Expands ISO 286 codes of packs by the reasoner's tables (F3); the store itself knows no tables. */
export const expandForPacks: ExpandCode = (nominal, code) => {
  const expanded = expandCode(nominal, code);
  return expanded.ok ? expanded.value : { error: expanded.sentence };
};

/** What packs and sheets are read by, asked of the reasoner. */
export const askedForPacks = { expandCode: expandForPacks, faultOfName: faultOfListedName, slipOf } as const;

/** An atlas in memory is there for one question and keeps no fits: what it is asked is judged then. */
export const openAtlas = (file: string, readOnly = false): Promise<Outcome<Store>> =>
  openStore(file, {
    ...askedForPacks,
    readOnly,
    ...(file === ':memory:' ? {} : { fitEngine: { edition: fitsEdition, judge: judgeJoint, partnersOf, featuresOf } }),
  });

/** Loads the shipped packs the atlas does not hold in this edition. An atlas that has packs of its own needs none of them. */
const fill = async (store: Store, folder: string, tell: (line: string) => void): Promise<Trouble | null> => {
  const held = await store.packs.list();
  if (!held.ok) return held.trouble;
  const shipped = await shippedIn(folder);
  if (shipped.length === 0 && held.value.length === 0)
    return {
      code: 'no-packs',
      place: folder,
      sentence: `The atlas is empty and the demo pack that fills it is not where it should be: ${folder}`,
    };
  for (const { pack, id, edition } of shipped) {
    if (held.value.some((one) => one.id === id && one.edition === edition)) continue;
    if (!store.writable) continue;
    tell(`Filling the atlas from ${path.basename(pack)} …`);
    const loaded = await store.packs.load(pack);
    if (loaded.ok) continue;
    // An atlas that is in use goes on as it is; one that holds nothing would be of no use.
    if (held.value.length === 0) return loaded.trouble;
    tell(loaded.trouble.sentence);
  }
  return null;
};

/** The folders with a readable `pack.json`; what is wrong inside one, loading it says. */
const shippedIn = async (folder: string): Promise<readonly { readonly pack: string; readonly id: string; readonly edition: string }[]> => {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  const found = await Promise.all(
    entries
      .filter((entry) => entry.isDirectory())
      .map(async (entry) => {
        const pack = path.join(folder, entry.name);
        const text = await readFile(path.join(pack, 'pack.json'), 'utf8').catch(() => null);
        return text === null ? null : { pack, ...headOf(text) };
      }),
  );
  return found.filter((one) => one !== null);
};

const headOf = (text: string): { readonly id: string; readonly edition: string } => {
  try {
    const head: unknown = JSON.parse(text);
    if (typeof head === 'object' && head !== null && 'id' in head && 'edition' in head)
      return { id: String(head.id), edition: String(head.edition) };
  } catch {
    // Loading it will say what is wrong with it.
  }
  return { id: '', edition: '' };
};

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
