import { useCallback, useSyncExternalStore } from 'react';
import type { Role } from '../../reasoner/index.ts';
import type { JsonObject } from './json.ts';

/** An entry as it is being edited. */
export interface Draft {
  readonly entry: JsonObject;
  /** Of a part: what is typed for each feature. */
  readonly cells: Readonly<Record<string, string>>;
  /** Of a model: what may sit in it. */
  readonly sits: readonly Sits[];
}

export interface Sits {
  readonly slot: string;
  readonly part: string;
  readonly role: Role;
}

/** What is typed and not made yet, by place: it stays while somebody looks elsewhere in the window. */
const drafts = new Map<string, Draft>();
const listeners = new Set<() => void>();

const listen = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

export const setDraft = (place: string, draft: Draft | null): void => {
  if (draft === null) drafts.delete(place);
  else drafts.set(place, draft);
  for (const listener of listeners) listener();
};

export const useDraft = (place: string): readonly [Draft | null, (draft: Draft | null) => void] => {
  const draft = useSyncExternalStore(listen, () => drafts.get(place) ?? null);
  return [draft, useCallback((next) => setDraft(place, next), [place])];
};
