import { useCallback, useEffect, useState } from 'react';

/** A small choice the window remembers on this computer (unit of length, last sheet). Never data of the shop. */
export const recall = (name: string): string | null => {
  try {
    return window.localStorage.getItem(`kinplate.${name}`);
  } catch {
    return null;
  }
};

export const remember = (name: string, value: string | null): void => {
  try {
    if (value === null) window.localStorage.removeItem(`kinplate.${name}`);
    else window.localStorage.setItem(`kinplate.${name}`, value);
  } catch {
    // Storage is switched off: the choice lasts as long as the window.
  }
  for (const hear of hearing.get(name) ?? []) hear(value);
};

/** Those of this window that show what is remembered under a name. */
const hearing = new Map<string, Set<(value: string | null) => void>>();

/** Calls back when another window of this browser remembers otherwise; gives back how to stop that. */
export const onRemembered = (name: string, changed: () => void): (() => void) => {
  const heard = (event: StorageEvent) => {
    if (event.key === `kinplate.${name}` || event.key === null) changed();
  };
  window.addEventListener('storage', heard);
  return () => window.removeEventListener('storage', heard);
};

/** The names of everything remembered. */
export const remembered = (): readonly string[] => {
  try {
    return Object.keys(window.localStorage).flatMap((key) => (key.startsWith('kinplate.') ? [key.slice('kinplate.'.length)] : []));
  } catch {
    return [];
  }
};

/** The same wherever the window shows it. `otherwise` holds for as long as nothing was chosen. */
export function usePreference<T extends string>(name: string, among: readonly T[], otherwise: T): [T, (value: T) => void] {
  const [chosen, setChosen] = useState<T | null>(() => among.find((one) => one === recall(name)) ?? null);
  useEffect(() => {
    const hear = (value: string | null) => setChosen(among.find((one) => one === value) ?? null);
    const all = hearing.get(name) ?? new Set();
    hearing.set(name, all.add(hear));
    return () => void all.delete(hear);
  }, [name, among]);
  const choose = useCallback((next: T) => remember(name, next), [name]);
  return [chosen ?? otherwise, choose];
}
