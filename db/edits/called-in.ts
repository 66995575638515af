import { stepsOf } from '../atlas/cell.ts';
import { listsAndParts } from '../atlas/lists.ts';
import type { Effect } from '../changes/change.ts';
import { placesOfIds } from '../changes/id-places.ts';
import type { AlteredSeen, EditedList, EntryAltered, EntryCalled } from './seen.ts';

/** The fields an entry may be called by. A list has one of them, or its entries are called by their ids. */
export const callingFields = ['name', 'title', 'drawing'] as const;

const callingField: ReadonlyMap<EditedList, string> = new Map(
  listsAndParts.flatMap(({ name, fields }) => {
    const calling = callingFields.find((field) => fields.some((one) => one.name === field));
    return calling === undefined ? [] : [[name, calling] as const];
  }),
);

const leading: ReadonlyMap<string, EditedList> = new Map(
  placesOfIds.flatMap(({ name, places }) =>
    places.flatMap(({ at: [field, ...rest], to }) => {
      const list = listsAndParts.find(({ one }) => one === to)?.name;
      return list === undefined || (rest.length > 0 && rest.join(' ') !== '*') ? [] : [[`${name} ${field}`, list] as const];
    }),
  ),
);

/** The list whose ids a cell says, where it says ids alone: `makers` of the maker of a part. */
export const leadsTo = ({ list, field, line }: Pick<AlteredSeen, 'list' | 'field' | 'line'>): EditedList | null =>
  field === null || line !== null ? null : (leading.get(`${list} ${field}`) ?? null);

type Shown = Pick<AlteredSeen, 'list' | 'id' | 'field' | 'line' | 'before' | 'after' | 'leadsTo'>;

/** What a change itself calls the entries that cells of it speak of; of an entry that goes, what it was called. */
export const calledIn = (effects: Iterable<Effect>, cells: readonly Shown[]): readonly EntryCalled[] => {
  const spokenOf = new Set(cells.flatMap(spokenOfIn));
  const called = new Map<string, EntryCalled>();
  for (const effect of effects)
    for (const [key, { before, after }] of effect) {
      const [list, id, field, line] = stepsOf(key);
      const name = (after ?? before)?.is;
      if (line !== undefined || field !== callingField.get(list) || typeof name !== 'string') continue;
      if (spokenOf.has(`${list} ${id}`)) called.set(`${list} ${id}`, { list, id, name });
    }
  return [...called.values()];
};

/** As `list id`. */
const spokenOfIn = ({ list, id, field, line, before, after, leadsTo: to }: Shown): readonly string[] => {
  if (list === 'allowed') return [`models ${id}`, `parts ${field}`, ...[before, after].flatMap((said) => within('slots', said, 'slot'))];
  const said = to === null ? [] : [before, after].flat().flatMap((one) => (typeof one === 'string' ? [`${to} ${one}`] : []));
  const fact =
    field !== 'facts' || line === null ? [] : [`features ${line}`, ...[before, after].flatMap((one) => within('sources', one, 'source'))];
  return [`${list} ${id}`, ...said, ...fact];
};

const within = (list: EditedList, said: unknown, field: string): readonly string[] => {
  const id = typeof said === 'object' && said !== null ? (said as Readonly<Record<string, unknown>>)[field] : undefined;
  return typeof id === 'string' ? [`${list} ${id}`] : [];
};

/**
 * The entries a change alters, those the shop meets before the sources they come from; where a part may sit is said of the model. What it calls an entry is said with it.
 * @returns as many as are named, and how many there are
 */
export const alteredIn = (
  effects: readonly Effect[],
  named: number,
): { readonly of: readonly EntryAltered[]; readonly ofInAll: number } => {
  const found = new Map<string, EntryAltered>();
  for (const effect of effects)
    for (const [key, { before, after }] of effect) {
      const [of, id, field, line] = stepsOf(key);
      const list = of === 'allowed' ? 'models' : of;
      if (!callingField.has(list)) continue;
      const name = of !== 'allowed' && line === undefined && field === callingField.get(list) ? (after ?? before)?.is : null;
      const one = found.get(`${list} ${id}`);
      if (one === undefined || typeof name === 'string')
        found.set(`${list} ${id}`, { list, id, name: typeof name === 'string' ? name : null });
    }
  const last = ({ list }: EntryAltered): number => (list === 'sources' ? 1 : 0);
  const all = [...found.values()].sort((a, b) => last(a) - last(b));
  return { of: all.slice(0, named), ofInAll: all.length };
};
