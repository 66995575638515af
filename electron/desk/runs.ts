import { randomUUID } from 'node:crypto';
import { refusal } from '../bridge/reply.ts';

/** Where one run stands. */
export type RunState<Progress, Result> =
  | { readonly state: 'running'; readonly progress: Progress }
  | { readonly state: 'done'; readonly result: Result };

type Running<Progress, Result> = Generator<Progress, Result, boolean | undefined>;

/**
 * Long answers under way, by a token that says nothing. Each runs a little at a time, so that other calls are answered in between; a
 * generator that is answered with true stops where it is, and what it has is its answer.
 */
export class Runs<Progress, Result> {
  readonly #states = new Map<string, RunState<Progress, Result>>();
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
    this.#states.set(token, { state: 'running', progress: before });
    setImmediate(() => this.#go(token, running));
    return token;
  }

  /** Null for a token nobody was given, or whose run was dropped. A finished run stays until it is dropped. */
  stateOf(token: string): RunState<Progress, Result> | null {
    return this.#states.get(token) ?? null;
  }

  /** Stops a run where it is. False for a token nobody was given. */
  cancel(token: string): boolean {
    if (!this.#states.has(token)) return false;
    this.#cancelled.add(token);
    return true;
  }

  #go(token: string, running: Running<Progress, Result>): void {
    const until = performance.now() + this.#turn;
    do {
      const step = running.next(this.#cancelled.has(token));
      if (step.done) {
        this.#finish(token, step.value);
        return;
      }
      this.#states.set(token, { state: 'running', progress: step.value });
    } while (performance.now() < until);
    setImmediate(() => this.#go(token, running));
  }

  #finish(token: string, result: Result): void {
    this.#cancelled.delete(token);
    this.#states.delete(token);
    this.#states.set(token, { state: 'done', result });
    const done = [...this.#states].filter(([, { state }]) => state === 'done');
    for (const [old] of done.slice(0, Math.max(0, done.length - this.#keep))) this.#states.delete(old);
  }
}

/** Said of a token nobody was given, where cases are judged. */
export const noJudging = refusal(
  'not-found',
  'token',
  'No such judging is under way; it was started before Kinplate was, or dropped since. Start it again.',
);
