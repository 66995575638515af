import { type CellKey, stepsOf } from '../atlas/cell.ts';
import type { AlteredSeen } from '../edits/seen.ts';

/** Which thing a cell says something of. */
export const cellSeen = (key: CellKey): Pick<AlteredSeen, 'list' | 'id' | 'field' | 'line'> => {
  const [list, id, field = null, line = null] = stepsOf(key);
  return { list, id, field, line };
};
