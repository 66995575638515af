import { randomUUID } from 'node:crypto';
import type { Completion, CompletionProgress } from '../../reasoner/index.ts';
import type { SearchState } from '../bridge/contract.ts';

type Running = Generator<CompletionProgress, Completion, boolean | undefined>;

/** Searches under way, by a token that says nothing. Each runs a little at a time, so that other calls are answered in between. */
export class Completions {
  readonly #states = new Map<string, SearchState>();
  readonly #cancelled = new Set<string>();
  /** Finished searches nobody fetched are dropped, oldest first, beyond this. */
  readonly #keep: number;
  /** Milliseconds one turn may take. */
  readonly #turn: number;

  constructor({ keep = 16, turn = 12 }: { readonly keep?: number; readonly turn?: number } = {}) {
    this.#keep = keep;
    this.#turn = turn;
  }

  start(running: Running): string {
    const token = randomUUID();
    this.#states.set(token, { state: 'running', progress: { looked: 0, share: 0, found: 0 } });
    setImmediate(() => this.#go(token, running));
    return token;
  }

  /** Null for a token nobody was given, or whose search was dropped. A finished search stays until it is dropped. */
  stateOf(token: string): SearchState | null {
    return this.#states.get(token) ?? null;
  }

  /** Stops a search where it is; what it has found so far is its answer. False for a token nobody was given. */
  cancel(token: string): boolean {
    if (!this.#states.has(token)) return false;
    this.#cancelled.add(token);
    return true;
  }

  #go(token: string, running: Running): void {
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

  #finish(token: string, completion: Completion): void {
    this.#cancelled.delete(token);
    this.#states.delete(token);
    this.#states.set(token, { state: 'done', completion });
    const done = [...this.#states].filter(([, { state }]) => state === 'done');
    for (const [old] of done.slice(0, Math.max(0, done.length - this.#keep))) this.#states.delete(old);
  }
}
