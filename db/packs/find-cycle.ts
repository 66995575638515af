interface Entry {
  readonly id: string;
}

/**
 * A circle among entries that point at one another, closed (`a → b → a`), with the index of one of `own` that is in it;
 * or null. The entries `beside` hold no circle among themselves.
 */
export const findCycle = <T extends Entry>(
  own: readonly T[],
  beside: readonly T[],
  next: (entry: T) => readonly string[],
): { readonly index: number; readonly ids: readonly string[] } | null => {
  const byId = new Map<string, T>([...beside, ...own].map((entry) => [entry.id, entry]));
  const cleared = new Set<string>();
  for (const { id: start } of own) {
    if (cleared.has(start)) continue;
    // Depth first, without recursion: a chain of supersession may be long.
    const path: { readonly id: string; readonly ahead: string[] }[] = [];
    const onPath = new Set<string>();
    const enter = (id: string): void => {
      const entry = byId.get(id);
      path.push({ id, ahead: entry === undefined ? [] : [...next(entry)] });
      onPath.add(id);
    };
    enter(start);
    for (let top = path.at(-1); top !== undefined; top = path.at(-1)) {
      const id = top.ahead.pop();
      if (id === undefined) {
        path.pop();
        onPath.delete(top.id);
        cleared.add(top.id);
      } else if (onPath.has(id)) {
        const walked = path.map((step) => step.id);
        const ids = [...walked.slice(walked.indexOf(id)), id];
        return { index: own.findIndex((entry) => ids.includes(entry.id)), ids };
      } else if (!cleared.has(id)) enter(id);
    }
  }
  return null;
};
