import { useSyncExternalStore } from 'react';
import { desk } from './desk.ts';

let changes = 0;
const listeners = new Set<() => void>();
desk.onAtlasChanged(() => {
  changes += 1;
  for (const listener of listeners) listener();
});

const listen = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** Counts up each time the atlas has changed under the window: what was answered before may be answered otherwise now. */
export const useAtlasChanges = (): number => useSyncExternalStore(listen, () => changes);
