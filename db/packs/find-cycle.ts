/** A circle among entries that point at one another, closed (`a → b → a`), with the index of its first entry; or null. */
export const findCycle = <T extends { readonly id: string }>(
  entries: readonly T[],
  next: (entry: T) => readonly string[],
): { readonly index: number; readonly ids: readonly string[] } | null => {
  const indexOf = new Map(entries.map(({ id }, index) => [id as string, index]));
  const cleared = new Set<string>();
  for (const start of entries) {
    // Depth first, without recursion: a chain of supersession may be long.
    const path: string[] = [];
    const onPath = new Set<string>();
    const ahead: { id: string; rest: string[] }[] = [];
    const enter = (id: string): void => {
      const entry = entries[indexOf.get(id) ?? -1];
      path.push(id);
      onPath.add(id);
      ahead.push({ id, rest: entry === undefined ? [] : [...next(entry)] });
    };
    if (!cleared.has(start.id)) enter(start.id);
    for (let top = ahead.at(-1); top !== undefined; top = ahead.at(-1)) {
      const id = top.rest.pop();
      if (id === undefined) {
        ahead.pop();
        path.pop();
        onPath.delete(top.id);
        cleared.add(top.id);
      } else if (onPath.has(id)) {
        const ids = [...path.slice(path.indexOf(id)), id];
        return { index: indexOf.get(id) ?? 0, ids };
      } else if (!cleared.has(id)) enter(id);
    }
  }
  return null;
};
