import type { AlteredSeen } from '../../db/answers.ts';
import type { FeatureId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { asId } from '../route/asId.ts';
import { useEntryName, useEntryNames } from './entryNames.ts';
import { cellName, sayCell, spokenOf } from './sayCell.ts';

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
  return feature === null || words.feature(asId<FeatureId>(feature)) !== undefined ? cellName(words, cell) : called;
};

export const CellEntry = ({ cell }: { readonly cell: Cell }) => useCellEntry(cell);
export const CellWhat = ({ cell }: { readonly cell: Cell }) => useCellWhat(cell);

/** What it says, in short. */
export function CellSays({ cell, said }: { readonly cell: Cell; readonly said: AlteredSeen['before'] }) {
  const nameOf = useEntryNames(spokenOf(cell, said));
  return sayCell(useWords(), cell, said, nameOf);
}
