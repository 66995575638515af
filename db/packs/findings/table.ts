import type { Asked } from '../../read/asked.ts';
import { warningsOf } from '../check-models.ts';
import type { FilesRead } from '../read.ts';
import type { Warning } from '../warnings.ts';

/** What a check of a pack warns of, by the rule it is by. */
export const warningsIn = (read: FilesRead, _asked: Asked): readonly (Warning & { readonly about: string })[] =>
  read.unread.size > 0 ? [] : warningsOf(read.lists, read.placeOf).map((one) => ({ ...one, about: 'lists' }));
