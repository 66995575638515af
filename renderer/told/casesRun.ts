import type { Bridge, CallArgs, CallResult, Trouble } from '../../electron/bridge/contract.ts';

export type NotMade = CallArgs<'changes.retell'>['of'];
export type CasesTold = Extract<CallResult<'changes.retelling'>, { readonly state: 'done' }>['result'];

export type CasesStand =
  | { readonly state: 'none' }
  | { readonly state: 'running'; readonly judged: number; readonly of: number }
  /** `current`: false where the atlas changed while it ran. */
  | { readonly state: 'done'; readonly result: CasesTold; readonly current: boolean }
  | { readonly state: 'trouble'; readonly trouble: Trouble };

interface Run {
  token: string | null;
  stopped: boolean;
  readonly tell: (stands: CasesStand) => void;
}

/** The judging of saved cases by one change after another: one run at a time, and of a run that was let go of nobody hears any more. */
export class CasesRun {
  readonly #desk: Pick<Bridge, 'ask'>;
  readonly #pause: () => Promise<void>;
  #run: Run | null = null;
  #beginning: Promise<unknown> = Promise.resolve();

  /** @param pause between two questions how far it is */
  constructor(desk: Pick<Bridge, 'ask'>, pause: () => Promise<void>) {
    this.#desk = desk;
    this.#pause = pause;
  }

  /** Lets go of the run before it. Resolves once it has come to its end, or was let go of. */
  async start(of: NotMade, tell: Run['tell']): Promise<void> {
    this.drop();
    const mine: Run = { token: null, stopped: false, tell };
    this.#run = mine;
    tell({ state: 'running', judged: 0, of: 0 });
    // To begin makes an atlas anew, which nothing can stop: one at a time, or whoever types on would have many made.
    await this.#beginning;
    if (this.#run !== mine) return;
    const beginning = this.#desk.ask('changes.retell', { of });
    this.#beginning = beginning;
    const begun = await beginning;
    if (!begun.ok) return this.#end(mine, { state: 'trouble', trouble: begun.trouble });
    const { token } = begun.value;
    mine.token = token;
    if (this.#run !== mine || mine.stopped) await this.#desk.ask('changes.stopRetelling', { token });
    while (this.#run === mine) {
      const reply = await this.#desk.ask('changes.retelling', { token });
      if (this.#run !== mine) return;
      if (!reply.ok) return this.#end(mine, { state: 'trouble', trouble: reply.trouble });
      const { value } = reply;
      if (value.state === 'done') return this.#end(mine, { state: 'done', result: value.result, current: value.current });
      tell({ state: 'running', ...value.progress });
      await this.#pause();
    }
  }

  /** Stops it where it is; what was judged until then is told. */
  stop(): void {
    if (this.#run === null) return;
    this.#run.stopped = true;
    this.#stopAt(this.#run);
  }

  /** Nobody wants to hear of it any more. */
  drop(): void {
    const run = this.#run;
    if (run === null) return;
    this.#run = null;
    this.#stopAt(run);
    run.tell({ state: 'none' });
  }

  #stopAt({ token }: Run): void {
    if (token !== null) void this.#desk.ask('changes.stopRetelling', { token });
  }

  #end(mine: Run, stands: CasesStand): void {
    if (this.#run !== mine) return;
    this.#run = null;
    mine.tell(stands);
  }
}
