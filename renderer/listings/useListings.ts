import { useCallback, useEffect, useRef, useState } from 'react';
import type { CallArgs, Trouble } from '../../electron/bridge/contract.ts';
import type { Listings, ListingsProgress } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';

export type ListingsStands =
  | { readonly state: 'none' }
  | { readonly state: 'running'; readonly progress: ListingsProgress; readonly stopping: boolean }
  | { readonly state: 'done'; readonly listings: Listings; readonly token: string }
  | { readonly state: 'trouble'; readonly trouble: Trouble };

/** The last list of this window: a sheet opened from its list leads back to the list. */
let lastToken: string | null = null;

/** How often the desk is asked how far it is, ms. */
const every = 150;

/** One list at a time. It goes on, and its list stays, while its sheets are looked at elsewhere in the window. */
export function useListings() {
  const [stands, setStands] = useState<ListingsStands>({ state: 'none' });
  const following = useRef<string | null>(null);
  const stopped = useRef(false);

  const follow = useCallback(async (token: string) => {
    following.current = token;
    lastToken = token;
    while (following.current === token) {
      const reply = await desk.ask('listings.progress', { token });
      if (following.current !== token) return;
      if (!reply.ok) return setStands({ state: 'trouble', trouble: reply.trouble });
      if (reply.value.state === 'done') return setStands({ state: 'done', listings: reply.value.listings, token });
      setStands({ state: 'running', progress: reply.value.progress, stopping: stopped.current });
      await new Promise((resolve) => setTimeout(resolve, every));
    }
  }, []);

  useEffect(() => {
    if (lastToken !== null) void follow(lastToken);
    return () => {
      following.current = null;
    };
  }, [follow]);

  const start = useCallback(
    async (args: CallArgs<'listings.start'>) => {
      if (following.current !== null) void desk.ask('listings.cancel', { token: following.current });
      following.current = null;
      stopped.current = false;
      setStands({ state: 'running', progress: { judged: 0, of: args.files.length }, stopping: false });
      const begun = await desk.ask('listings.start', args);
      if (!begun.ok) return setStands({ state: 'trouble', trouble: begun.trouble });
      // Stopped before the token was here.
      if (stopped.current) await desk.ask('listings.cancel', { token: begun.value.token });
      await follow(begun.value.token);
    },
    [follow],
  );

  const stop = useCallback(() => {
    stopped.current = true;
    setStands((before) => (before.state === 'running' ? { ...before, stopping: true } : before));
    if (following.current !== null) void desk.ask('listings.cancel', { token: following.current });
  }, []);

  return { stands, start, stop };
}
