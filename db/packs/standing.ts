import type { Pack } from '../atlas/pack.ts';
import { noWords, type OwnWords } from '../changes/own-words.ts';
import type { Reader } from '../driver/driver.ts';
import { readHeld, saidPack } from './held.ts';

/** The packs of the atlas as they stand while a change is planned: those that are held, and over them those that are to be. */
export interface Standing {
  /** All but one, in the order of their ids; null: all of them. */
  but(pack: string | null): Promise<readonly Pack[]>;
  /** The same as they say themselves, without the shop's words. */
  saidBut(pack: string): Promise<readonly Pack[]>;
  /** The shop's words on all but one. */
  wordsBut(pack: string): Promise<readonly OwnWords[]>;
  /** @param said what it says itself, where that is another than what is to be reasoned over */
  add(pack: Pack, said?: Pack): void;
}

interface Stands {
  readonly pack: Pack;
  readonly words: OwnWords;
  readonly said: () => Pack;
}

/** Each pack is read when it is first wanted. */
export const standingOf = (reader: Reader, rows: readonly { readonly id: string }[]): Standing => {
  const ids = new Set(rows.map(({ id }) => id));
  const read = new Map<string, Stands>();
  const standsAt = async (id: string): Promise<Stands> => {
    const known = read.get(id);
    if (known !== undefined) return known;
    const held = await readHeld(reader, id);
    if (held === null) throw new Error(`the pack ${id} is in the list of packs and nowhere else`);
    const stands = { pack: held.pack, words: held.words, said: () => saidPack(held) };
    read.set(id, stands);
    return stands;
  };
  const allBut = async <T>(without: string | null, of: (stands: Stands) => T): Promise<T[]> => {
    const found: T[] = [];
    for (const id of [...ids].sort()) if (id !== without) found.push(of(await standsAt(id)));
    return found;
  };
  return {
    but: (without) => allBut(without, ({ pack }) => pack),
    saidBut: (without) => allBut(without, ({ said }) => said()),
    wordsBut: (without) => allBut(without, ({ words }) => words),
    add: (pack, said = pack) => {
      ids.add(pack.head.id);
      read.set(pack.head.id, { pack, words: noWords, said: () => said });
    },
  };
};
