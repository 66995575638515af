/** A key as it was struck. */
export interface Struck {
  readonly key: string;
  readonly ctrl: boolean;
  readonly shift: boolean;
}

/** Whether a key does nothing but write. */
export const writes = ({ key, ctrl }: Struck): boolean => key.length === 1 && !ctrl;

/** Strikes a key where the focus is: those who listen hear it, and what they leave to the browser is done here, since a browser does nothing for keys that a page strikes. */
export const keyAgain = ({ key, ctrl, shift }: Struck): void => {
  const on = document.activeElement ?? document.body;
  const event = new KeyboardEvent('keydown', { key, ctrlKey: ctrl, shiftKey: shift, bubbles: true, cancelable: true });
  if (!on.dispatchEvent(event) || ctrl) return;
  const ticks = on instanceof HTMLInputElement && /^(radio|checkbox)$/.test(on.type);
  const button = on instanceof HTMLButtonElement || (on instanceof HTMLElement && on.matches('summary, a[href]'));
  if (key === 'Tab') tab(shift ? -1 : 1);
  else if (ticks && on.type === 'radio' && key.startsWith('Arrow')) along(on, /Down|Right/.test(key) ? 1 : -1);
  else if ((key === ' ' && ticks) || ((key === ' ' || key === 'Enter') && button)) (on as HTMLElement).click();
  else if (key === 'Enter') (on as Partial<HTMLInputElement>).form?.requestSubmit();
  else if (ticks || button) return;
  else if (key === 'Backspace') document.execCommand('delete');
  else if (key === 'Delete') document.execCommand('forwardDelete');
  // The one way to write as somebody at the keyboard does: at the caret, over what is marked, within the field’s length, to be undone.
  else if (key.length === 1) document.execCommand('insertText', false, key);
};

const stops = 'a[href], button, input, select, textarea, summary, [tabindex]';

/** To the next place the focus stops at, one way or the other; of a choice only at what is picked, else at its first. */
const tab = (step: 1 | -1): void => {
  const all = [...document.querySelectorAll<HTMLElement>(stops)].filter(
    (one) => one === document.activeElement || (one.tabIndex >= 0 && !one.matches(':disabled') && one.checkVisibility() && isStop(one)),
  );
  const at = all.indexOf(document.activeElement as HTMLElement);
  const to = all[at + step];
  to?.focus();
  if (to instanceof HTMLInputElement && !/^(radio|checkbox|file|button)$/.test(to.type)) to.select();
};

const isStop = (one: HTMLElement): boolean => {
  if (!(one instanceof HTMLInputElement) || one.type !== 'radio') return true;
  const group = groupOf(one);
  return (group.find(({ checked }) => checked) ?? group[0]) === one && !group.includes(document.activeElement as HTMLInputElement);
};

const groupOf = ({ name, form }: HTMLInputElement): readonly HTMLInputElement[] =>
  [...(form ?? document).querySelectorAll<HTMLInputElement>('input[type="radio"]')].filter((one) => one.name === name);

/** Along a choice, round at its ends, picking as it goes. */
const along = (from: HTMLInputElement, step: 1 | -1): void => {
  const group = groupOf(from);
  const to = group[(group.indexOf(from) + step + group.length) % group.length];
  to?.focus();
  to?.click();
};
