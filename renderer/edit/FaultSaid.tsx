import type { Edit, EditFault } from '../../db/answers.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { useCellEntry } from './AlteredCell.tsx';
import { useEntryName } from './entryNames.ts';
import { sayFaultElsewhere, sayFaultOf } from './sayFault.ts';

/** What stands in the way, in the entry that is edited or in another that rests on it: said of that one by name. */
export function FaultSaid({ fault, edits = [] }: { readonly fault: EditFault; readonly edits?: readonly Edit[] }) {
  const words = useWords();
  const { edit, list, id, field } = fault;
  const dropped = edits.flatMap((one) => ('drop' in one ? [one] : [])).find((one) => fault.found === JSON.stringify(one.drop));
  const gone = useEntryName(dropped?.list ?? 'parts', dropped?.drop ?? null);
  const entry = useCellEntry({ list, id: id ?? '', field, line: null });
  if (edit !== null || id === null) return sayFaultOf(words, fault);
  return sayFaultElsewhere(fault, entry, gone);
}
