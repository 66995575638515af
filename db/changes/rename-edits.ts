import type { Atlas } from '../../reasoner/index.ts';
import type { Named, Values } from '../atlas/list.ts';
import type { Edit, EditedList } from '../edits/seen.ts';
import { entriesOf, metalChoices, optionWays, placesOfIds, withId } from './id-places.ts';

/**
 * The edits that give an entry another id and carry over whatever refers to it, in every list: the entry under its new id, each entry that names the old one,
 * and what may sit where. Nothing else of any entry is altered. What the shop keeps of it goes with it.
 * Sheets are no entries of a list, and stay as they are.
 * @param to an id no entry of the list has
 * @throws where there is no such entry, or one of the new id: both are to be asked before
 */
export const renameEdits = (atlas: Atlas, list: EditedList, from: string, to: string): readonly Edit[] => {
  const entry = entriesOf(atlas, list).find(({ id }) => id === from);
  if (entry === undefined) throw new Error(`no entry of ${list} is called "${from}"`);
  if (entriesOf(atlas, list).some(({ id }) => id === to)) throw new Error(`an entry of ${list} is called "${to}" already`);
  const moved = movedAllowances(atlas, list, from, to);
  return [
    // Of a slot only what is said is altered; of a model or a part, whose it is.
    ...(list === 'slots' ? [] : moved.map(({ was: { model, part } }): Edit => ({ disallow: { model, part } }))),
    { list, put: { ...carried(atlas, list, entry, list, from, to), id: to } },
    ...carriedEntries(atlas, list, from, to),
    { list, drop: from, into: to },
    ...moved.map(({ is }): Edit => ({ allow: is })),
  ];
};

/** Every entry but the one itself that refers to it, as it refers to the other one instead. */
export const carriedEntries = (
  atlas: Atlas,
  list: EditedList,
  from: string,
  to: string,
  but: readonly string[] = [from],
): readonly Edit[] =>
  placesOfIds.flatMap(({ name }) =>
    entriesOf(atlas, name).flatMap((entry): readonly Edit[] => {
      if (name === list && but.includes(entry.id)) return [];
      const put = carried(atlas, name, entry, list, from, to);
      return put === entry ? [] : [{ list: name, put }];
    }),
  );

/** An entry of any list as it refers to `to` where it referred to `from`; the very same where it did not. */
export const carried = (
  atlas: Atlas,
  name: EditedList,
  entry: Named & Values,
  list: EditedList,
  from: string,
  to: string,
): Named & Values => {
  const one = placesOfIds.find((each) => each.name === list)?.one;
  const places = placesOfIds.find((each) => each.name === name)?.places ?? [];
  const ways = places.filter((place) => place.to === one).map(({ at }) => at);
  const more = list === 'metals' ? optionWays(name, entry, metalChoices(atlas)) : [];
  return [...ways, ...more].reduce<Named & Values>((put, way) => withId(put, way, from, to) as Named & Values, entry);
};

/** What may sit where, of the model, the part or the slot that is called otherwise now. */
export const movedAllowances = (atlas: Atlas, list: EditedList, from: string, to: string) => {
  const field = ({ models: 'model', parts: 'part', slots: 'slot' } as const)[list as string];
  if (field === undefined) return [];
  return atlas.models.flatMap((model) =>
    model.allowed.flatMap(({ slot, part, role }) => {
      const was = { model: model.id, slot, part, role };
      return was[field] === from ? [{ was, is: { ...was, [field]: to } as typeof was }] : [];
    }),
  );
};
