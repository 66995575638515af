import type { Connection } from '../driver/connection.ts';
import * as t from '../schema.ts';
import type { Door } from '../store/door.ts';
import { type FitEngine, fitStatements, readHeldFits } from '../store/keep-fits.ts';
import { readAtlas } from '../store/read-atlas.ts';
import { type Outcome, TroubleError } from '../trouble.ts';
import { packFrom, writePack } from './export.ts';
import { foldersFor } from './leaning.ts';
import { type Loaded, type LoadOptions, loadPack } from './load.ts';
import type { Asked } from './pack.ts';
import { removePack } from './remove.ts';

export interface PackSummary {
  readonly id: string;
  readonly title: string;
  readonly edition: string;
  readonly invented: boolean;
  readonly note: string;
}

export type LoadPackOptions = Pick<LoadOptions, 'anyEdition' | 'onProgress'>;

/** A pack that was loaded, and those that came with it because it leans on them. */
export interface LoadedWith extends Loaded {
  readonly with: readonly Loaded[];
}

/** The packs the atlas is made of. */
export interface PackShelf {
  list(): Promise<Outcome<readonly PackSummary[]>>;
  /**
   * Loads a folder, and with it what it leans on and the atlas does not hold, from beside it: all of it or nothing. See `foldersFor` and `loadPack` for
   * the troubles.
   */
  load(folder: string, options?: LoadPackOptions): Promise<Outcome<LoadedWith>>;
  /** Takes a pack out, its samples with it; own sheets stay. */
  remove(id: string): Promise<Outcome<null>>;
  /** Writes a loaded pack into a new folder: what was loaded, in canonical form. */
  export(id: string, folder: string): Promise<Outcome<null>>;
}

export const packShelf = (
  { read, tell, transact, now }: Door,
  { asked, fitEngine }: { readonly asked: Asked; readonly fitEngine: FitEngine | undefined },
): PackShelf => {
  const keepFitsAnew = async (connection: Connection): Promise<void> => {
    if (fitEngine === undefined) return;
    const statements = fitStatements(await readHeldFits(connection), await readAtlas(connection), fitEngine);
    for (const { sql, params } of statements) await connection.run(sql, params);
  };
  return {
    list: () =>
      read(({ orm }) =>
        orm
          .select({ id: t.packs.id, title: t.packs.title, edition: t.packs.edition, invented: t.packs.invented, note: t.packs.note })
          .from(t.packs)
          .orderBy(t.packs.id),
      ),
    load: (folder, options = {}) =>
      transact(async (connection) => {
        const held = new Set((await connection.orm.select({ id: t.packs.id }).from(t.packs)).map(({ id }) => id));
        const folders = await foldersFor(folder, (pack) => held.has(pack));
        if (!folders.ok) throw new TroubleError(folders.trouble);
        const all: Loaded[] = [];
        for (const each of folders.value) all.push(await loadPack(connection, each, { ...asked, ...options }, now().toISOString()));
        const loaded = all.at(-1) as Loaded;
        if (all.some(({ changed }) => changed)) await keepFitsAnew(connection);
        return { ...loaded, with: all.slice(0, -1) };
      }),
    remove: (id) =>
      transact(async (connection) => {
        await removePack(connection, id);
        await keepFitsAnew(connection);
        return null;
      }),
    export: async (id, folder) => {
      const pack = await read((reader) => packFrom(reader, id));
      if (!pack.ok) return pack;
      return tell(async () => {
        await writePack(pack.value, folder);
        return null;
      });
    },
  };
};
