import type { Cells } from '../atlas/cell.ts';
import type { Pack } from '../atlas/pack.ts';
import { packOf } from '../changes/cells-of.ts';
import type { Effect } from '../changes/change.ts';
import { effectOf, type Head, headOf } from '../changes/journal.ts';
import { isSaid } from '../changes/own-words.ts';
import type { Reader } from '../driver/driver.ts';
import type { Numbering } from '../packs/ground.ts';
import { cellsOfHeld, type Held, readHeld } from '../packs/held.ts';
import type { State } from '../packs/pack-rows.ts';
import * as t from '../schema.ts';
import type { HeadId } from './seen.ts';

type PackRow = typeof t.packs.$inferSelect;

/** The atlas as a change of it is planned over, pack by pack. */
export interface Ground {
  readonly head: Head;
  readonly rows: readonly PackRow[];
  readonly held: ReadonlyMap<string, Held>;
  /** Of a held pack, cell by cell; of one that is not held, none. */
  cellsOf(pack: string): Cells;
  /** Null of one that is not held. */
  stateOf(pack: string): State | null;
  /** Where no more was read than one part that changes: of its pack nothing else is held, and of others nothing. */
  readonly narrow: Narrow | null;
}

export interface Narrow {
  /** What the part speaks of, as a pack beside its own. */
  readonly around: Pack;
  /** Of what its rows name. */
  readonly numbering: Numbering;
}

export const readGround = async (reader: Reader): Promise<Ground> => {
  const head = await headOf(reader);
  const rows = await reader.orm.select().from(t.packs).orderBy(t.packs.id);
  const held = new Map<string, Held>();
  for (const { id } of rows) held.set(id, (await readHeld(reader, id)) as Held);
  return groundOver(head, rows, held);
};

export const groundOver = (head: Head, rows: readonly PackRow[], held: ReadonlyMap<string, Held>, narrow: Narrow | null = null): Ground => {
  const cells = new Map<string, Cells>();
  const ground: Ground = {
    ...{ head, rows, held, narrow },
    cellsOf: (pack) => {
      const known = cells.get(pack);
      if (known !== undefined) return known;
      const of = held.get(pack);
      const found = of === undefined ? new Map() : cellsOfHeld(of);
      cells.set(pack, found);
      return found;
    },
    stateOf: (id) => {
      const of = held.get(id);
      return of === undefined ? null : { pack: of.pack, cells: ground.cellsOf(id), words: of.words };
    },
  };
  return ground;
};

export const packsOf = ({ held }: Ground): ReadonlyMap<string, Pack> => new Map([...held].map(([id, { pack }]) => [id, pack]));

/** What each pack came to, cell by cell, once the first `n` entries of the journal were made; those that say otherwise today, and no others. */
export const cellsAfter = async (reader: Reader, ground: Ground, n: number): Promise<ReadonlyMap<string, Cells>> => {
  const found = new Map<string, Cells>();
  const entries = await reader.all<{ n: number; origin: string }>('select n, origin from journal where n > ? order by n desc', [n]);
  for (const entry of entries) {
    const pack = packOfOrigin(entry.origin);
    const effect = new Map([...(await effectOf(reader, entry.n))].filter(([key]) => !isSaid(key)));
    found.set(pack, before(found.get(pack) ?? ground.cellsOf(pack), effect));
  }
  return found;
};

/** Not asked whether each cell says what the change made of it: the edition of the shop's own pack is no part of its changes. */
const before = (cells: Cells, effect: Effect): Cells => {
  const next = new Map(cells);
  for (const [key, { before: was }] of effect) {
    if (was === null) next.delete(key);
    else next.set(key, was);
  }
  return next;
};

/** The pack whose entries a journal's entry alters. */
export const packOfOrigin = (origin: string): string => origin.replace(/^pack /, '');

/** The packs as they were when the journal ended there; null where it never did. */
export const packsAt = async (reader: Reader, ground: Ground, head: HeadId): Promise<ReadonlyMap<string, Pack> | null> => {
  if (head === ground.head.id) return packsOf(ground);
  const [at] = head === '' ? [{ n: 0 }] : await reader.all<{ n: number }>('select n from journal where id = ?', [head]);
  if (at === undefined) return null;
  const packs = new Map(packsOf(ground));
  for (const [pack, cells] of await cellsAfter(reader, ground, at.n)) {
    if (cells.size === 0) packs.delete(pack);
    else packs.set(pack, packOf(pack, cells));
  }
  return packs;
};
