import { type Cells, keyOf } from '../atlas/cell.ts';
import type { Named } from '../atlas/list.ts';
import { entriesIn, type Pack } from '../atlas/pack.ts';
import { cellsOf, hadIn, packOf } from '../changes/cells-of.ts';
import { changeBetween } from '../changes/change.ts';
import { countsOf } from '../changes/counts.ts';
import { effectOf } from '../changes/journal.ts';
import type { Reader } from '../driver/driver.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { isEdited, oneOf } from './entries.ts';
import { cellsAfter, type Ground, packsOf } from './ground.ts';
import type { EditedList, StoodAtlas, StoodEntry } from './seen.ts';

/** How many entries the journal had when a time had passed. */
const entriesUntil = async (reader: Reader, until: string): Promise<number> => {
  // A clock that was set back makes later entries earlier: the last that was made by then counts, with all before it.
  const [row] = await reader.all<{ n: number }>('select coalesce(max(n), 0) as n from journal where at <= ?', [until]);
  return row?.n ?? 0;
};

/**
 * The packs as they were reasoned over at a time, the shop's words among them. What was there before the history begins counts as having always been there.
 * @param until ISO time
 */
export const packsAsOf = async (reader: Reader, ground: Ground, until: string): Promise<ReadonlyMap<string, Pack>> => {
  const packs = new Map(packsOf(ground));
  for (const [id, cells] of await cellsAfter(reader, ground, await entriesUntil(reader, until))) {
    if (cells.size === 0) packs.delete(id);
    else packs.set(id, packOf(id, cells));
  }
  return packs;
};

/** One entry as it stood; null where it was not there. Throws `not-found` where it neither was nor is. */
export const entryAsOf = async (reader: Reader, ground: Ground, list: EditedList, id: string, until: string): Promise<StoodEntry> => {
  const entryIn = (packs: ReadonlyMap<string, Pack>): Named | null => {
    for (const pack of packs.values()) {
      const found = entriesIn(pack, list).find((each) => each.id === id);
      if (found !== undefined) return found;
    }
    return null;
  };
  const [entry, now] = [entryIn(await packsAsOf(reader, ground, until)), entryIn(packsOf(ground))];
  if (entry === null && now === null && !(isEdited(list) && (await everNamed(reader, list, id))))
    throw new TroubleError(trouble('not-found', `${list}/${id}`, `The atlas never had a ${oneOf(list)} “${id}”.`));
  const as = (of: Named | null): StoodEntry['entry'] => (of === null ? null : (of as unknown as NonNullable<StoodEntry['entry']>));
  return { entry: as(entry), now: as(now) };
};

const everNamed = async (reader: Reader, list: EditedList, id: string): Promise<boolean> => {
  for (const { n } of await reader.all<{ n: number }>('select n from journal order by n desc'))
    if ((await effectOf(reader, n)).has(keyOf(list, id))) return true;
  return false;
};

/** The atlas as it stood, and what led from there to what is now. Places are those of today, so that what only moved is told as that. */
export const atlasStood = (ground: Ground, then: ReadonlyMap<string, Pack>): StoodAtlas => {
  const cells = (packs: ReadonlyMap<string, Pack>): Cells =>
    new Map([...packs].flatMap(([id, pack]) => [...cellsOf(pack, hadIn(ground.cellsOf(id)))]));
  return {
    packs: [...then.values()].map(({ head, parts, models }) => ({
      id: head.id,
      title: head.title,
      edition: head.edition,
      parts: parts.length,
      models: models.length,
    })),
    since: countsOf(changeBetween(cells(then), cells(packsOf(ground)))).filter(({ of }) => of !== 'pack'),
  };
};
