import { type KeyboardEvent, useEffect, useState } from 'react';
import { at } from './landmarks.ts';

/** In the box a list is narrowed by: down goes into the list, to what `into` selects there; Enter opens the first that was found. */
export function onSearchKey(event: KeyboardEvent<HTMLInputElement>, into: string, open: (first: HTMLElement | null) => void): void {
  if (event.key !== 'ArrowDown' && event.key !== 'Enter') return;
  event.preventDefault();
  const first = document.querySelector<HTMLElement>(at('list', into));
  if (event.key === 'ArrowDown') first?.focus();
  else if (event.currentTarget.value.trim() !== '') open(first);
}

/**
 * For a list that is asked for while one types: Enter opens the first hit of what was typed, as soon as that is known, and never one of what was typed before.
 * @param asked what is asked now: typing on, or asking otherwise, takes the Enter back
 * @param found what was found for just that; null while it is on its way
 * @returns what Enter does
 */
export function useEnterOpens<Hit>(asked: unknown, found: readonly Hit[] | null, open: (hit: Hit) => void): () => void {
  const now = JSON.stringify(asked);
  const [wanted, setWanted] = useState<string | null>(null);
  useEffect(() => {
    if (wanted === null) return;
    if (wanted !== now) return setWanted(null);
    if (found === null) return;
    setWanted(null);
    const [first] = found;
    if (first !== undefined) open(first);
  }, [wanted, now, found, open]);
  return () => setWanted(now);
}
