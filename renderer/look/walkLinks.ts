import type { KeyboardEvent } from 'react';
import { at } from './landmarks.ts';

/** Arrow keys move from link to link in a list (or whatever `stops` selects in it); up from the first goes back to the search box. */
export function walkLinks(event: KeyboardEvent<HTMLElement>, stops = 'a'): void {
  const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  if (step === 0 || !(event.target instanceof HTMLElement)) return;
  const links = [...event.currentTarget.querySelectorAll<HTMLElement>(stops)];
  const place = links.indexOf(event.target);
  if (place < 0) return;
  event.preventDefault();
  if (place + step < 0) document.querySelector<HTMLElement>(at('search', 'input'))?.focus();
  else links[place + step]?.focus();
}
