import { useEffect, useId, useMemo, useRef, useState } from 'react';
import type { CallArgs, CallName, CallResult, Progress, Trouble } from '../../electron/bridge/contract.ts';
import { ahead } from './ahead.ts';
import { desk } from './desk.ts';
import { recentAnswers } from './recentAnswers.ts';
import { useAtlasChanges } from './useAtlasChanges.ts';

/** An answer with the question it answers. */
export interface Given<T, A> {
  readonly value: T;
  readonly args: A;
}

interface Answered<T, A> extends Given<T, A> {
  readonly state: 'answered';
}

/** Where a question to the desk stands. `last` is the previous answer, kept on screen while the next is on its way. */
export type Asked<T, A = unknown> =
  | { readonly state: 'idle' }
  /** `progress`: how far a long answer has come, once it has told. */
  | { readonly state: 'waiting'; readonly last: Given<T, A> | null; readonly progress: Progress | null }
  | Answered<T, A>
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

/** Whether what is asked now is still to be answered; what stands on screen then answers an older question. A trouble is an answer. */
export const unanswered = <T, A>(asked: Asked<T, A>, args: A | null): boolean =>
  args !== null && asked.state !== 'trouble' && !(asked.state === 'answered' && JSON.stringify(asked.args) === JSON.stringify(args));

/** The answer to just what is asked: none while the next is on its way, nor in the moment before that is known. */
export const useSettled = <T, A>(asked: Asked<T, A>, args: A | null): T | null => {
  const given = asked.state === 'answered' ? asked : null;
  const is = useMemo(() => JSON.stringify(args), [args]);
  const of = useMemo(() => JSON.stringify(given?.args ?? null), [given]);
  return given !== null && args !== null && is === of ? given.value : null;
};

/** How long a question waits for what may come after it, ms; `Infinity` where something else is to be known first. A function of this kind is made once, outside of what renders. */
export type Pause<A> = (before: A | null, now: A) => number;

/** Where a question stands, and which. */
interface Held<T, A> {
  readonly question: unknown;
  readonly asked: Asked<T, A>;
}

/**
 * Asks the desk, and again when the arguments change, or the atlas does. A question whose answer nobody looks at any more is taken back, so that what is asked now need not wait for it.
 * `args: null` asks nothing; `pause` (ms) lets quick typing settle first: always, or by what was asked before; a new `version` asks the same question again.
 * What is answered is of another question the moment that one is put: it is waited for in the same render, not in one of its own, or is there where it was asked ahead.
 */
export function useAsk<C extends CallName>(
  name: C,
  args: CallArgs<C> | null,
  pause: number | Pause<CallArgs<C>> = 0,
  version: unknown = null,
): Asked<CallResult<C>, CallArgs<C>> {
  const [held, setHeld] = useState<Held<CallResult<C>, CallArgs<C>>>(() => {
    const known = args === null ? null : recalled(name, args);
    return { question: null, asked: known === null ? { state: 'idle' } : { state: 'answered', ...known } };
  });
  const place = useId();
  const changes = useAtlasChanges();
  const before = useRef<CallArgs<C> | null>(null);
  const key = args === null ? null : JSON.stringify(args);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the question is another where one of these is.
  const question = useMemo(() => ({}), [name, key, version, changes]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `question` stands for `args`, which is a new object at every render; looked for when it is put, not later.
  const known = useMemo((): Answered<CallResult<C>, CallArgs<C>> | null => {
    const value = args === null ? null : ahead.known(name, args, changes);
    return args === null || value === null ? null : { state: 'answered', value, args };
  }, [question]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `question` stands for `args`, which is a new object at every render.
  useEffect(() => {
    if (args === null) {
      setHeld({ question, asked: { state: 'idle' } });
      return;
    }
    if (known !== null) {
      if (ofSheets.has(name)) recent.keep(`${name} ${key}`, known);
      setHeld({ question, asked: known });
      before.current = args;
      return;
    }
    const wait = typeof pause === 'number' ? pause : pause(before.current, args);
    if (wait === Number.POSITIVE_INFINITY) return;
    let state: 'pausing' | 'asked' | 'over' = 'pausing';
    const onProgress = (progress: Progress): void => {
      if (state === 'asked') setHeld(({ asked }) => ({ question, asked: { state: 'waiting', last: latestGiven(asked), progress } }));
    };
    const ask = async (): Promise<void> => {
      state = 'asked';
      const asked = ahead.asked(name, args, changes);
      const early = asked === null ? null : await asked;
      if (state !== 'asked') return;
      const reply = early?.ok === true ? early : await desk.ask(name, args, { place, onProgress });
      if (state !== 'asked') return;
      // Somebody looks after all: a window that was taken for gone is there.
      if (!reply.ok && reply.trouble.code === 'cancelled') return ask();
      state = 'over';
      if (reply.ok && ofSheets.has(name)) recent.keep(`${name} ${key}`, { value: reply.value, args });
      setHeld(({ asked }) => ({
        question,
        asked: reply.ok
          ? { state: 'answered', value: reply.value, args }
          : { state: 'trouble', trouble: reply.trouble, last: latestGiven(asked) },
      }));
    };
    before.current = args;
    const timer = wait > 0 ? setTimeout(() => void ask(), wait) : null;
    if (timer === null) void ask();
    return () => {
      if (timer !== null) clearTimeout(timer);
      if (state === 'asked') desk.cancel(place);
      state = 'over';
    };
  }, [question, pause]);
  const nothing = args === null;
  return useMemo(() => {
    if (nothing) return { state: 'idle' };
    return held.question === question ? held.asked : (known ?? { state: 'waiting', last: latestGiven(held.asked), progress: null });
  }, [held, question, nothing, known]);
}

/** Several sheets are open, and each is come back to. */
const ofSheets: ReadonlySet<CallName> = new Set<CallName>(['verdict.of', 'odds.of', 'odds.advice', 'build.plan']);
/** For each of a dozen sheets what is asked of it, as it stands. */
const recent = recentAnswers<Given<unknown, unknown>>(36);

const recalled = <C extends CallName>(name: C, args: CallArgs<C>): Given<CallResult<C>, CallArgs<C>> | null =>
  ofSheets.has(name) ? (recent.recall(`${name} ${JSON.stringify(args)}`) as Given<CallResult<C>, CallArgs<C>> | null) : null;
