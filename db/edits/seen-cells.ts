import type { Cell, CellKey, Said } from '../atlas/cell.ts';
import { cellSeen } from '../changes/cell-seen.ts';
import type { Altered, Effect } from '../changes/change.ts';
import { isSaid } from '../changes/own-words.ts';
import { leadsTo } from './called-in.ts';
import type { AlteredSeen } from './seen.ts';

/** How many cells are shown of one change. */
export const mostShown = 2000;

/**
 * What a change alters, as it is shown: not what is only moved in its order.
 * @param saidOf what a pack itself says of a cell
 */
export const alteredSeen = (pack: string, own: boolean, effect: Effect, saidOf: (key: CellKey) => Cell | null): AlteredSeen[] =>
  [...effect].flatMap(([key, { before, after }]: readonly [CellKey, Altered]) =>
    isSaid(key) || JSON.stringify(before?.is) === JSON.stringify(after?.is)
      ? []
      : [seenOf(pack, own, key, before?.is ?? null, after?.is ?? null, saidOf(key)?.is ?? null)],
  );

const seenOf = (pack: string, own: boolean, key: CellKey, before: Said | null, after: Said | null, said: Said | null): AlteredSeen => {
  const of = cellSeen(key);
  return { pack, own, ...of, before, after, said, leadsTo: leadsTo(of) };
};
