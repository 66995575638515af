import type { Atlas } from '../../reasoner/index.ts';
import type { Named } from '../atlas/list.ts';
import { type Entries, type Entry, everyList, type ListName, type lists } from '../atlas/lists.ts';
import { fileOf } from '../atlas/pack.ts';
import type { Faults, Place } from '../read/faults.ts';
import { type JsonPlaces, pathText } from '../read/json-places.ts';

/** Where an entry of a list, or something in it, stands in the list's file. */
export type PlaceOf = (list: ListName, path: readonly PropertyKey[]) => Place;

/** Looks ids up in the pack first and then in the atlas beside it. A file that could not be read whole answers for nothing. */
export class Lookup<T extends Named> {
  readonly #byId = new Map<string, T>();
  readonly what: string;
  readonly #silent: boolean;
  constructor(what: string, silent: boolean, ...lists: readonly (readonly T[])[]) {
    this.what = what;
    this.#silent = silent;
    for (const list of lists) for (const entry of list) if (!this.#byId.has(entry.id)) this.#byId.set(entry.id, entry);
  }
  get(id: string): T | undefined {
    return this.#byId.get(id);
  }
  /** The entry; or undefined, with a fault where its absence is certain. */
  find(id: string, place: Place, faults: Faults): T | undefined {
    const found = this.#byId.get(id);
    if (found === undefined && !this.#silent) faults.add(place, JSON.stringify(id), `the id of a ${this.what} in this pack or the atlas`);
    return found;
  }
}

/** By what a list calls one: `find.source`. */
export type Lookups = { readonly [N in ListName as (typeof lists)[N]['one']]: Lookup<Entry<N>> };

/** @param besideUnknown what is beside the pack could not be found out: then no id leads nowhere for certain */
export const lookupsFor = (files: Entries, beside: Atlas, faults: Faults, besideUnknown = false): Lookups =>
  Object.fromEntries(
    everyList.map(({ name, one }) => [
      one,
      new Lookup<Named>(one, besideUnknown || faults.isBroken(fileOf(name)), files[name], beside[name] ?? []),
    ]),
  ) as unknown as Lookups;

export const idsOnce = (entries: readonly Named[], placeOf: (index: number) => Place, faults: Faults): void => {
  const first = new Map<string, number>();
  entries.forEach(({ id }, index) => {
    const before = first.get(id);
    if (before === undefined) first.set(id, index);
    else
      faults.add(
        placeOf(index),
        `${JSON.stringify(id)} a second time`,
        `an id of its own (row ${placeOf(before).row ?? before + 1} has this one)`,
      );
  });
};

export const placeIn = (file: string, path: readonly PropertyKey[], places: JsonPlaces | undefined): Place =>
  places === undefined
    ? { file, row: null, column: pathText(path) }
    : { file, row: places.rowOf(path), column: pathText(path), character: places.characterOf(path) };
