import type { Conflict, Member } from '../verdict/verdict.ts';

/**
 * How many of these conflicts can be told that share no entry: the most pairwise disjoint sets of observations and absences among them
 * (maximum set packing, exact). One wrong entry can spoil one such reason and no other. A conflict that rests on no entry at all
 * shares none and counts by itself; all of those count once, since they say the same of every unit.
 */
export const independentReasons = (conflicts: readonly Pick<Conflict, 'members'>[]): number => {
  const sets = conflicts.map(({ members }) => new Set(members.filter(isEntry).map(keyOf)));
  const bare = sets.some((set) => set.size === 0) ? 1 : 0;
  // A set that holds another one can always give way to it.
  const distinct = [...new Map(sets.filter((set) => set.size > 0).map((set) => [[...set].sort().join('\n'), set])).values()];
  const minimal = distinct.filter(
    (set) => !distinct.some((other) => other !== set && other.size < set.size && [...other].every((key) => set.has(key))),
  );
  // What meets no other set is in every best choice; so is, of a minimal family, every single entry.
  const alone = minimal.filter((set) => set.size === 1);
  return bare + alone.length + packed(minimal.filter((set) => set.size > 1).sort((a, b) => a.size - b.size));
};

const isEntry = (member: Member): boolean => member.kind === 'observation' || member.kind === 'absent';
const keyOf = (member: Member): string =>
  member.kind === 'observation' ? `observation ${member.observation}` : member.kind === 'absent' ? `absent ${member.slot}` : '';

/** The size of the largest choice of pairwise disjoint sets: each entry is in one of them or in none; branches on the entry in fewest sets. */
const packed = (sets: readonly ReadonlySet<string>[]): number => {
  let best = 0;
  const search = (left: readonly ReadonlySet<string>[], taken: number): void => {
    best = Math.max(best, taken);
    if (left.length === 0) return;
    const entries = new Set(left.flatMap((set) => [...set]));
    const smallest = Math.min(...left.map((set) => set.size));
    if (taken + Math.min(left.length, Math.floor(entries.size / smallest)) <= best) return;
    const pivot = rarest(left);
    for (const set of left.filter((each) => each.has(pivot)))
      search(
        left.filter((other) => ![...set].some((key) => other.has(key))),
        taken + 1,
      );
    search(
      left.filter((set) => !set.has(pivot)),
      taken,
    );
  };
  search(sets, 0);
  return best;
};

const rarest = (sets: readonly ReadonlySet<string>[]): string => {
  const counts = new Map<string, number>();
  for (const set of sets) for (const key of set) counts.set(key, (counts.get(key) ?? 0) + 1);
  return [...counts].sort((a, b) => a[1] - b[1] || (a[0] < b[0] ? -1 : 1))[0]?.[0] ?? '';
};
