import { type CellKey, stepsOf } from '../atlas/cell.ts';
import type { Count } from '../edits/seen.ts';
import type { Altered, Effect } from './change.ts';
import { isSaid } from './own-words.ts';

export type { Count } from '../edits/seen.ts';

/** What a change comes to (H3), sort by sort, in the order of their names. A thing that is only moved is altered. */
export const countsOf = (effect: Effect): Count[] => {
  const things = new Map<string, Map<string, 'added' | 'altered' | 'removed'>>();
  for (const [key, altered] of effect) {
    if (isSaid(key)) continue;
    const { of, id, whole } = thingOf(key);
    const found = things.get(of) ?? new Map();
    things.set(of, found);
    const how = whole ? howOf(altered) : 'altered';
    // A new entry's fields are no alterations of it.
    if (whole || !found.has(id)) found.set(id, how);
  }
  return [...things]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([of, found]) => {
      const many = (how: string) => [...found.values()].filter((each) => each === how).length;
      return { of, added: many('added'), altered: many('altered'), removed: many('removed') };
    });
};

const howOf = ({ before, after }: Altered): 'added' | 'altered' | 'removed' =>
  before === null ? 'added' : after === null ? 'removed' : 'altered';

/** What a cell counts as, and whether it speaks for the whole of that. */
const thingOf = (key: CellKey): { readonly of: string; readonly id: string; readonly whole: boolean } => {
  const [list, id, field, line] = stepsOf(key);
  if (list === 'pack') return { of: 'pack', id: 'pack', whole: false };
  if (list === 'allowed') return { of: 'allowed', id: key, whole: true };
  if (line !== undefined) return { of: `${list}.${field}`, id: key, whole: true };
  return { of: list, id, whole: field === undefined };
};
