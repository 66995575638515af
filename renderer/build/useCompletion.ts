import { useCallback, useEffect, useRef, useState } from 'react';
import type { CallArgs, Trouble } from '../../electron/bridge/contract.ts';
import type { Completion, CompletionProgress, Sheet } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';

export type SearchStands =
  | { readonly state: 'none' }
  | { readonly state: 'running'; readonly progress: CompletionProgress; readonly stopping: boolean }
  | { readonly state: 'done'; readonly completion: Completion; readonly of: Sheet }
  | { readonly state: 'trouble'; readonly trouble: Trouble };

export interface Search {
  readonly stands: SearchStands;
  start(args: CallArgs<'build.complete'>, sheet: Sheet): void;
  stop(): void;
}

/** How often the desk is asked how far it is, ms. */
const every = 150;

/** One search for builds at a time; a new one stops the old, and leaving the screen stops it too. */
export function useCompletion(): Search {
  const [stands, setStands] = useState<SearchStands>({ state: 'none' });
  const now = useRef<{ token: string | null; stopped: boolean } | null>(null);

  const drop = useCallback(() => {
    const running = now.current;
    now.current = null;
    if (running?.token != null) void desk.ask('build.cancel', { token: running.token });
  }, []);
  useEffect(() => drop, [drop]);

  const start = useCallback(
    (args: CallArgs<'build.complete'>, sheet: Sheet) => {
      drop();
      const mine = { token: null as string | null, stopped: false };
      now.current = mine;
      setStands({ state: 'running', progress: { looked: 0, share: 0, found: 0 }, stopping: false });
      void follow();

      async function follow(): Promise<void> {
        const begun = await desk.ask('build.complete', args);
        if (!begun.ok) {
          if (now.current === mine) setStands({ state: 'trouble', trouble: begun.trouble });
          return;
        }
        const { token } = begun.value;
        mine.token = token;
        // Left or stopped before the token was here.
        if (now.current !== mine || mine.stopped) await desk.ask('build.cancel', { token });
        while (now.current === mine) {
          const reply = await desk.ask('build.progress', { token });
          if (now.current !== mine) return;
          if (!reply.ok) return setStands({ state: 'trouble', trouble: reply.trouble });
          if (reply.value.state === 'done') {
            mine.token = null;
            return setStands({ state: 'done', completion: reply.value.completion, of: sheet });
          }
          setStands({ state: 'running', progress: reply.value.progress, stopping: mine.stopped });
          await new Promise((resolve) => setTimeout(resolve, every));
        }
      }
    },
    [drop],
  );

  const stop = useCallback(() => {
    const running = now.current;
    if (running === null) return;
    running.stopped = true;
    setStands((before) => (before.state === 'running' ? { ...before, stopping: true } : before));
    if (running.token !== null) void desk.ask('build.cancel', { token: running.token });
  }, []);

  return { stands, start, stop };
}
