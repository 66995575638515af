import type { Sheet } from '../../../reasoner/index.ts';
import type { Named, Values } from '../../atlas/list.ts';
import { type Entries, everyList, type ListName } from '../../atlas/lists.ts';
import { optionWays, placesOfIds, withIds } from '../../changes/id-places.ts';
import type { MappedIds } from './mapped-ids.ts';

type Entry = Named & Values;

/** An entry of a list as it refers to what is here; its own id as it is. */
export const mappedEntry = (list: ListName, brought: Entry, ids: MappedIds): Entry => {
  let entry = brought;
  // Options first: which they are is told by their feature as it was brought.
  for (const feature of ids.choices)
    for (const way of optionWays(list, entry, new Set([feature])))
      entry = withIds(entry, way, (option) => ids.optionOf(feature, option) ?? option) as Entry;
  for (const { at, to } of placesOfIds.find(({ name }) => name === list)?.places ?? [])
    entry = withIds(entry, at, (id) => ids.idOf(to, id)) as Entry;
  return entry;
};

export interface MappedLists {
  readonly files: Entries;
  /** Where each entry stood in its file. */
  readonly stood: { readonly [N in ListName]: readonly number[] };
}

/** The lists of a pack without the entries others take the place of. */
export const mappedLists = (brought: Entries, ids: MappedIds): MappedLists => {
  const files: Record<string, Entry[]> = {};
  const stood: Record<string, number[]> = {};
  for (const { name } of everyList) {
    const [entries, at]: [Entry[], number[]] = [[], []];
    for (const [index, entry] of (brought[name] as readonly unknown[] as readonly Entry[]).entries()) {
      const word = ids.wordOf(name, entry.id);
      if (word?.to !== undefined) continue;
      const put = mappedEntry(name, entry, ids);
      entries.push(word?.as === undefined ? put : { ...put, id: word.as });
      at.push(index);
    }
    files[name] = entries;
    stood[name] = at;
  }
  return { files: files as unknown as Entries, stood: stood as unknown as MappedLists['stood'] };
};

/** A sample sheet as it speaks of what is here. Two slots that are one here, each with a part chosen, are named in `both`. */
export const mappedSheet = (sheet: Sheet, ids: MappedIds): { readonly sheet: Sheet; readonly both: readonly string[] } => {
  const called = <S extends { readonly slot: string; readonly feature: string }>(said: S): S => ({
    ...said,
    slot: ids.idOf('slot', said.slot),
    feature: ids.idOf('feature', said.feature),
  });
  const chosen = new Map<string, Sheet['chosen'][keyof Sheet['chosen']]>();
  const both: string[] = [];
  for (const [slot, part] of Object.entries(sheet.chosen) as [keyof Sheet['chosen'], never][]) {
    const is = ids.idOf('slot', slot);
    if (chosen.has(is) && chosen.get(is) !== part) both.push(slot);
    chosen.set(is, part);
  }
  const { unseen } = sheet;
  return {
    sheet: {
      ...sheet,
      observations: sheet.observations.map((one) => {
        const { value, feature } = one;
        if (value.kind !== 'choice') return called(one);
        return called({ ...one, value: { ...value, option: ids.optionOf(feature, value.option) ?? value.option } });
      }),
      ...(unseen === undefined ? {} : { unseen: unseen.map(called) }),
      absent: [...new Set(sheet.absent.map((slot) => ids.idOf('slot', slot) as typeof slot))],
      chosen: Object.fromEntries(chosen),
    },
    both,
  };
};
