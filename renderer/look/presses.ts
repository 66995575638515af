import type { KeyLine } from './keys.ts';

/** What a pressed key says of itself; an event of the window or of React. */
export interface Pressed {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
}

const named: Readonly<Record<string, string>> = { '↓': 'ArrowDown', '↑': 'ArrowUp', '→': 'ArrowRight', '←': 'ArrowLeft', Space: ' ' };

/** A sign is told by what it writes: whether that takes Shift is the keyboard's to say. */
const isSign = (key: string): boolean => /^[^\p{L}\p{N}\s]$/u.test(key);

/** Whether what was pressed is one of the keys of a line: that key, with these of Ctrl (or Cmd), Alt and Shift and no other. */
export const presses = (event: Pressed, { press }: KeyLine): boolean =>
  press.some((one) => {
    const steps = one.split(/\+(?=.)/);
    const key = steps.pop() ?? '';
    return (
      event.key.toLowerCase() === (named[key] ?? key).toLowerCase() &&
      (event.ctrlKey || event.metaKey) === steps.includes('Ctrl') &&
      event.altKey === steps.includes('Alt') &&
      (event.shiftKey === steps.includes('Shift') || isSign(key))
    );
  });

/** The same keys as `aria-keyshortcuts` says them. */
export const shortcuts = ({ press }: KeyLine): string => press.map((one) => one.replace('Ctrl+', 'Control+')).join(' ');
