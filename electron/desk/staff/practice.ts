import { setTimeout as pause } from 'node:timers/promises';
import type { Store } from '../../../db/index.ts';
import { answer, type CompiledAtlas, type Sheet } from '../../../reasoner/index.ts';

/** What a worker does unasked stops after so much of its own time, ms. */
const longest = 600;
/** Sheets it takes, each after each of its entries. */
const most = 12;

export interface IdleOptions {
  /** Whether something is being answered. */
  readonly busy: () => boolean;
  /** So long nothing may have been asked, ms. */
  readonly rest: number;
  /** The worker ends. */
  readonly over: AbortSignal;
}

/** Time that nobody else wants: a rest, and then one turn after another. */
export const idleTime = ({ busy, rest, over }: IdleOptions) => {
  const wait = (ms: number): Promise<void> => pause(ms, undefined, { signal: over }).catch(() => undefined);
  return {
    /** Resolves when it may begin. */
    begun: (): Promise<void> => wait(rest),
    /** What was asked meanwhile goes first, and a rest behind it; false once the worker ends, for which nothing here is waited for. */
    turn: async (): Promise<boolean> => {
      await wait(0);
      while (busy() && !over.aborted) await wait(rest);
      return !over.aborted;
    },
  };
};

export interface PracticeOptions {
  /** Lets whoever asks something go first; false once there is nothing more to practise for. */
  readonly turn: () => Promise<boolean>;
  readonly now?: () => number;
}

/**
 * The machine code of the reasoner is made while it runs, and its first answers take ten times as long as later ones. A worker with nothing to do therefore judges sheets
 * that are there, saved or of a sample, as if they were being entered; the answers are dropped. (B2: whatever was judged before changes no answer.)
 * @returns how many answers it gave
 */
export const practise = async (
  sheets: Pick<Store['sheets'], 'list' | 'open'>,
  atlas: CompiledAtlas,
  options: PracticeOptions,
): Promise<number> => {
  const { turn, now = () => performance.now() } = options;
  const listed = await sheets.list();
  if (!listed.ok) return 0;
  let [given, spent] = [0, 0];
  for (const { id } of listed.value.filter(({ kind }) => kind === 'found').slice(-most)) {
    const opened = await sheets.open(id);
    if (!opened.ok) continue;
    for (const sheet of entryByEntry(opened.value)) {
      if (spent >= longest || !(await turn())) return given;
      const began = now();
      answer(atlas, sheet);
      spent += now() - began;
      given += 1;
    }
  }
  return given;
};

/** The sheet after its first entry, its second and so on: enough to be quick is every second one. */
const entryByEntry = ({ observations, ...sheet }: Sheet): readonly Sheet[] =>
  observations.flatMap((_, index) => (index % 2 === 0 ? [{ ...sheet, observations: observations.slice(0, index + 1) }] : []));
