import { createContext, useContext, useEffect, useMemo, useState } from 'react';
import type { EntryCalled } from '../../db/answers.ts';
import type { EntryNamed } from '../../electron/bridge/edit-calls.ts';
import { desk } from '../bridge/desk.ts';
import { useAtlasChanges } from '../bridge/useAtlasChanges.ts';

interface Entry {
  readonly list: string;
  readonly id: string;
}
interface Wanted extends Entry {
  readonly told: (named: EntryNamed | null) => void;
}

const known = new Map<string, Promise<EntryNamed | null>>();
desk.onAtlasChanged(() => known.clear());
let wanted: Wanted[] = [];

/** An entry by its name, asked once, together with all others that are wanted in the same moment; null where there is none. */
export const entryName = (list: string, id: string): Promise<EntryNamed | null> => {
  const key = `${list} ${id}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  const asked = new Promise<EntryNamed | null>((told) => {
    if (wanted.length === 0) queueMicrotask(() => void askAll());
    wanted.push({ list, id, told });
  });
  known.set(key, asked);
  return asked;
};

const askAll = async (): Promise<void> => {
  const all = wanted;
  wanted = [];
  const reply = await desk.ask('edit.named', { of: all.map(({ list, id }) => ({ list, id })) });
  for (const [at, { list, id, told }] of all.entries()) {
    if (!reply.ok) known.delete(`${list} ${id}`);
    told(reply.ok ? (reply.value[at] ?? null) : null);
  }
};

/** What a change calls the entries it speaks of, by `list id`: where it is shown that comes before what the atlas calls them, which may not have them yet, or any more. */
export const CalledContext = createContext<ReadonlyMap<string, string>>(new Map());

export const useCalled = (called: readonly EntryCalled[] | undefined): ReadonlyMap<string, string> =>
  useMemo(() => new Map((called ?? []).map(({ list, id, name }) => [`${list} ${id}`, name])), [called]);

/** What entries are called where it is shown; each by its id until its name is there, and where nothing tells one. */
export const useEntryNames = (entries: readonly Entry[]): ((list: string, id: string) => string) => {
  const called = useContext(CalledContext);
  const [names, setNames] = useState<ReadonlyMap<string, string>>(new Map());
  const changes = useAtlasChanges();
  const given = (list: string, id: string) => called.get(`${list} ${id}`);
  const asked = entries.filter(({ list, id }) => id !== '' && given(list, id) === undefined);
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is asked by what is asked for, and another atlas may call it otherwise.
  useEffect(() => {
    let current = true;
    if (asked.length > 0)
      void Promise.all(asked.map(async ({ list, id }) => [`${list} ${id}`, (await entryName(list, id))?.name ?? id] as const)).then(
        (told) => current && setNames(new Map(told)),
      );
    return () => {
      current = false;
    };
  }, [JSON.stringify(asked), changes]);
  return (list, id) => given(list, id) ?? names.get(`${list} ${id}`) ?? id;
};

/** The same of one; the empty text of none. */
export const useEntryName = (list: string, id: string | null): string => useEntryNames(id === null ? [] : [{ list, id }])(list, id ?? '');
