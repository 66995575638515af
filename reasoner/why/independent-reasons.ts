import type { Conflict, Independent } from '../answer/verdict.ts';
import { entryOfMember } from '../plain/entry-of-member.ts';
import { noPulse, type Pulse } from '../plain/pulse.ts';

/** So many reasons are looked at, over and over, before the count is left at the best there was: less than a tenth of a second. */
const usualLooks = 1_000_000;

/**
 * How many of these conflicts can be told that share no entry: the most pairwise disjoint sets of observations and absences among them (maximum set
 * packing). All absences together are one entry: that something is missing is one thing to say. One wrong entry can spoil one such reason and no
 * other. A conflict that rests on no entry at all shares none; all of those count once, since they say the same of every unit.
 * @param looks reasons looked at before it stops; what it has then is right, and may not be the most
 */
export const independentReasons = (
  conflicts: readonly Pick<Conflict, 'members'>[],
  looks = usualLooks,
  pulse: Pulse = noPulse,
): Independent => {
  const sets = conflicts.map(({ members }) => new Set(members.flatMap((member) => entryOfMember(member) ?? [])));
  const bare = sets.some((set) => set.size === 0) ? 1 : 0;
  // A set that holds another one can always give way to it.
  const distinct = [...new Map(sets.filter((set) => set.size > 0).map((set) => [[...set].sort().join('\n'), set])).values()];
  const minimal = distinct.filter((set) => {
    pulse();
    return !distinct.some((other) => other.size < set.size && [...other].every((key) => set.has(key)));
  });
  // What meets no other set is in every best choice; so is, of a minimal family, every single entry.
  const alone = minimal.filter((set) => set.size === 1);
  const { count, exact } = packed(
    minimal.filter((set) => set.size > 1).sort((a, b) => a.size - b.size),
    looks,
    pulse,
  );
  return { count: bare + alone.length + count, exact };
};

/** The size of the largest choice of pairwise disjoint sets: each entry is in one of them or in none; branches on an entry of the first. */
const packed = (sets: readonly ReadonlySet<string>[], looks: number, pulse: Pulse): Independent => {
  let best = 0;
  let looked = 0;
  const search = (left: readonly ReadonlySet<string>[], taken: number): void => {
    pulse();
    best = Math.max(best, taken);
    looked += left.length;
    if (looked > looks) return;
    const entries = new Set(left.flatMap((set) => [...set]));
    const smallest = Math.min(...left.map((set) => set.size));
    if (taken + Math.min(left.length, Math.floor(entries.size / smallest)) <= best) return;
    const [pivot] = left[0] as ReadonlySet<string>;
    for (const set of left.filter((each) => each.has(pivot as string)))
      search(
        left.filter((other) => ![...set].some((key) => other.has(key))),
        taken + 1,
      );
    search(
      left.filter((set) => !set.has(pivot as string)),
      taken,
    );
  };
  search(sets, 0);
  return { count: best, exact: looked <= looks };
};
