import { writeFile } from 'node:fs/promises';
import path from 'node:path';
import {
  type Asked,
  beganFile,
  type ExpandCode,
  missingAtlas,
  type Outcome,
  openStore,
  type Store,
  whyNotWritten,
} from '../../db/index.ts';
import { expandCode, faultOfListedName, featuresOf, fitsEdition, judgeJoint, partnersOf, planWork, slipOf } from '../../reasoner/index.ts';
import type { Trouble } from '../bridge/contract.ts';
import type { Desk } from '../bridge/desk.ts';
import { refusal } from '../bridge/reply.ts';
import { sweepBrought } from './brought-packs.ts';
import { atlasFile, backupBytes, backupsOf, reserveOf } from './data-folder.ts';
import { keepPrivate } from './keep-private.ts';
import { openDesk } from './open-desk.ts';
import { shippedIn } from './shipped-packs.ts';

export interface House {
  readonly store: Store;
  readonly desk: Desk;
  close(): Promise<void>;
}

export type OpenHouse = { readonly ok: true; readonly value: House } | { readonly ok: false; readonly trouble: Trouble };

/**
 * Opens the store of a data folder, making both where they are new, and the desk over it. A new atlas holds no packs: what it begins with is asked in the window.
 * `tell` gets a line for each step that takes a while; `packs` is the folder of the packs that come with the program.
 * Where there was an atlas and its file is gone or empty, that is the trouble `atlas-missing`, unless somebody has said that a new one is to be made (`anew`).
 */
export const openHouse = async (
  data: string,
  packs: string,
  tell: (line: string) => void,
  deskOver: (store: Store) => Desk = (store) => openDesk(store, undefined, undefined, packs),
  anew = false,
): Promise<OpenHouse> => {
  try {
    await keepPrivate(data);
  } catch (error) {
    return refusal('data-folder', data, `The folder for the atlas cannot be made, for ${whyNotWritten(error)}: ${data}`);
  }
  const missing = anew ? null : await missingFrom(data);
  if (missing !== null) return { ok: false, trouble: missing };
  const opened = await openAtlas(atlasFile(data));
  if (!opened.ok) return opened;
  const store = opened.value;
  await sweepBrought(data);
  const fault = await bringUpToDate(store, packs, tell);
  if (fault !== null) {
    await store.close();
    return { ok: false, trouble: fault };
  }
  if (store.writable) await noteBeginning(data);
  return { ok: true, value: { store, desk: deskOver(store), close: () => store.close() } };
};

/** `atlas-missing` where a data folder shows that there was an atlas in it, and it is gone or empty. */
export const missingFrom = (data: string): Promise<Trouble | null> => missingAtlas(atlasFile(data), backupsOf(atlasFile(data)).folder);

/** Left by the first start, so that it is known later that there was an atlas here, whatever becomes of it. */
const noteBeginning = async (data: string): Promise<void> => {
  const text =
    'Kinplate keeps its atlas in this folder, in the file atlas.sqlite. Should that file be gone one day, this note tells Kinplate that there was one, and it asks before it begins another.\n';
  // It is there already, or cannot be written: then the backups tell.
  await writeFile(path.join(data, beganFile), text, { flag: 'wx', mode: 0o600 }).catch(() => undefined);
};

/** Expands ISO 286 codes of packs by the reasoner's tables (F3); the store itself knows no tables. */
export const expandForPacks: ExpandCode = (nominal, code) => {
  const expanded = expandCode(nominal, code);
  return expanded.ok ? expanded.value : { error: expanded.sentence };
};

/** What packs and sheets are read by, asked of the reasoner. */
export const askedForPacks = {
  expandCode: expandForPacks,
  faultOfName: faultOfListedName,
  slipOf,
  partnersOf,
  goesAfterWork: (joint, slots, one, other, operations) => planWork(joint, slots, one, other, operations).verdict !== 'will not fit',
  featuresOf,
} as const satisfies Asked;

/** An atlas in memory is there for one question and keeps no fits: what it is asked is judged then. */
export const openAtlas = async (file: string, readOnly = false, now: () => Date = () => new Date()): Promise<Outcome<Store>> => {
  // Only the atlas of a data folder has backups: not one in memory, nor one that is being built.
  const ofFolder = path.normalize(file) === atlasFile(path.dirname(file));
  const atMost = backupBytes();
  if (ofFolder && typeof atMost === 'string') return refusal('usage', null, atMost);
  return openStore(file, {
    now,
    ...askedForPacks,
    readOnly,
    ...(ofFolder ? { backups: backupsOf(file), reserve: reserveOf(file), keptIn: path.dirname(file) } : {}),
    ...(file === ':memory:' ? {} : { fitEngine: { edition: fitsEdition, judge: judgeJoint, partnersOf, featuresOf } }),
  });
};

/**
 * Puts newer editions of the packs that come with the program in the place of those the atlas holds, what others lean on first. One that was taken out stays out, and an
 * atlas that holds none is asked about in the window (`beginAtlas`).
 */
const bringUpToDate = async (store: Store, folder: string, tell: (line: string) => void): Promise<Trouble | null> => {
  const held = await store.packs.list();
  if (!held.ok) return held.trouble;
  if (!store.writable) return null;
  for (const { folder: pack, id, edition } of await shippedIn(folder)) {
    const before = held.value.find((one) => one.id === id);
    if (before === undefined || before.edition === edition) continue;
    tell(`Filling the atlas from ${path.basename(pack)} …`);
    // The shop that signed the one before has it of this program, and gets the next of it.
    const own = await store.keys.own();
    const otherSignerIsFine = own.ok && own.value !== null && before.signer?.key === own.value.key;
    const loaded = await store.packs.load(pack, { holds: 'shop', otherSignerIsFine });
    // An atlas that is in use goes on as it is.
    if (!loaded.ok) tell(loaded.trouble.sentence);
  }
  return null;
};
