import { type Consistent, shrink } from './dualize.ts';

/**
 * Minimal conflicts no two of which share an entry: labels of one entry stand and fall together, and what is no entry may be shared. First every entry that
 * is in conflict by itself with what is no entry; then, of the entries left, one conflict after another until what is left can be kept. Greedy, so there
 * may be more such conflicts than are found; of the same labels always the same are found.
 * @param entryOf the entry each label belongs to, or −1
 * @param order all labels, those that a conflict should rather hold first
 */
export const disjointConflicts = (entryOf: readonly number[], order: readonly number[], consistent: Consistent): number[][] => {
  const count = entryOf.length;
  const entries = [...new Set(order.map((label) => entryOf[label] as number).filter((entry) => entry >= 0))];
  const without = (gone: ReadonlySet<number>): number[] => order.filter((label) => !gone.has(entryOf[label] as number));
  const keeps = (labels: readonly number[]): boolean => {
    const kept = new Uint8Array(count);
    for (const label of labels) kept[label] = 1;
    return consistent(kept);
  };
  if (!keeps([])) return [[]];
  const bare = without(new Set(entries));
  // What conflicts without any entry shares none with the others, and leaves nothing to be asked of them.
  if (!keeps(bare)) return [shrink(bare, count, consistent)];
  const found: number[][] = [];
  const gone = new Set<number>();
  for (const entry of entries) {
    const alone = without(new Set(entries.filter((each) => each !== entry)));
    if (keeps(alone)) continue;
    found.push(shrink(alone, count, consistent));
    gone.add(entry);
  }
  for (let left = without(gone); !keeps(left); left = without(gone)) {
    const conflict = shrink(left, count, consistent);
    found.push(conflict);
    for (const label of conflict) if ((entryOf[label] as number) >= 0) gone.add(entryOf[label] as number);
  }
  return found;
};

/**
 * Whether giving up `atMost` entries can make the rest consistent: then no more conflicts than that share no entry, since each would hold one of them.
 * Some entry of a conflict has to go; for each that might, the same of what is left. False too where it would take more than `questions` to say.
 * (Reiter, "A theory of diagnosis from first principles", Artificial Intelligence 32 (1987).)
 * @param known conflicts, the first of which that nothing given up is in is taken before a new one is looked for
 */
export const enoughToGiveUp = (
  entryOf: readonly number[],
  atMost: number,
  known: readonly (readonly number[])[],
  consistent: Consistent,
  questions: number,
): boolean => {
  const count = entryOf.length;
  let asked = 0;
  const ask: Consistent = (kept) => {
    asked += 1;
    return consistent(kept);
  };
  const gone = new Set<number>();
  const search = (): boolean => {
    const kept = Uint8Array.from(entryOf, (entry) => (gone.has(entry) ? 0 : 1));
    const of = known.find((conflict) => conflict.every((label) => !gone.has(entryOf[label] as number)));
    if (of === undefined && asked < questions && ask(kept)) return true;
    if (gone.size >= atMost || asked >= questions) return false;
    const conflict =
      of ??
      shrink(
        Array.from(kept.keys()).filter((label) => kept[label] === 1),
        count,
        ask,
      );
    for (const entry of new Set(conflict.map((label) => entryOf[label] as number))) {
      if (entry < 0) continue;
      gone.add(entry);
      if (search()) return true;
      gone.delete(entry);
    }
    return false;
  };
  return search();
};
