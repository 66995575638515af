import { beforeEach, describe, expect, test, vi } from 'vitest';
import { answerAwaited, entryIsThere, type Hold, holdKeys } from '../../../renderer/look/heldKeys.ts';

/** As much of a browser as keys need: who listens first, where the focus is, and a place that writes what nobody forbade. */
type Listener = (event: Pressed) => void;
class Pressed {
  readonly isTrusted: boolean = false;
  readonly isComposing: boolean = false;
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey = false;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
  defaultPrevented = false;
  stopped = false;
  constructor(_: string, init: { key: string; ctrlKey?: boolean; altKey?: boolean; shiftKey?: boolean }) {
    this.key = init.key;
    this.ctrlKey = init.ctrlKey ?? false;
    this.altKey = init.altKey ?? false;
    this.shiftKey = init.shiftKey ?? false;
  }
  preventDefault() {
    this.defaultPrevented = true;
  }
  stopPropagation() {
    this.stopped = true;
  }
}
class Element {
  matches = (_: string): boolean => false;
}
class Input extends Element {
  readonly type = 'text';
  text = '';
  readonly taken: string[] = [];
  readonly form = { requestSubmit: () => void this.taken.push(this.text) };
  /** What the window does at a key, before the place writes it. */
  hears: (key: string) => void = () => undefined;
  dispatchEvent(event: Pressed): boolean {
    this.hears(event.key);
    return !event.defaultPrevented;
  }
}
class Button extends Element {}

let listeners: Map<string, Set<Listener>>;
let focus: Input;
let dialog: boolean;
/** A key of the keyboard: held back by who listens first, else it goes where the focus is. */
const press = (key: string, { ctrl = false, alt = false, trusted = true, composing = false } = {}): void => {
  const event = Object.assign(new Pressed('keydown', { key, ctrlKey: ctrl, altKey: alt }), { isTrusted: trusted, isComposing: composing });
  for (const hear of listeners.get('keydown') ?? []) hear(event);
  if (!event.stopped && focus.dispatchEvent(event) && key.length === 1 && !ctrl) focus.text += key;
};
const tap = (): void => {
  for (const hear of listeners.get('pointerdown') ?? []) hear(new Pressed('pointerdown', { key: '' }));
};
const struckAgain = () => new Promise((done) => setImmediate(done));
const wait = (over: Partial<Parameters<typeof holdKeys>[0]> = {}): Hold =>
  holdKeys({ for: 'answer', inSight: true, dropped: () => undefined, ...over });

beforeEach(() => {
  listeners = new Map([
    ['keydown', new Set()],
    ['pointerdown', new Set()],
  ]);
  focus = new Input();
  dialog = false;
  vi.stubGlobal('window', {
    addEventListener: (kind: string, hear: Listener) => listeners.get(kind)?.add(hear),
    removeEventListener: (kind: string, hear: Listener) => listeners.get(kind)?.delete(hear),
  });
  vi.stubGlobal('document', {
    get activeElement() {
      return focus;
    },
    querySelector: () => (dialog ? {} : null),
    execCommand: (command: string, _: boolean, text = '') => {
      focus.text = command === 'delete' ? focus.text.slice(0, -1) : focus.text + text;
    },
  });
  for (const [name, of] of [
    ['KeyboardEvent', Pressed],
    ['HTMLElement', Element],
    ['HTMLInputElement', Input],
    ['HTMLButtonElement', Button],
  ] as const)
    vi.stubGlobal(name, of);
});

describe('[V1] keys struck while an editor is on its way', () => {
  test('are kept in order, reach nothing meanwhile, and are written where the focus then is', async () => {
    const before = focus;
    const hold = wait();
    for (const key of ['1', '1', 'Backspace', '2', 'Enter']) press(key);
    expect(before.text).toBe('');
    focus = new Input();
    hold.end();
    await struckAgain();
    expect([before.text, before.taken, focus.text, focus.taken]).toEqual(['', [], '12', ['12']]);
    press('3');
    expect(focus.text, 'afterwards a key goes its own way').toBe('123');
    expect(listeners.get('keydown')?.size).toBe(0);
  });

  test('wait for the last of several things, and for what one of them asks for anew', async () => {
    const [one, other] = [wait(), wait()];
    press('a');
    one.end();
    await struckAgain();
    expect(focus.text).toBe('');
    let again: Hold | null = null;
    focus.hears = (key) => {
      if (key === 'a') again = wait();
    };
    press('b');
    other.end();
    await struckAgain();
    expect(focus.text).toBe('a');
    press('c');
    (again as Hold | null)?.end();
    await struckAgain();
    expect(focus.text).toBe('abc');
  });

  test('come behind those that are being struck again', async () => {
    const hold = wait();
    press('a');
    press('b');
    focus.hears = (key) => {
      if (key === 'a') press('c');
    };
    hold.end();
    await struckAgain();
    expect(focus.text).toBe('abc');
  });

  test('are given up by Escape, by a tap, and by a box over the window; whoever waited is told', async () => {
    const boxOpens = () => {
      dialog = true;
      press('x');
    };
    for (const giveUp of [() => press('Escape'), tap, boxOpens]) {
      focus = new Input();
      const dropped = vi.fn();
      const hold = wait({ dropped });
      press('a');
      giveUp();
      expect(dropped).toHaveBeenCalledTimes(1);
      hold.end();
      await struckAgain();
      expect(focus.text).not.toContain('a');
      dialog = false;
    }
  });

  test('are written as far as they only write, where what was asked for does not come', async () => {
    const hold = wait();
    for (const key of ['1', '2', 'Enter', '3']) press(key);
    hold.never();
    await struckAgain();
    expect([focus.text, focus.taken]).toEqual(['12', []]);
  });

  test('are not meant for a question that comes between', async () => {
    const dropped = vi.fn();
    const hold = wait({ dropped });
    press('1');
    hold.drop();
    hold.drop();
    await struckAgain();
    expect([focus.text, dropped.mock.calls.length]).toEqual(['', 1]);
  });

  test('take no entry nobody had seen: what was typed stands there, and that is told', async () => {
    for (const inSight of [true, false]) {
      focus = new Input();
      const told = vi.fn();
      wait({ for: 'entry', inSight });
      for (const key of ['1', '1', 'Enter', '9']) press(key);
      entryIsThere(told);
      await struckAgain();
      expect([focus.text, focus.taken, told.mock.calls.length]).toEqual(inSight ? ['119', ['11'], 0] : ['11', [], 1]);
    }
  });

  test('an entry that is there ends only what waited for one', async () => {
    wait({ for: 'entry' });
    const answer = wait();
    press('1');
    entryIsThere(() => undefined);
    expect(answerAwaited()).toBe(true);
    await struckAgain();
    expect(focus.text).toBe('');
    answer.end();
    expect(answerAwaited()).toBe(false);
    await struckAgain();
    expect(focus.text).toBe('1');
  });

  test('but those of the program, of letters still being put together, and those a page strikes go through', async () => {
    const heard: string[] = [];
    focus.hears = (key) => heard.push(key);
    const hold = wait();
    press('s', { ctrl: true });
    press('F1');
    press('PageDown', { alt: true });
    press('´', { composing: true });
    press('x', { trusted: false });
    expect(heard).toEqual(['s', 'F1', 'PageDown', '´', 'x']);
    press('Enter', { ctrl: true });
    expect(heard, 'Ctrl and Enter asks for the next check, and is kept').toHaveLength(5);
    hold.end();
    await struckAgain();
    expect(heard.at(-1)).toBe('Enter');
  });
});
