import type { Completion, CompletionProgress } from '../../reasoner/index.ts';
import type { SearchState } from '../bridge/build-calls.ts';
import { Runs } from './runs.ts';

/** Searches for builds under way. */
export class Completions {
  readonly #runs = new Runs<CompletionProgress, Completion>();

  start(running: Generator<CompletionProgress, Completion, boolean | undefined>): string {
    return this.#runs.start(running, { looked: 0, share: 0, found: 0 });
  }

  /** Null for a token nobody was given, or whose search was dropped. */
  stateOf(token: string): SearchState | null {
    const state = this.#runs.stateOf(token);
    return state?.state === 'done' ? { state: 'done', completion: state.result } : state;
  }

  /** Stops a search where it is; what it has found so far is its answer. False for a token nobody was given. */
  cancel(token: string): boolean {
    return this.#runs.cancel(token);
  }
}
