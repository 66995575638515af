import type { Atlas } from '../../reasoner/index.ts';
import type { Vocabulary } from '../answers.ts';
import { type Head, headOf } from '../changes/journal.ts';
import type { Door } from '../driver/door.ts';
import type { Reader } from '../driver/driver.ts';
import type { Version } from '../driver/version.ts';
import { type Outcome, TroubleError } from '../trouble.ts';
import { keepReading, keptReading } from './kept-reading.ts';
import { type AtlasState, readAtlas, stateOf } from './read-atlas.ts';
import { readChanged } from './read-changed.ts';
import { vocabularyOf } from './vocabulary.ts';

/** The atlas as it is reasoned over. */
export interface AtlasShelf {
  /** All of it. Throws its trouble, as a TroubleError: without an atlas there is nothing to go on with. */
  read(): Promise<Atlas>;
  /**
   * The atlas as it is, made of what `read` or this gave earlier, where no more than parts say something else since; lists in which nothing changed are the very same. Null
   * where all of it is to be read. Throws as `read` does.
   */
  readSince(earlier: Atlas): Promise<Atlas | null>;
  /**
   * Keeps what `read` gave beside the atlas, so that the next program has it at once: to be called when nothing else wants the time. Whether it is kept;
   * that it cannot be is no trouble.
   * @param pause awaited now and then, so that nothing else waits; what it throws ends it
   */
  keep(atlas: Atlas, pause?: () => Promise<unknown>): Promise<boolean>;
  vocabulary(): Promise<Outcome<Vocabulary>>;
  /** Which state it is in; asked before every answer, so it is one short read. */
  state(): Promise<Outcome<AtlasState>>;
}

/** @param keptIn the folder in which what was read is kept; null keeps nothing */
export const atlasShelf = ({ read, one }: Door, keptIn: string | null = null): AtlasShelf => {
  /** Of what was read row by row, and may be kept. */
  const versions = new WeakMap<Atlas, Version>();
  /** Where the journal ended when each was read. */
  const heads = new WeakMap<Atlas, Head>();
  const readOrKept = async (reader: Reader): Promise<Atlas> => {
    if (keptIn === null) return await readAtlas(reader);
    const { edition, version } = await stateOf(reader);
    const kept = await keptReading(keptIn, version);
    // The same content may be called otherwise by now.
    if (kept !== null) return { ...kept, edition };
    const atlas = await readAtlas(reader);
    versions.set(atlas, version);
    return atlas;
  };
  const noted = async (reader: Reader, atlas: Atlas): Promise<Atlas> => {
    heads.set(atlas, await headOf(reader));
    return atlas;
  };
  return {
    read: async () => {
      const atlas = await read(async (reader) => noted(reader, await readOrKept(reader)));
      if (!atlas.ok) throw new TroubleError(atlas.trouble);
      return atlas.value;
    },
    readSince: async (earlier) => {
      const then = heads.get(earlier);
      if (then === undefined) return null;
      const atlas = await read(async (reader) => {
        const changed = await readChanged(reader, earlier, then);
        if (changed === null) return null;
        versions.set(changed, (await stateOf(reader)).version);
        return noted(reader, changed);
      });
      if (!atlas.ok) throw new TroubleError(atlas.trouble);
      return atlas.value;
    },
    keep: async (atlas, pause = () => new Promise(setImmediate)) => {
      const version = versions.get(atlas);
      if (keptIn === null || version === undefined) return false;
      const stands = async () => {
        const now = await one(stateOf);
        return now.ok && now.value.version === version;
      };
      return await keepReading(keptIn, version, atlas, pause, stands);
    },
    vocabulary: () => read(vocabularyOf),
    state: () => one(stateOf),
  };
};
