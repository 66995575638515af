/** Undo and redo over one value. Edits of one text field in a row are one step back. */
export interface History<T> {
  readonly past: readonly T[];
  readonly present: T;
  readonly future: readonly T[];
  /** Which field the last edit typed in, or null when the next edit is a step of its own. */
  readonly typing: string | null;
}

const deepest = 500;

export const beginning = <T>(present: T): History<T> => ({ past: [], present, future: [], typing: null });

/** `typing` names the text field an edit comes from; edits from the same field in a row are joined. */
export function changed<T>(history: History<T>, present: T, typing: string | null = null): History<T> {
  if (Object.is(present, history.present)) return history;
  if (typing !== null && typing === history.typing) return { ...history, present, future: [] };
  return { past: [...history.past, history.present].slice(-deepest), present, future: [], typing };
}

export function undone<T>(history: History<T>): History<T> {
  const before = history.past.at(-1);
  if (before === undefined) return history;
  return { past: history.past.slice(0, -1), present: before, future: [history.present, ...history.future], typing: null };
}

export function redone<T>(history: History<T>): History<T> {
  const [after, ...future] = history.future;
  if (after === undefined) return history;
  return { past: [...history.past, history.present], present: after, future, typing: null };
}
