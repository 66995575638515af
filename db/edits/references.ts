import type { Named } from '../atlas/list.ts';
import { everyList, listsAndParts } from '../atlas/lists.ts';
import type { Pack } from '../atlas/pack.ts';
import { idsAt } from '../packs/cross-check.ts';

/** What a pack speaks of that it does not have itself, as `maker x`, `feature y`. */
export const referencesOf = (pack: Pack): readonly string[] => {
  const wanted = new Set<string>();
  const want = (one: string, id: string | null | undefined): void => {
    if (id !== null && id !== undefined) wanted.add(`${one} ${id}`);
  };
  for (const { name, references } of everyList)
    for (const entry of pack[name]) for (const { at, to } of references) for (const { id } of idsAt(entry, at)) want(to, id);
  for (const { slot, maker, source, patternOf, supersedes, facts, factSources = {} } of pack.parts) {
    want('slot', slot);
    want('maker', maker);
    for (const id of [source, ...Object.values(factSources)]) want('source', id);
    for (const id of [patternOf, supersedes]) want('part', id);
    for (const id of Object.keys(facts)) want('feature', id);
  }
  for (const { model, slot, part } of pack.allowed) {
    want('model', model);
    want('slot', slot);
    want('part', part);
  }
  for (const { parts } of pack.rates) for (const { part } of parts) want('part', part);
  const own = new Set(namesIn(pack));
  return [...wanted].filter((each) => !own.has(each));
};

/** Every entry of a pack, as `maker x`, `feature y`. */
export const namesIn = (pack: Pack): readonly string[] =>
  listsAndParts.flatMap(({ name, one }) => (pack[name] as readonly Named[]).map(({ id }) => `${one} ${id}`));
