import path from 'node:path';
import type { Outcome, Trouble } from '../../../db/index.ts';
import type { Progress } from '../../../reasoner/index.ts';
import type { Room } from '../../bridge/call.ts';
import { cancelled } from '../../bridge/cancelled.ts';
import { noSuchCall } from '../../bridge/no-such-call.ts';
import type { AnyReply, JsonText, LogBug } from '../../bridge/receive.ts';
import { well } from '../../bridge/reply.ts';
import { type Hand, type HandOptions, handOf, type WorkerProgram } from './hand.ts';
import type { FromWorker, Role, Rooms } from './messages.ts';
import { slowLogIn } from './slow-log.ts';

/** What a host carries to the desk. */
export interface Question {
  /** Which window asks. */
  readonly window: string;
  /** Where in that window the answer goes; null for nowhere that another could take. */
  readonly place: string | null;
  /** The window's own count of its questions: what arrives is not always in the order it was asked. */
  readonly order: number;
  /** Unknown until it is found in the contract. */
  readonly name: unknown;
  /** Unknown until the worker that answers has read it, by the contract. */
  readonly args: JsonText;
  readonly onProgress?: (progress: Progress) => void;
}

export interface Answered {
  /** JSON of the reply, in UTF-8. */
  readonly text: Uint8Array<ArrayBuffer>;
  /** False where the argument was no JSON. */
  readonly read: boolean;
}

/** The desk as a host has it: workers that answer, while the host's own thread only carries questions and answers. */
export interface Staff {
  ask(question: Question): Promise<Answered>;
  /** Nobody looks at the place any more for what was asked up to this count. */
  cancel(window: string, place: string, upTo: number): void;
  /** The window is gone, and with it whoever waited. */
  leave(window: string): void;
  /** Calls the listener each time another atlas is reasoned over; gives back how to stop that. */
  onAtlasChanged(listener: () => void): () => void;
  /** Why there is no atlas to reason over; null where there is one. */
  missing(): Trouble | null;
  close(): Promise<void>;
}

export interface StaffOptions {
  readonly data: string;
  readonly packs: string;
  readonly program: WorkerProgram;
  readonly tell: (line: string) => void;
  readonly logBug: LogBug;
  /** Milliseconds between two looks whether another program has changed the atlas. */
  readonly watchEvery?: number;
  /** Milliseconds between two looks whether a backup is due. */
  readonly backupLookEvery?: number;
  /** Milliseconds within which a question that was taken back is mostly over. */
  readonly stopsWithin?: number;
  /** Whether a window can be asked what to do where the atlas is gone; otherwise that is why the desk cannot be opened. */
  readonly asksWhenMissing?: boolean;
}

/**
 * So many reason at once, at most; the last of them takes only what is answered in moments, so that such a call waits for nothing long. Each holds the compiled atlas: memory is
 * spent so that nobody waits.
 */
const backs = 3;

/** A question on its way. */
interface Pending {
  readonly id: number;
  readonly name: string;
  readonly room: Room;
  readonly asked: Omit<Question, 'name'>;
  readonly inner: boolean;
  /** Bytes of the argument, which is handed over whole. */
  readonly size: number;
  readonly since: number;
  readonly done: (answered: Answered) => void;
}

/**
 * Opens the desk of a data folder in workers of its own, or says why it cannot be opened. The front worker stays open; those that reason are started as they are needed,
 * the first of them at once.
 */
export const openStaff = async (options: StaffOptions): Promise<Outcome<Staff>> => {
  const {
    data,
    packs,
    program,
    tell,
    logBug,
    watchEvery = 1000,
    backupLookEvery = 60_000,
    stopsWithin = 60,
    asksWhenMissing = false,
  } = options;
  const logSlow = slowLogIn(path.join(data, 'logs'), () => new Date());
  const listeners = new Set<() => void>();
  const pending = new Map<number, Pending>();
  const waiting: Pending[] = [];
  /** Which question a back is at. */
  const at = new Map<Hand, number>();
  /** Backs whose question was taken back, and which are free at their next pulse. */
  const stopping = new Set<Hand>();
  /** Backs that have the atlas to reason over. */
  const ready = new Set<Hand>();
  /** Of a back that was started, the question it was started for. */
  const startedFor = new Map<Hand, number>();
  /** Questions of the window or the front that a hand was given. */
  const given = new Map<Hand, Set<number>>();
  let rooms: Rooms = {};
  let last = 0;
  let closing = false;
  let missing: Trouble | null = null;

  const handFor = (role: Role): Hand => {
    const hand: Hand = handOf({
      role,
      program,
      data,
      packs,
      watchEvery,
      backupLookEvery,
      asksWhenMissing,
      logBug,
      heard: (message) => heard(hand, message),
      ended: (trouble) => left(hand, trouble),
    } satisfies HandOptions);
    given.set(hand, new Set());
    return hand;
  };

  const heard = (hand: Hand, message: FromWorker): void => {
    switch (message.kind) {
      case 'tell':
        tell(message.line);
        break;
      case 'bug':
        logBug(message.place, message.error);
        break;
      case 'progress':
        pending.get(message.id)?.asked.onProgress?.(message.progress);
        break;
      case 'open':
        rooms = message.rooms;
        break;
      case 'ready':
        ready.add(hand);
        startedFor.delete(hand);
        pump();
        break;
      case 'missing':
        missing = message.trouble;
        if (missing === null) for (const listener of listeners) listener();
        break;
      case 'atlas changed':
        for (const listener of listeners) listener();
        break;
      case 'inner': {
        const { id, name, args } = message;
        const reply = (text: Uint8Array<ArrayBuffer>) => front.post({ kind: 'inner reply', id, text }, [text.buffer]);
        // What a write rests on is asked for by somebody who waits: it goes before what is long.
        if (closing) reply(textOf({ ok: false, trouble: closed }));
        else
          void put({ name, room: 'atlas', inner: true, asked: { window: '', place: null, order: 0, args } }).then(({ text }) =>
            reply(text),
          );
        break;
      }
      case 'reply':
        given.get(hand)?.delete(message.id);
        if (at.get(hand) === message.id) {
          at.delete(hand);
          stopping.delete(hand);
        }
        answer(message.id, message.text as Answered['text'], message.read);
        pump();
    }
  };

  /** A worker that ended leaves nobody waiting. */
  const left = (hand: Hand, trouble: Trouble | null): void => {
    at.delete(hand);
    stopping.delete(hand);
    ready.delete(hand);
    for (const id of given.get(hand) ?? []) answerWith(id, { ok: false, trouble: trouble ?? closed });
    given.get(hand)?.clear();
    // One that cannot be started is not started over and over for the same question.
    const waited = waiting.findIndex(({ id }) => id === startedFor.get(hand));
    startedFor.delete(hand);
    if (waited >= 0) for (const { id } of waiting.splice(waited, 1)) answerWith(id, { ok: false, trouble: trouble ?? closed });
    if (!closing) pump();
  };

  const answer = (id: number, text: Answered['text'], read = true, ended: 'answered' | 'cancelled' = 'answered'): void => {
    const one = pending.get(id);
    if (one === undefined) return;
    pending.delete(id);
    one.done({ text, read });
    if (one.inner) return;
    const milliseconds = performance.now() - one.since;
    void logSlow({ name: one.name, milliseconds, asked: one.size, answered: text.byteLength, ended });
  };
  const answerWith = (id: number, reply: AnyReply, ended: 'answered' | 'cancelled' = 'answered'): void =>
    answer(id, textOf(reply), true, ended);

  const front = handFor('front');
  const runs = handFor('runs');
  const back = Array.from({ length: backs }, () => handFor('back'));

  const give = (hand: Hand, { id, name, asked, inner }: Pending): void => {
    given.get(hand)?.add(id);
    const { args, window } = asked;
    // Bytes are handed over, not copied; nobody here looks at them.
    hand.post({ kind: 'ask', id, name, args, inner, window }, typeof args === 'string' ? [] : [args.buffer as ArrayBuffer]);
  };

  /**
   * Gives what waits to whoever is free. Where nobody is, one more is started, and the question goes to whoever is free first: over a large atlas one that starts takes far longer to
   * be there than one that is stopped takes to stop. While one is being stopped none is started, unless that is late.
   */
  const pump = (late = false): void => {
    const coming = new Set(back.filter((hand) => hand.started() && !ready.has(hand)));
    for (const one of [...waiting]) {
      const mine = back.filter((_, i) => one.room === 'atlas' || i < backs - 1);
      const free = mine.find((hand) => ready.has(hand) && !at.has(hand));
      if (free !== undefined) {
        waiting.splice(waiting.indexOf(one), 1);
        at.set(free, one.id);
        give(free, one);
        continue;
      }
      const next = mine.find((hand) => coming.delete(hand)) ?? mine.find((hand) => !hand.started());
      if (next === undefined || next.started()) continue;
      if (!late && mine.some((hand) => stopping.has(hand))) setTimeout(pump, stopsWithin, true);
      else {
        startedFor.set(next, one.id);
        void next.start();
      }
    }
  };

  const put = (one: Omit<Pending, 'id' | 'size' | 'since' | 'done'>): Promise<Answered> =>
    new Promise((done) => {
      last += 1;
      const question: Pending = { ...one, id: last, size: one.asked.args.length, since: performance.now(), done };
      pending.set(last, question);
      switch (one.room) {
        case 'store':
          return give(front, question);
        case 'runs':
          return give(runs, question);
        case 'atlas':
        case 'long':
          waiting.push(question);
          return pump();
      }
    });

  /** What is written goes on, and what is under way by a token until its window leaves; of what is reasoned nobody hears any more. */
  const drop = ({ id, room, inner }: Pending): void => {
    if (inner || room === 'store' || room === 'runs') return;
    const queued = waiting.findIndex((one) => one.id === id);
    if (queued >= 0) waiting.splice(queued, 1);
    for (const [hand, current] of at) {
      if (current !== id) continue;
      hand.stop(id);
      stopping.add(hand);
    }
    answerWith(id, cancelled, 'cancelled');
  };

  const askedFor = ({ window, place }: Pick<Question, 'window' | 'place'>): readonly Pending[] =>
    [...pending.values()].filter(({ asked }) => asked.window === window && asked.place === place);

  const staff: Staff = {
    ask: async ({ name, ...asked }) => {
      const room = typeof name === 'string' && Object.hasOwn(rooms, name) ? rooms[name] : undefined;
      if (room === undefined) return { text: textOf(noSuchCall), read: true };
      if (closing) return { text: textOf({ ok: false, trouble: closed }), read: true };
      if (asked.place !== null) {
        if (askedFor(asked).some((one) => one.asked.order > asked.order)) return { text: textOf(cancelled), read: true };
        staff.cancel(asked.window, asked.place, asked.order);
      }
      return put({ name: name as string, room, asked, inner: false });
    },
    cancel: (window, place, upTo) => {
      for (const one of askedFor({ window, place })) if (one.asked.order <= upTo) drop(one);
    },
    leave: (window) => {
      for (const one of [...pending.values()]) if (one.asked.window === window) drop(one);
      if (runs.started() && !closing) runs.post({ kind: 'left', window });
    },
    onAtlasChanged: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    missing: () => missing,
    close: async () => {
      closing = true;
      for (const one of waiting.splice(0)) answerWith(one.id, { ok: false, trouble: closed });
      // Readers first: whoever closes an atlas last folds its journal into it, and only the front may write.
      await Promise.all([...back, runs].map((hand) => hand.close()));
      await front.close();
    },
  };

  const trouble = await front.start();
  if (trouble !== null) return { ok: false, trouble };
  if (missing === null) void back[0]?.start();
  return well(staff);
};

const textOf = (reply: AnyReply): Answered['text'] => new TextEncoder().encode(JSON.stringify(reply));

const closed: Trouble = { code: 'closing', place: null, sentence: 'Kinplate is being closed. What was saved is there at the next start.' };
