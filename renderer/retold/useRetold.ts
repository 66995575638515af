import { useCallback, useEffect, useRef, useState } from 'react';
import type { CallResult, Trouble } from '../../electron/bridge/contract.ts';
import type { SheetId } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';

export type RetoldDone = Extract<CallResult<'retold.progress'>, { readonly state: 'done' }>['list'];
export type RetoldRow = RetoldDone['cases'][number];

export type RetoldStands =
  | { readonly state: 'none' }
  | { readonly state: 'running'; readonly judged: number; readonly of: number }
  | { readonly state: 'done'; readonly list: RetoldDone; readonly off: ReadonlySet<SheetId> }
  | { readonly state: 'trouble'; readonly trouble: Trouble };

/** The last list of this window, with what was worked off since: a case opened from it leads back to it. */
let last: { readonly token: string; readonly off: Set<SheetId> } | null = null;

/** How often the desk is asked how far it is, ms. */
const every = 150;

/** What saved cases would be told today. It goes on, and the list stays, while its cases are looked at elsewhere in the window. */
export function useRetold() {
  const [stands, setStands] = useState<RetoldStands>({ state: 'none' });
  const following = useRef<string | null>(null);

  const follow = useCallback(async (token: string) => {
    following.current = token;
    while (following.current === token) {
      const reply = await desk.ask('retold.progress', { token });
      if (following.current !== token) return;
      if (!reply.ok) return setStands({ state: 'trouble', trouble: reply.trouble });
      if (reply.value.state === 'done') return setStands({ state: 'done', list: reply.value.list, off: new Set(last?.off) });
      setStands({ state: 'running', ...reply.value.progress });
      await new Promise((resolve) => setTimeout(resolve, every));
    }
  }, []);

  useEffect(() => {
    if (last !== null) void follow(last.token);
    return () => {
      following.current = null;
    };
  }, [follow]);

  const start = useCallback(async () => {
    if (following.current !== null) void desk.ask('retold.cancel', { token: following.current });
    following.current = null;
    setStands({ state: 'running', judged: 0, of: 0 });
    const begun = await desk.ask('retold.start', {});
    if (!begun.ok) return setStands({ state: 'trouble', trouble: begun.trouble });
    last = { token: begun.value.token, off: new Set() };
    await follow(begun.value.token);
  }, [follow]);

  const stop = useCallback(() => {
    if (following.current !== null) void desk.ask('retold.cancel', { token: following.current });
  }, []);

  /** Worked off: the line goes, and stays gone from this list. */
  const takeOff = useCallback((sheet: SheetId) => {
    last?.off.add(sheet);
    setStands((now) => (now.state === 'done' ? { ...now, off: new Set([...now.off, sheet]) } : now));
  }, []);

  return { stands, start, stop, takeOff };
}
