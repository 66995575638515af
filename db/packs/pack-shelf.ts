import type { Atlas } from '../../reasoner/index.ts';
import type { PackChecked } from '../answers.ts';
import type { Door } from '../driver/door.ts';
import type { Reader } from '../driver/driver.ts';
import type { Version } from '../driver/version.ts';
import type { Plan } from '../driver/write-planned.ts';
import type { FitEngine } from '../graph/keep-fits.ts';
import type { Asked } from '../read/asked.ts';
import * as t from '../schema.ts';
import type { FolderSigned, FolderVerified, SignerNamed } from '../signing/keyring.ts';
import { type Outcome, TroubleError, trouble } from '../trouble.ts';
import { checkInto } from './check-pack.ts';
import { signedPackFrom, writePack } from './export.ts';
import { headOfRow } from './held.ts';
import type { HeldPack } from './held-pack.ts';
import { heldPacks } from './held-packs.ts';
import { foldersFor } from './leaning.ts';
import { type Loaded, type LoadOptions, planLoads } from './load.ts';
import type { MappedWord, WordProposed } from './mapped-word.ts';
import { wordsOfFolder } from './mapping/words-of-folder.ts';
import { type Alongside, keepingFits } from './plan-change.ts';
import { planRemoval } from './remove.ts';
import { planSigning, signFolder, verifyFolder } from './sign-folder.ts';
import { signersIn, speaksOfHead } from './signed.ts';
import { type PackZip, zipOfPack } from './zip-pack.ts';

export interface PackSummary {
  readonly id: string;
  readonly title: string;
  readonly edition: string;
  readonly invented: boolean;
  readonly note: string;
  /** An SPDX identifier, or words; null where it says nothing. */
  readonly licence: string | null;
  /** Who answers for it. */
  readonly by: string | null;
  /** SHA-256 of its canonical text. */
  readonly hash: string;
  /** Who signed it, called as the keyring calls him, else as he calls himself; null where nobody did. */
  readonly signer: SignerNamed | null;
  /** What of its words stands under an id of the atlas (P16): it is held as mapped. */
  readonly mapped: readonly MappedWord[];
  /** Whether what was signed is the text that was brought, and not the one that is held. */
  readonly signedAsBrought: boolean;
}

export type LoadPackOptions = Pick<
  LoadOptions,
  'anyEdition' | 'onProgress' | 'holds' | 'strangerIsFine' | 'otherSignerIsFine' | 'words'
> & {
  /** The first filling of an atlas: there is nothing yet to go back to, so no backup is made. */
  readonly filling?: boolean;
  /** A folder of packs that come with the program: what a pack leans on may be there, where it is not beside it. */
  readonly shipped?: string;
};

/** A pack that was loaded, and those that came with it because it leans on them. */
export interface LoadedWith extends Loaded {
  readonly with: readonly Loaded[];
}

/** The packs the atlas is made of. */
export interface PackShelf {
  list(): Promise<Outcome<readonly PackSummary[]>>;
  /** The same with what would go with each, and what keeps it in. */
  held(): Promise<Outcome<readonly HeldPack[]>>;
  /**
   * Loads a folder, and with it what it leans on and the atlas does not hold, from beside it: all of it or nothing. See `foldersFor` and `loadPack` for
   * the troubles.
   */
  load(folder: string, options?: LoadPackOptions): Promise<Outcome<LoadedWith>>;
  /** What loading it would come to, or the trouble it would meet; nothing is written. */
  preview(folder: string, options?: LoadPackOptions): Promise<Outcome<LoadedWith>>;
  /** The atlas as loading it would leave it; null where it would stay as it is. Nothing is written. */
  after(folder: string, options?: LoadPackOptions): Promise<Outcome<Atlas | null>>;
  /** The atlas without a pack. Troubles as of `remove`. */
  afterRemoval(id: string): Promise<Outcome<Atlas | null>>;
  /** All that is wrong with a folder or only suspicious, held against the atlas it would be loaded into; nothing is written. See `checkInto` for the trouble. */
  check(folder: string, options?: Pick<LoadPackOptions, 'shipped' | 'words'>): Promise<Outcome<PackChecked>>;
  /**
   * What of the words of a folder's pack, and of those that would come with it, the atlas may have under other ids, and what is proposed (P16). Troubles: `pack-unreadable`, and
   * `pack-invalid` where what it leans on is nowhere.
   */
  words(folder: string, options?: Pick<LoadPackOptions, 'shipped' | 'words'>): Promise<Outcome<readonly WordProposed[]>>;
  /** Who signed a folder's pack, and what of the folder that is of. Troubles as of `readPack`, and `pack-signature`. */
  verify(folder: string): Promise<Outcome<FolderVerified>>;
  /** Signs a folder's pack with the shop's own key, by a `signature.json` in it. Troubles as of `readPack`, `key-unreadable`, `pack-cannot-write`. */
  sign(folder: string, passphrase?: string | null): Promise<Outcome<FolderSigned>>;
  /** Signs a pack the atlas holds, so that it goes out signed. Troubles: `not-found`, `key-unreadable`, `pack-signer` where it is somebody else's. */
  signHeld(id: string, passphrase?: string | null): Promise<Outcome<FolderSigned['signer']>>;
  /** Takes a pack out, its samples with it; own sheets stay. `changed-since` where it is no longer the version that was looked at. */
  remove(id: string, madeAgainst?: Version): Promise<Outcome<null>>;
  /** Writes a loaded pack into a new folder: what was loaded, in canonical form. */
  export(id: string, folder: string): Promise<Outcome<null>>;
  /** The same as one ZIP: the same pack is the same bytes. */
  zip(id: string): Promise<Outcome<PackZip>>;
}

export const packShelf = (
  { read, write, tell, now }: Door,
  {
    asked,
    fitEngine,
    keys,
    backUp = null,
  }: {
    readonly asked: Asked;
    readonly fitEngine: FitEngine | undefined;
    /** The folder the shop's own key stands in. */
    readonly keys: string;
    /** Makes a backup of the atlas before a pack of it is changed. */
    readonly backUp?: (() => Promise<Outcome<unknown>>) | null;
  },
): PackShelf => {
  /** A plan that alters an atlas which holds packs already, once it can be gone back on. However often it is made anew, one backup will do. */
  const goneBackOn = <T>(plan: (reader: Reader) => Promise<Plan<T>>): ((reader: Reader) => Promise<Plan<T>>) => {
    let made: Outcome<unknown> | null = null;
    return async (reader) => {
      const planned = await plan(reader);
      if (backUp === null || planned.batch === null || (await reader.orm.$count(t.packs)) === 0) return planned;
      made ??= await backUp();
      if (made.ok) return planned;
      throw new TroubleError(
        trouble(
          'backup-failed',
          made.trouble.place,
          `The pack was left as it is, for a backup is made before one is changed. ${made.trouble.sentence} Nothing was changed.`,
        ),
      );
    };
  };
  const alongside = keepingFits(fitEngine);
  const loading =
    (folder: string, options: LoadPackOptions & { readonly onlyTold?: boolean }, beside: Alongside | null = alongside) =>
    async (reader: Reader): Promise<Plan<LoadedWith>> => {
      const held = new Set((await reader.orm.select({ id: t.packs.id }).from(t.packs)).map(({ id }) => id));
      const folders = await foldersFor(folder, (pack) => held.has(pack), options.shipped ?? null);
      if (!folders.ok) throw new TroubleError(folders.trouble);
      const { batch, value } = await planLoads(
        reader,
        folders.value,
        { ...asked, ...options, ...(beside === null ? {} : { alongside: beside }) },
        now().toISOString(),
      );
      return { batch, value: { ...(value.at(-1) as Loaded), with: value.slice(0, -1) } };
    };
  /** What a plan is told the atlas would be. */
  const planned = (plan: (reader: Reader, beside: Alongside) => Promise<unknown>): Promise<Outcome<Atlas | null>> =>
    read(async (reader) => {
      const told: Atlas[] = [];
      await plan(reader, async (_, after) => {
        told.push(after);
        return [];
      });
      return told[0] ?? null;
    });
  return {
    list: () =>
      read(async (reader) => {
        const rows = await reader.orm.select().from(t.packs).orderBy(t.packs.id);
        const named = await signersIn(reader);
        return rows.map(({ id, title, edition, invented, note, licence, by, hash, signer, signature, mapped, ...row }) => ({
          ...{ id, title, edition, invented, note, licence, by, hash },
          signer: named({ signer, signature }),
          mapped: mapped ?? [],
          signedAsBrought:
            mapped !== null &&
            signature !== null &&
            !speaksOfHead(signature, headOfRow({ id, title, edition, invented, note, licence, by, mapped, ...row })),
        }));
      }),
    load: (folder, options = {}) => write(options.filling === true ? loading(folder, options) : goneBackOn(loading(folder, options))),
    preview: (folder, options = {}) => read(async (reader) => (await loading(folder, { ...options, onlyTold: true })(reader)).value),
    after: (folder, options = {}) => planned((reader, beside) => loading(folder, options, beside)(reader)),
    afterRemoval: (id) => planned((reader, beside) => planRemoval(reader, id, '', beside)),
    check: (folder, { shipped, words } = {}) => read((reader) => checkInto(reader, folder, asked, shipped ?? null, words)),
    words: (folder, { shipped, words } = {}) => read((reader) => wordsOfFolder(reader, folder, asked, shipped ?? null, words)),
    verify: (folder) => read((reader) => verifyFolder(reader, folder, asked)),
    sign: (folder, passphrase = null) => read((reader) => signFolder(reader, folder, { asked, keys, passphrase, at: now().toISOString() })),
    signHeld: (id, passphrase = null) => {
      const at = now().toISOString();
      return write((reader) => planSigning(reader, id, { keys, passphrase, at }));
    },
    held: () => read(heldPacks),
    remove: (id, madeAgainst) => write(goneBackOn((reader) => planRemoval(reader, id, now().toISOString(), alongside, madeAgainst))),
    zip: (id) => read(async (reader) => zipOfPack(await signedPackFrom(reader, id))),
    export: async (id, folder) => {
      const held = await read((reader) => signedPackFrom(reader, id));
      if (!held.ok) return held;
      return tell(async () => {
        await writePack(held.value.pack, folder, held.value.signature);
        return null;
      });
    },
  };
};
