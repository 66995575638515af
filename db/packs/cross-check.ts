import type { Atlas } from '../../reasoner/index.ts';
import type { List, Named, Reference } from '../atlas/list.ts';
import { type Entries, type Entry, everyList, type ListName } from '../atlas/lists.ts';
import type { At, Faults } from '../read/faults.ts';
import { checkDrawing } from './check-drawing.ts';
import { checkJoint } from './check-joint.ts';
import { checkMaker } from './check-maker.ts';
import { checkChain, checkOperation, checkRates, checkWarmth } from './check-shop.ts';
import { findCycle } from './find-cycle.ts';
import { idsOnce, type Lookup, type Lookups, type PlaceOf } from './lookups.ts';

/** What no reference of a list says: asked of each entry after those. */
type Check<E> = (entry: E, at: At, find: Lookups, faults: Faults, metals: boolean) => void;

const checks: { readonly [N in ListName]?: Check<Entry<N>> } = {
  joints: checkJoint,
  makers: checkMaker,
  operations: checkOperation,
  chains: checkChain,
  warmth: checkWarmth,
  rates: checkRates,
  drawings: checkDrawing,
};

/** Ids once each, references that lead somewhere, kinds that agree, and no circles: for every list. */
export const crossCheckFiles = (files: Entries, beside: Atlas, find: Lookups, placeOf: PlaceOf, faults: Faults): void => {
  for (const { name } of everyList) idsOnce(files[name], (index) => placeOf(name, [index, 'id']), faults);
  const metals = files.metals.length > 0 || (beside.metals ?? []).length > 0;
  for (const { name, references } of everyList) {
    const check = checks[name] as Check<Named> | undefined;
    files[name].forEach((entry, index) => {
      const at: At = (path) => placeOf(name, [index, ...path]);
      for (const reference of references) follow(entry, reference, find, at, faults);
      check?.(entry, at, find, faults, metals);
    });
  }
  for (const list of everyList) circles(list, files[list.name], beside[list.name] ?? [], (path) => placeOf(list.name, path), faults);
};

const follow = (entry: Named, { at: way, to, agrees }: Reference<Named>, find: Lookups, at: At, faults: Faults): void => {
  const lookup = find[to as keyof Lookups] as Lookup<Named>;
  for (const { path, id } of idsAt(entry, way)) {
    const found = lookup.find(id, at(path), faults);
    for (const [was, expected] of agrees?.(found as Readonly<Record<string, unknown>> | undefined, entry, path) ?? [])
      faults.add(at(path), was, expected);
  }
};

/** The ids a way leads to, with the path to each. */
const idsAt = (
  value: unknown,
  way: readonly string[],
  path: readonly PropertyKey[] = [],
): { readonly path: readonly PropertyKey[]; readonly id: string }[] => {
  const [step, ...rest] = way;
  if (value === null || value === undefined) return [];
  if (step === undefined) return [{ path, id: value as string }];
  if (step === '*') return (value as readonly unknown[]).flatMap((each, index) => idsAt(each, rest, [...path, index]));
  return idsAt((value as Readonly<Record<string, unknown>>)[step], rest, [...path, step]);
};

const circles = ({ lines }: List, own: readonly Named[], others: readonly Named[], at: At, faults: Faults): void => {
  for (const { field, next } of lines) {
    const cycle = findCycle(own, others, next);
    if (cycle !== null) faults.add(at([cycle.index, field]), `a circle: ${cycle.ids.join(' → ')}`, 'an order without circles');
  }
};
