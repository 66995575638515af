import type { Atlas, Part, PartId } from '../../reasoner/index.ts';
import { stepsOf } from '../atlas/cell.ts';
import { readLists } from '../atlas/read-lists.ts';
import { effectOf, type Head, headOf } from '../changes/journal.ts';
import { isSaid } from '../changes/own-words.ts';
import type { Reader } from '../driver/driver.ts';
import { stateOf } from './read-atlas.ts';

/** Past so many cells nothing is saved by going through them. */
const mostCells = 2000;

/**
 * The atlas as it is, given what was read of it earlier, where the journal says of every change since that it says something else of parts that were there: those are
 * read, and all else is the very same. Null where there is any other.
 * @param then where the journal ended when it was read
 */
export const readChanged = async (reader: Reader, since: Atlas, then: Head): Promise<Atlas | null> => {
  const entries = await reader.all<{ n: number; parent: string; cells: number }>(
    'select n, parent, cells from journal where n > ? order by n limit 100',
    [then.n],
  );
  const { edition } = await stateOf(reader);
  // An atlas that was put back may have other entries under the same numbers.
  const [first] = entries;
  if (first === undefined) return (await headOf(reader)).id === then.id ? { ...since, edition } : null;
  if (first.parent !== then.id || entries.length === 100) return null;
  if (entries.reduce((sum, { cells }) => sum + cells, 0) > mostCells) return null;
  const changed = new Set<PartId>();
  for (const { n } of entries)
    for (const key of (await effectOf(reader, n)).keys()) {
      const [list, id, field] = stepsOf(key);
      if (isSaid(key) || list === 'pack' || list === 'sheets') continue;
      if (list !== 'parts' || field === undefined || field === 'slot') return null;
      changed.add(id as PartId);
    }
  const { parts } = await readLists(reader, { view: { of: 'all' }, onlyParts: [...changed] });
  const now = new Map<PartId, Part>(parts.map((part) => [part.id, part]));
  return { ...since, edition, parts: since.parts.map((part) => now.get(part.id) ?? part) };
};
