import type { AlteredSeen } from '../../db/answers.ts';
import type { FeatureId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { asId } from '../route/asId.ts';
import { useEntryName, useEntryNames } from './entryNames.ts';
import { cellName, sayCell, saysApart, spokenOf } from './sayCell.ts';

type Said = AlteredSeen['before'];
type Cell = Pick<AlteredSeen, 'list' | 'id' | 'field' | 'line'> & { readonly leadsTo?: string | null };

/** The entry a cell speaks of; of where a part may sit, the model and the part. */
export const useCellEntry = ({ list, id, field }: Cell): string => {
  const name = useEntryName(list === 'allowed' ? 'models' : list, id);
  const part = useEntryName('parts', list === 'allowed' ? field : null);
  return part === '' ? name : `${name}, ${part}`;
};

/** What of the entry it speaks of. */
export const useCellWhat = (cell: Cell): string => {
  const words = useWords();
  const { field, line } = cell;
  const feature = field === 'facts' ? line : null;
  const called = useEntryName('features', feature);
  const part = useEntryName('parts', cell.list === 'rates' && field === 'parts' ? line : null);
  if (part !== '') return `price of ${part}`;
  return feature === null || words.feature(asId<FeatureId>(feature)) !== undefined ? cellName(words, cell) : called;
};

export const CellEntry = ({ cell }: { readonly cell: Cell }) => useCellEntry(cell);
export const CellWhat = ({ cell }: { readonly cell: Cell }) => useCellWhat(cell);

/** What it says, in short; `than`: only what of it is otherwise there. */
export function CellSays({ cell, said, than = null }: { readonly cell: Cell; readonly said: Said; readonly than?: Said }) {
  const nameOf = useEntryNames(spokenOf(cell, said));
  const words = useWords();
  const whole = than === null || cell.field === null || cell.field === 'facts' || cell.list === 'allowed';
  const apart = (whole ? said : saysApart(said, than)) as Said;
  if (Array.isArray(apart) && apart.length === 0 && apart !== said) return 'not there';
  return sayCell(words, cell, apart, nameOf);
}
