import { readLabel } from '../help/said.ts';
import { at } from '../look/landmarks.ts';
import { hrefOf } from '../route/route.ts';
import type { PointedAt } from './stepOf.ts';

/** Where it stands in the window now; null while it does not. What waits behind a box cannot be pointed at. */
export const found = (point: PointedAt | null): HTMLElement | null => {
  if (point === null || document.querySelector('dialog[open]') !== null) return null;
  switch (point.at) {
    case 'link':
      return document.querySelector<HTMLElement>(`header a[href="${hrefOf(point.to)}"]`);
    case 'entry':
      return document.querySelector<HTMLElement>(`main [data-entry="${CSS.escape(point.entry)}"]`);
    case 'value':
      return document.querySelector<HTMLElement>(`main ${at('value')}`);
    case 'control': {
      const name = readLabel(point.label);
      return (
        [...document.querySelectorAll<HTMLElement>('main :is(button, input, select, textarea, a)')].find((one) => nameOf(one) === name) ??
        null
      );
    }
  }
};

/** What a control is called, as far as the window names its own. */
const nameOf = (control: HTMLElement): string => {
  const said = control.getAttribute('aria-label') ?? ('labels' in control ? (control as HTMLInputElement).labels?.[0]?.textContent : null);
  return (said ?? control.textContent ?? '').trim();
};

/** What takes the focus there: itself, or the first thing in it that can. */
export const focusable = (pointed: HTMLElement): HTMLElement =>
  pointed.matches('a, button, input, select, textarea, [tabindex]')
    ? pointed
    : (pointed.querySelector<HTMLElement>('input:checked, input, button, select, textarea') ?? pointed);
