import type { Named } from '../atlas/list.ts';
import { listsAndParts } from '../atlas/lists.ts';
import { entriesIn, type Pack } from '../atlas/pack.ts';
import { idsOn, placesOfIds } from '../changes/id-places.ts';

/** What a pack speaks of that it does not have itself, as `maker x`, `feature y`. */
export const referencesOf = (pack: Pack): readonly string[] => {
  const wanted = new Set<string>();
  for (const { name, places } of placesOfIds)
    for (const entry of entriesIn(pack, name))
      for (const { at, to } of places) for (const id of idsOn(entry, at)) wanted.add(`${to} ${id}`);
  for (const { model, slot, part } of pack.allowed) {
    wanted.add(`model ${model}`);
    wanted.add(`slot ${slot}`);
    wanted.add(`part ${part}`);
  }
  for (const own of namesIn(pack)) wanted.delete(own);
  return [...wanted];
};

/** Every entry of a pack, as `maker x`, `feature y`. */
export const namesIn = (pack: Pack): readonly string[] =>
  listsAndParts.flatMap(({ name, one }) => (pack[name] as readonly Named[]).map(({ id }) => `${one} ${id}`));
