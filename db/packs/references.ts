import type { Named, Values } from '../atlas/list.ts';
import { listsAndParts } from '../atlas/lists.ts';
import { entriesIn, type Pack } from '../atlas/pack.ts';
import { idsOn, optionWays, placesOfIds } from '../changes/id-places.ts';

/**
 * What a pack speaks of that it does not have itself, as `maker x`, `feature y`.
 * @param choices the features that choose among metals: their options are metals then
 */
export const referencesOf = (pack: Pack, choices: ReadonlySet<string> = new Set()): readonly string[] => {
  const wanted = new Set<string>();
  for (const { name, places } of placesOfIds)
    for (const entry of entriesIn(pack, name))
      for (const { at, to } of [...places, ...optionWays(name, entry as Named & Values, choices).map((at) => ({ at, to: 'metal' }))])
        for (const id of idsOn(entry, at)) wanted.add(`${to} ${id}`);
  for (const { model, slot, part } of pack.allowed) {
    wanted.add(`model ${model}`);
    wanted.add(`slot ${slot}`);
    wanted.add(`part ${part}`);
  }
  for (const { claimedMaker, observations, unseen = [], absent, chosen } of pack.sheets) {
    if (claimedMaker !== null) wanted.add(`maker ${claimedMaker}`);
    for (const { slot, feature } of [...observations, ...unseen]) {
      wanted.add(`slot ${slot}`);
      wanted.add(`feature ${feature}`);
    }
    for (const slot of [...absent, ...Object.keys(chosen)]) wanted.add(`slot ${slot}`);
    for (const part of Object.values(chosen)) wanted.add(`part ${part}`);
  }
  for (const own of namesIn(pack)) wanted.delete(own);
  return [...wanted];
};

/** What packs speak of that none of them has. What the options of a choice stand for is asked only where any metal is known, as the check of a pack does. */
export const missingIn = (packs: readonly Pack[]): ReadonlySet<string> => {
  const metals = packs.some((pack) => pack.metals.length > 0);
  const choices = new Set<string>(
    metals ? packs.flatMap(({ warmth }) => warmth.flatMap(({ sides }) => sides.map(({ metal }) => metal))) : [],
  );
  const missing = new Set(packs.flatMap((pack) => referencesOf(pack, choices)));
  for (const pack of packs) for (const name of namesIn(pack)) missing.delete(name);
  return missing;
};

/** Every entry of a pack, as `maker x`, `feature y`. */
export const namesIn = (pack: Pack): readonly string[] =>
  listsAndParts.flatMap(({ name, one }) => (pack[name] as readonly Named[]).map(({ id }) => `${one} ${id}`));
