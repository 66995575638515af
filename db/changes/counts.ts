import { type CellKey, stepsOf } from '../atlas/cell.ts';
import type { Count } from '../edits/seen.ts';
import type { Altered, Effect } from './change.ts';
import { isSaid } from './own-words.ts';

export type { Count } from '../edits/seen.ts';

/** What a change comes to (H3), sort by sort, in the order of their names. A thing that is only moved is altered. */
export const countsOf = (effect: Effect): Count[] => {
  const things = new Map<string, Tally>();
  for (const [key, altered] of effect) {
    if (isSaid(key)) continue;
    const { of, id, whole } = thingOf(key);
    const found = things.get(of) ?? { added: 0, altered: 0, removed: 0, cells: new Map() };
    things.set(of, found);
    const how = whole ? howOf(altered) : 'altered';
    // No other cell speaks of what its own key names, and of those there may be millions.
    if (id === key) found[how] += 1;
    // A new entry's fields are no alterations of it.
    else if (whole || !found.cells.has(id)) found.cells.set(id, how);
  }
  return [...things]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([of, { cells, ...alone }]) => {
      const many = { ...alone };
      for (const how of cells.values()) many[how] += 1;
      return { of, ...many };
    });
};

type How = 'added' | 'altered' | 'removed';

/** How many things of a sort, and those of which several cells speak by what they are called. */
type Tally = Record<How, number> & { readonly cells: Map<string, How> };

const howOf = ({ before, after }: Altered): How => (before === null ? 'added' : after === null ? 'removed' : 'altered');

/** What a cell counts as, and whether it speaks for the whole of that. */
const thingOf = (key: CellKey): { readonly of: string; readonly id: string; readonly whole: boolean } => {
  const [list, id, field, line] = stepsOf(key);
  if (list === 'pack') return { of: 'pack', id: 'pack', whole: false };
  if (list === 'allowed') return { of: 'allowed', id: key, whole: true };
  if (line !== undefined) return { of: `${list}.${field}`, id: key, whole: true };
  return { of: list, id, whole: field === undefined };
};
