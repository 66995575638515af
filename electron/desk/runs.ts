import { AsyncLocalStorage } from 'node:async_hooks';
import { randomUUID } from 'node:crypto';
import { refusal } from '../bridge/reply.ts';

/** Where one run stands. */
export type RunState<Progress, Result> =
  | { readonly state: 'running'; readonly progress: Progress }
  | { readonly state: 'done'; readonly result: Result };

type Ended<Result> = { readonly state: 'done'; readonly result: Result } | { readonly state: 'failed'; readonly error: unknown };

/** While a window is answered: what tells that it left. What is begun for it stops then; nobody else has its token. */
export const leaving = new AsyncLocalStorage<AbortSignal>();

type Running<Progress, Result> = Generator<Progress, Result, boolean | undefined>;

/**
 * Long answers under way, by a token that says nothing. Each runs a little at a time, so that other calls are answered in between; a
 * generator that is answered with true stops where it is, and what it has is its answer.
 */
export class Runs<Progress, Result> {
  readonly #states = new Map<string, RunState<Progress, Result> | Ended<Result>>();
  readonly #cancelled = new Set<string>();
  /** Finished runs nobody fetched are dropped, oldest first, beyond this. */
  readonly #keep: number;
  /** Milliseconds one turn may take. */
  readonly #turn: number;

  constructor({ keep = 16, turn = 12 }: { readonly keep?: number; readonly turn?: number } = {}) {
    this.#keep = keep;
    this.#turn = turn;
  }

  /** `before` is where it stands until its first turn. */
  start(running: Running<Progress, Result>, before: Progress): string {
    const token = randomUUID();
    const left = leaving.getStore() ?? null;
    this.#states.set(token, { state: 'running', progress: before });
    setImmediate(() => this.#go(token, running, left));
    return token;
  }

  /** Null for a token nobody was given, or whose run was dropped. A finished run stays until it is dropped. @throws what the run threw, to whoever asks about it and to no other */
  stateOf(token: string): RunState<Progress, Result> | null {
    const state = this.#states.get(token) ?? null;
    if (state?.state === 'failed') throw state.error;
    return state;
  }

  /** Stops a run where it is. False for a token nobody was given. */
  cancel(token: string): boolean {
    if (!this.#states.has(token)) return false;
    this.#cancelled.add(token);
    return true;
  }

  #go(token: string, running: Running<Progress, Result>, left: AbortSignal | null): void {
    const until = performance.now() + this.#turn;
    let ended: Ended<Result> | null = null;
    try {
      while (ended === null) {
        const step = running.next(this.#cancelled.has(token) || left?.aborted === true);
        if (step.done) ended = { state: 'done', result: step.value };
        else {
          this.#states.set(token, { state: 'running', progress: step.value });
          if (performance.now() >= until) break;
        }
      }
    } catch (error) {
      ended = { state: 'failed', error };
    }
    if (ended === null) setImmediate(() => this.#go(token, running, left));
    else this.#finish(token, ended);
  }

  #finish(token: string, ended: Ended<Result>): void {
    this.#cancelled.delete(token);
    this.#states.delete(token);
    this.#states.set(token, ended);
    const over = [...this.#states].filter(([, { state }]) => state !== 'running');
    for (const [old] of over.slice(0, Math.max(0, over.length - this.#keep))) this.#states.delete(old);
  }
}

/** Said of a token nobody was given, where cases are judged. */
export const noJudging = refusal(
  'not-found',
  'token',
  'No such judging is under way; it was begun before Kinplate was last started, or dropped since. Begin it again.',
);
