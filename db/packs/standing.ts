import type { Pack } from '../atlas/pack.ts';
import type { Reader } from '../driver/driver.ts';
import { readHeld } from './held.ts';

/** The packs of the atlas as they stand while a change is planned: those that are held, and over them those that are to be. */
export interface Standing {
  /** All but one, in the order of their ids; null: all of them. */
  but(pack: string | null): Promise<readonly Pack[]>;
  add(pack: Pack): void;
}

/** Each pack is read when it is first wanted. */
export const standingOf = (reader: Reader, rows: readonly { readonly id: string }[]): Standing => {
  const ids = new Set(rows.map(({ id }) => id));
  const read = new Map<string, Pack>();
  const packAt = async (id: string): Promise<Pack> => {
    const pack = read.get(id) ?? (await readHeld(reader, id))?.pack;
    if (pack === undefined) throw new Error(`the pack ${id} is in the list of packs and nowhere else`);
    read.set(id, pack);
    return pack;
  };
  return {
    but: async (without) => {
      const packs: Pack[] = [];
      for (const id of [...ids].sort()) if (id !== without) packs.push(await packAt(id));
      return packs;
    },
    add: (pack) => {
      ids.add(pack.head.id);
      read.set(pack.head.id, pack);
    },
  };
};
