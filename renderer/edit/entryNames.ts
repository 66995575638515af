import { useEffect, useState } from 'react';
import type { EntryNamed } from '../../electron/bridge/edit-calls.ts';
import { desk } from '../bridge/desk.ts';
import { useAtlasChanges } from '../bridge/useAtlasChanges.ts';

interface Wanted {
  readonly list: string;
  readonly id: string;
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

/** The same where it is shown; the id until it is there. */
export const useEntryName = (list: string, id: string | null): string => {
  const [name, setName] = useState<{ readonly of: string; readonly name: string } | null>(null);
  const changes = useAtlasChanges();
  // biome-ignore lint/correctness/useExhaustiveDependencies: another atlas may call it otherwise.
  useEffect(() => {
    let current = true;
    if (id !== null && id !== '') void entryName(list, id).then((named) => current && setName({ of: id, name: named?.name ?? id }));
    return () => {
      current = false;
    };
  }, [list, id, changes]);
  return name?.of === id ? name.name : (id ?? '');
};
