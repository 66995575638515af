import type { Named, Values } from '../atlas/list.ts';
import type { ListName } from '../atlas/lists.ts';
import type { Allowance } from '../atlas/pack.ts';

/** A list whose entries can be put, altered and dropped. */
export type EditedList = ListName | 'parts';

/** One edit of the atlas, as data. `put` is the whole entry, as the list's schema has it, whether it is new or not. Several are made as one change. */
export type Edit =
  | { readonly list: EditedList; readonly put: Named & Values }
  | { readonly list: EditedList; readonly drop: string }
  | { readonly allow: Allowance }
  | { readonly disallow: Pick<Allowance, 'model' | 'part'> };
