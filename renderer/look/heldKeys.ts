import { keyAgain, type Struck, writes } from './keyAgain.ts';

/**
 * Keys struck while the place they are meant for is still on its way: an entry that is being looked at by the desk, the next check that is being worked out, a sheet
 * on another screen. They are held, in order, and struck again once it is there. Escape, a tap, or a dialog that comes between gives them up.
 */
interface Waiting {
  /** The editor of an entry, which tells by itself that it is there; or an answer, which whoever asked for it tells. */
  readonly for: 'entry' | 'answer';
  /** Whether what is coming was in sight when it was asked for. Of what was not, a value is kept, and Enter is not: nobody takes an entry unseen. */
  readonly inSight: boolean;
  /** It was given up. */
  dropped(): void;
}

export interface Hold {
  /** It is there, and what was struck is meant for where the focus is now. */
  end(): void;
  /** It will not come: what was struck goes where the focus is as far as it writes, so that it is seen. */
  never(): void;
  /** A question came between: what was struck was not meant for it. */
  drop(): void;
}

let struck: Struck[] = [];
let unseen = false;
let again = false;
let heldBack: () => void = () => undefined;
const waiting = new Set<Waiting>();

/** Holds every key from now on. Who waits for several things holds for each; what was struck is struck again after the last. */
export const holdKeys = (wait: Waiting): Hold => {
  if (waiting.size === 0 && !again) {
    struck = [];
    unseen = false;
    window.addEventListener('keydown', hold, true);
    window.addEventListener('pointerdown', giveUp, true);
  }
  waiting.add(wait);
  return {
    end: () => endOf([wait], false),
    never: () => endOf([wait], true),
    drop: () => {
      if (waiting.has(wait)) giveUp();
    },
  };
};

/**
 * The editor of an entry is there and has the focus: it gets what was struck for it.
 * @param tell where Enter was struck before anybody saw what is to be entered: what was typed stands there and is not taken
 */
export const entryIsThere = (tell: () => void): void => {
  heldBack = tell;
  endOf(
    [...waiting].filter((wait) => wait.for === 'entry'),
    false,
  );
};

/** Whether the desk is being asked about an entry. */
export const answerAwaited = (): boolean => [...waiting].some((wait) => wait.for === 'answer');

const endOf = (all: readonly Waiting[], never: boolean): void => {
  for (const wait of all) {
    if (waiting.delete(wait) && !wait.inSight) unseen = true;
  }
  if (all.length > 0 && waiting.size === 0) void strikeAgain(never);
};

const giveUp = (): void => {
  const all = [...waiting];
  waiting.clear();
  struck = [];
  stop();
  for (const { dropped } of all) dropped();
};

const stop = (): void => {
  window.removeEventListener('keydown', hold, true);
  window.removeEventListener('pointerdown', giveUp, true);
};

const hold = (event: KeyboardEvent): void => {
  // Struck by this page itself, or letters still being put together.
  if (!event.isTrusted || event.isComposing) return;
  if (document.querySelector('dialog[open]') !== null) {
    giveUp();
    return;
  }
  const { key, ctrlKey, metaKey, altKey, shiftKey } = event;
  const held = { key, ctrl: ctrlKey || metaKey, shift: shiftKey };
  if (altKey || (held.ctrl && key !== 'Enter') || /^(F\d+|Control|Meta|Shift|Alt.*|CapsLock)$/.test(key)) return;
  event.preventDefault();
  event.stopPropagation();
  if (key === 'Escape') giveUp();
  else struck.push(held);
};

/** One after another, each when the window has drawn what the last one did; keys struck meanwhile come behind. */
const strikeAgain = async (onlyWhatWrites: boolean): Promise<void> => {
  if (again) return;
  again = true;
  try {
    for (let next = struck.shift(); next !== undefined; next = struck.shift()) {
      if (onlyWhatWrites && !writes(next)) break;
      if (unseen && next.key === 'Enter') {
        heldBack();
        break;
      }
      keyAgain(next);
      await drawn();
      // What was struck asked for something that must be waited for again.
      if (waiting.size > 0) return;
    }
    struck = [];
    stop();
  } finally {
    again = false;
  }
};

/** React draws what an event did in a microtask of its own, before this one. */
const drawn = (): Promise<void> => new Promise((done) => queueMicrotask(done));
