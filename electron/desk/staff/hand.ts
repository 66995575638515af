import { Worker } from 'node:worker_threads';
import type { Trouble } from '../../../db/index.ts';
import type { LogBug } from '../../bridge/receive.ts';
import { allStopped, type FromWorker, flagBytes, stopped, type ToWorker, type WorkerSetting } from './messages.ts';

/** The built worker, and what it is run with. */
export interface WorkerProgram {
  readonly file: string;
  readonly argv?: readonly string[];
}

export interface HandOptions extends Omit<WorkerSetting, 'flags'> {
  readonly program: WorkerProgram;
  /** Everything it says but that it cannot open. */
  readonly heard: (message: FromWorker) => void;
  /** It ended: of itself (a trouble where it could not open), or because it was closed (null). It can be started again. */
  readonly ended: (trouble: Trouble | null) => void;
  readonly logBug: LogBug;
}

/** One worker thread of the desk: started when first needed, and again after it ended. */
export interface Hand {
  readonly started: () => boolean;
  /** Resolves once it answers; with the trouble where it does not. */
  readonly start: () => Promise<Trouble | null>;
  /** Messages wait until it is open. */
  readonly post: (message: ToWorker, transfer?: readonly ArrayBuffer[]) => void;
  /** Has the question of this number stopped at its next pulse. */
  readonly stop: (id: number) => void;
  /** Ends it in order: what it writes is finished, what it reasons is stopped, its store is closed. */
  readonly close: () => Promise<void>;
}

/** A worker that does not end when asked, because it hangs in machine code, is ended after so many milliseconds. */
const patience = 10_000;

/** Room for what is soon garbage, MiB. Left to itself it grows to four times as much in each worker, and answers take no less processor time for it. */
const resourceLimits = { maxYoungGenerationSizeMb: 12 };

export const handOf = ({ program, heard, ended, logBug, ...set }: HandOptions): Hand => {
  const { role } = set;
  const flags = new SharedArrayBuffer(flagBytes);
  const shared = new Int32Array(flags);
  let running: { readonly worker: Worker; readonly open: Promise<Trouble | null>; readonly exit: Promise<void> } | null = null;
  let closing = false;

  const start = (): Promise<Trouble | null> => {
    if (running !== null) return running.open;
    const setting: WorkerSetting = { ...set, flags };
    const worker = new Worker(program.file, {
      workerData: setting,
      argv: [...(program.argv ?? [])],
      name: `kinplate ${role}`,
      resourceLimits,
    });
    let failed: Trouble | null = null;
    const exit = new Promise<void>((resolve) => {
      worker.once('exit', (code) => {
        running = null;
        if (!closing && failed === null) logBug('a worker of the desk', new Error(`the ${role} worker ended by itself (code ${code})`));
        ended(closing ? null : (failed ?? deskStopped));
        resolve();
      });
    });
    const open = new Promise<Trouble | null>((resolve) => {
      worker.on('message', (message: FromWorker) => {
        if (message.kind === 'open') {
          heard(message);
          resolve(null);
        } else if (message.kind === 'not open') {
          failed = message.trouble;
          resolve(failed);
        } else heard(message);
      });
      void exit.then(() => resolve(failed ?? deskStopped));
    });
    worker.on('error', (error) => logBug('a worker of the desk', error));
    running = { worker, open, exit };
    return open;
  };

  return {
    started: () => running !== null,
    start,
    post: (message, transfer = []) => {
      void start();
      running?.worker.postMessage(message, transfer);
    },
    stop: (id) => void Atomics.store(shared, stopped, id),
    close: async () => {
      closing = true;
      if (running === null) return;
      const { worker, exit } = running;
      // What the front writes is finished; nobody waits any more for what a back reasons.
      if (role !== 'front') Atomics.store(shared, allStopped, 1);
      worker.postMessage({ kind: 'close' } satisfies ToWorker);
      const late = setTimeout(() => void worker.terminate(), patience);
      await exit;
      clearTimeout(late);
    },
  };
};

/** To whoever waited for an answer of a worker that ended. */
export const deskStopped: Trouble = {
  code: 'desk-stopped',
  place: null,
  sentence:
    'The part of the program that answers stopped before it had answered, and is started again at the next question. What was saved is still there; look whether this step was done before doing it again.',
};
