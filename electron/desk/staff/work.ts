import type { MessagePort } from 'node:worker_threads';
import type { Outcome, Store } from '../../../db/index.ts';
import type { Atlas, CompiledAtlas, Pulse } from '../../../reasoner/index.ts';
import { Cancelled } from '../../bridge/cancelled.ts';
import { contract } from '../../bridge/contract.ts';
import type { Desk } from '../../bridge/desk.ts';
import { type AnyReply, type JsonText, type LogBug, receiveText, replied } from '../../bridge/receive.ts';
import { well } from '../../bridge/reply.ts';
import { backupSchedule } from '../backup-schedule.ts';
import { atlasFile } from '../data-folder.ts';
import { editionOf, KeptAtlas } from '../kept-atlas.ts';
import { missingDesk } from '../missing-atlas.ts';
import { openDesk } from '../open-desk.ts';
import { openAtlas, openHouse } from '../open-house.ts';
import { type InnerName, type Reasoning, reasoningOver } from '../reasoning.ts';
import { leaving } from '../runs.ts';
import { allStopped, type FromWorker, stopped, type ToWorker, type WorkerSetting } from './messages.ts';
import { idleTime, practise } from './practice.ts';

/** What a desk is made over; a test puts calls of its own in. */
export type MakeDesk = (store: Store, kept: KeptAtlas, reasoning: Reasoning, pulse: Pulse) => Desk;

/** Progress is told so often at most, in milliseconds. */
const tellEvery = 100;
/** Whoever reasons practises when nothing was asked for so long, in milliseconds: a start is over by then. */
const practiseAfter = 2500;
/** A worker that met a bug nobody caught closes its store and ends with this. */
const bugExit = 70;

/**
 * The life of one worker: opens its store, answers what it is asked, and closes the store before it ends, so that a driver with machine code is never cut off in the middle.
 * Arguments are unknown until `receiveText` has read them here, once, by the contract.
 */
export const work = async (
  setting: WorkerSetting,
  port: MessagePort,
  makeDesk: MakeDesk = (store, kept, reasoning) => openDesk(store, kept, reasoning, setting.packs),
): Promise<void> => {
  const flags = new Int32Array(setting.flags);
  const post = (message: FromWorker, transfer: readonly ArrayBuffer[] = []): void => port.postMessage(message, transfer);
  const logBug: LogBug = (place, error) => post({ kind: 'bug', place, error: plainly(error) });

  /** The question being answered by a back; 0 where there is none, or many. */
  let current = 0;
  let toldAt = Number.NEGATIVE_INFINITY;
  const pulse: Pulse = (progress) => {
    if (current === 0) return;
    if (Atomics.load(flags, stopped) === current || Atomics.load(flags, allStopped) === 1) throw new Cancelled();
    if (progress === undefined || performance.now() < toldAt + tellEvery) return;
    toldAt = performance.now();
    post({ kind: 'progress', id: current, progress });
  };

  const ending = new AbortController();
  const over = ending.signal;
  const underWay = new Set<Promise<unknown>>();
  const until = (one: Promise<unknown>): void => {
    underWay.add(one);
    void one.finally(() => underWay.delete(one));
  };
  const { begun, turn } = idleTime({ busy: () => current !== 0, rest: practiseAfter, over });
  const practiseWhenIdle = async (store: Store, atlas: CompiledAtlas): Promise<void> => {
    await begun();
    if (await turn()) until(practise(store.sheets, atlas, { turn }).catch((error: unknown) => logBug('practising', error)));
  };

  /** What was read is kept for the next start, in time that nobody else wants. */
  const keepWhenIdle = async (store: Store, read: Atlas): Promise<void> => {
    await begun();
    const giveWay = async (): Promise<void> => {
      if (!(await turn())) throw new Cancelled();
    };
    until(store.atlas.keep(read, giveWay).catch((error: unknown) => logBug('keeping what was read', error)));
  };

  const { reasoning, answered } = askingBacks(post);
  let own: Reasoning | null = null;
  const deskOver = (store: Store): Desk => {
    if (setting.role === 'front') return makeDesk(store, new NoAtlas(store), reasoning, pulse);
    const kept = new KeptAtlas(store, pulse, (read) => {
      if (setting.role === 'back') void keepWhenIdle(store, read);
    });
    own = reasoningOver(store, kept);
    if (setting.role === 'back')
      kept
        .now()
        .finally(() => post({ kind: 'ready' }))
        .then((atlas) => practiseWhenIdle(store, atlas))
        .catch((error: unknown) => logBug('the first reading of the atlas', error));
    return makeDesk(store, kept, own, pulse);
  };

  const say = (line: string): void => post({ kind: 'tell', line });
  const house = await open(setting, say, deskOver);
  const asks = !house.ok && setting.role === 'front' && setting.asksWhenMissing && house.trouble.code === 'atlas-missing';
  if (!house.ok && !asks) {
    post({ kind: 'not open', trouble: house.trouble });
    port.close();
    return;
  }
  let store: Store | null = null;
  let desk: Desk;
  const windows = new Map<string, AbortController>();
  /** What tells that a window left. */
  const leftBy = (window: string): AbortSignal => {
    const known = windows.get(window) ?? new AbortController();
    windows.set(window, known);
    return known.signal;
  };

  const answer = async ({ id, name, args, inner, window }: Extract<ToWorker, { kind: 'ask' }>): Promise<void> => {
    if (setting.role === 'back') current = id;
    const received = () => receiveText(desk, name, args, logBug);
    const { reply, read } = inner
      ? await innerReply(own, name, args, logBug)
      : await (setting.role === 'runs' ? leaving.run(leftBy(window), received) : received());
    if (setting.role === 'back') current = 0;
    const text = new TextEncoder().encode(JSON.stringify(reply));
    post({ kind: 'reply', id, text, read }, [text.buffer]);
  };

  const timers: NodeJS.Timeout[] = [];
  const keep = (kept: Store): void => {
    if (setting.role !== 'front') return;
    timers.push(watchAtlas(kept, setting.watchEvery, () => post({ kind: 'atlas changed' })));
    if (!kept.writable) return;
    const schedule = backupSchedule(
      kept.backups,
      () => new Date(),
      ({ sentence }) => say(sentence),
      () => over.aborted,
    );
    const lookForBackup = (): void => {
      // A copy under way is given up in order before the worker ends.
      until(schedule.look().catch((error: unknown) => logBug('the hourly backup', error)));
    };
    timers.push(setInterval(lookForBackup, setting.backupLookEvery));
  };
  const answerBy = (opened: { readonly store: Store; readonly desk: Desk }): void => {
    ({ store, desk } = opened);
    keep(opened.store);
  };
  const close = async (code: number): Promise<void> => {
    if (over.aborted) return;
    ending.abort();
    for (const timer of timers) clearInterval(timer);
    await Promise.allSettled(underWay);
    await store?.close();
    process.exit(code);
  };
  if (house.ok) answerBy(house.value);
  else {
    post({ kind: 'missing', trouble: house.trouble });
    desk = missingDesk(
      setting.data,
      house.trouble,
      () => new Date(),
      async (anew) => {
        const opened = await openHouse(setting.data, setting.packs, say, deskOver, anew);
        if (!opened.ok) return opened;
        answerBy(opened.value);
        post({ kind: 'missing', trouble: null });
        return well(null);
      },
    );
  }
  const die = (place: string) => (error: unknown) => {
    logBug(place, error);
    underWay.clear();
    close(bugExit).catch(() => process.exit(bugExit));
  };
  process.on('uncaughtException', die('a worker of the desk'));
  process.on('unhandledRejection', die('a worker of the desk'));

  port.on('message', (message: ToWorker) => {
    switch (message.kind) {
      case 'ask':
        until(answer(message));
        break;
      case 'inner reply':
        answered(message.id, message.text);
        break;
      case 'left':
        windows.get(message.window)?.abort();
        windows.delete(message.window);
        break;
      case 'close':
        close(0).catch(die('closing the atlas'));
    }
  });
  post({ kind: 'open', rooms: Object.fromEntries(Object.entries(contract).map(([name, { room }]) => [name, room])) });
};

/** Only the front makes, brings up to date and migrates; the others come after it and read. */
const open = (
  { role, data, packs }: WorkerSetting,
  tell: (line: string) => void,
  deskOver: (store: Store) => Desk,
): Promise<Outcome<{ readonly store: Store; readonly desk: Desk }>> => {
  if (role === 'front') return openHouse(data, packs, tell, deskOver);
  return openAtlas(atlasFile(data), true).then((opened) =>
    opened.ok ? { ok: true, value: { store: opened.value, desk: deskOver(opened.value) } } : opened,
  );
};

/** The front compiles no atlas: a call that needs one belongs into another room, and to find that out is a bug. */
class NoAtlas extends KeptAtlas {
  override now(): Promise<never> {
    return Promise.reject(new Error('a call that reasons was asked of the worker that writes: its room in the contract is wrong'));
  }
}

/** The front's own questions to the backs, by way of the host. */
const askingBacks = (post: (message: FromWorker) => void) => {
  const waiting = new Map<number, (reply: AnyReply) => void>();
  let last = 0;
  const ask = (name: InnerName) => (asked: unknown) =>
    new Promise<never>((resolve) => {
      last += 1;
      waiting.set(last, resolve as unknown as (reply: AnyReply) => void);
      post({ kind: 'inner', id: last, name, args: JSON.stringify(asked) });
    });
  const reasoning: Reasoning = { judgeCase: ask('judgeCase'), judgeDrill: ask('judgeDrill'), dayOf: ask('dayOf') };
  return {
    reasoning,
    answered: (id: number, text: Uint8Array): void => {
      const resolve = waiting.get(id);
      waiting.delete(id);
      resolve?.(JSON.parse(new TextDecoder().decode(text)) as AnyReply);
    },
  };
};

/** An inner question comes from our own front, which has parsed what it asks; its failures are those of any call. */
const innerReply = async (reasoning: Reasoning | null, name: string, args: JsonText, logBug: LogBug) => {
  const answer = reasoning?.[name as InnerName] as (asked: unknown) => Promise<AnyReply>;
  const asked: unknown = JSON.parse(typeof args === 'string' ? args : new TextDecoder().decode(args));
  return { reply: await replied(name, () => answer(asked), logBug), read: true };
};

const watchAtlas = (store: Store, every: number, changed: () => void): NodeJS.Timeout => {
  let last: string | null = null;
  let looking = false;
  const look = async (): Promise<void> => {
    if (looking) return;
    looking = true;
    // An atlas in use by another program is looked at again next time.
    const edition = await editionOf(store).catch(() => null);
    looking = false;
    if (edition === null) return;
    if (last !== null && last !== edition) changed();
    last = edition;
  };
  void look();
  return setInterval(() => void look(), every);
};

/** An error as it can cross: what cannot be cloned is said. */
const plainly = (error: unknown): unknown => {
  try {
    return structuredClone(error);
  } catch {
    return new Error(error instanceof Error ? `${error.message}\n${error.stack}` : String(error));
  }
};
