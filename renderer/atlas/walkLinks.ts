import type { KeyboardEvent } from 'react';

/** Arrow keys move from link to link in a list; up from the first goes back to the search box. */
export function walkLinks(event: KeyboardEvent<HTMLElement>): void {
  const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  if (step === 0 || !(event.target instanceof HTMLElement)) return;
  const links = [...event.currentTarget.querySelectorAll<HTMLElement>('a')];
  const at = links.indexOf(event.target);
  if (at < 0) return;
  event.preventDefault();
  if (at + step < 0) document.querySelector<HTMLElement>('.atlas-search input')?.focus();
  else links[at + step]?.focus();
}
