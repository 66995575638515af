import { useSyncExternalStore } from 'react';
import { onRemembered, recall, remember } from './preference.ts';

/** How the guided first case stands on this computer: offered, being followed, or neither. It holds no place: that is read off the sheet. */
export type Guided = 'offered' | 'on' | 'off';

const kept = 'guided case';
let now: Guided | null = null;
const heard = new Set<() => void>();

const read = (): Guided => {
  now ??= (['offered', 'on'] as const).find((one) => one === recall(kept)) ?? 'off';
  return now;
};

/** Offers it, begins it or goes on with it, or leaves it. */
export const setGuided = (next: Guided): void => {
  now = next;
  remember(kept, next === 'off' ? null : next);
  for (const tell of heard) tell();
};

const subscribe = (changed: () => void): (() => void) => {
  heard.add(changed);
  const stop = onRemembered(kept, () => {
    now = null;
    changed();
  });
  return () => {
    heard.delete(changed);
    stop();
  };
};

export const useGuided = (): Guided => useSyncExternalStore(subscribe, read);
