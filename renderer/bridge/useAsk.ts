import { useEffect, useRef, useState } from 'react';
import type { CallArgs, CallName, CallResult, Trouble } from '../../electron/bridge/contract.ts';
import { desk } from './desk.ts';
import { Lane } from './Lane.ts';

/** An answer with the question it answers. */
export interface Given<T, A> {
  readonly value: T;
  readonly args: A;
}

/** Where a question to the desk stands. `last` is the previous answer, kept on screen while the next is on its way. */
export type Asked<T, A = unknown> =
  | { readonly state: 'idle' }
  | { readonly state: 'waiting'; readonly last: Given<T, A> | null }
  | ({ readonly state: 'answered' } & Given<T, A>)
  | { readonly state: 'trouble'; readonly trouble: Trouble; readonly last: Given<T, A> | null };

export const latest = <T>(asked: Asked<T>): T | null => latestGiven(asked)?.value ?? null;

/** The latest answer and what it answers, which may not be what is asked now. */
export const latestGiven = <T, A>(asked: Asked<T, A>): Given<T, A> | null => {
  switch (asked.state) {
    case 'idle':
      return null;
    case 'waiting':
    case 'trouble':
      return asked.last;
    case 'answered':
      return asked;
  }
};

/**
 * Asks the desk, and again when the arguments change. One question is on its way at a time; of those that come up
 * meanwhile only the newest is asked, and an answer whose question has changed is dropped. `args: null` asks nothing;
 * `pause` (ms) lets quick typing settle first; a new `version` asks the same question again.
 */
export function useAsk<C extends CallName>(
  name: C,
  args: CallArgs<C> | null,
  pause = 0,
  version: unknown = null,
): Asked<CallResult<C>, CallArgs<C>> {
  const [asked, setAsked] = useState<Asked<CallResult<C>, CallArgs<C>>>(
    args === null ? { state: 'idle' } : { state: 'waiting', last: null },
  );
  const lane = useRef(new Lane());
  const key = args === null ? null : JSON.stringify(args);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` stands for `args`, which is a new object at every render; `version` is asked about only by being another.
  useEffect(() => {
    if (args === null) {
      setAsked({ state: 'idle' });
      return;
    }
    let current = true;
    setAsked((before) => ({ state: 'waiting', last: latestGiven(before) }));
    const ask = async () => {
      if (!current) return;
      const reply = await desk.ask(name, args);
      if (!current) return;
      setAsked((before) =>
        reply.ok
          ? { state: 'answered', value: reply.value, args }
          : { state: 'trouble', trouble: reply.trouble, last: latestGiven(before) },
      );
    };
    const timer = setTimeout(() => lane.current.run(ask), pause);
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, [name, key, pause, version]);
  return asked;
}
