import type { Conflict, Conflicts } from '../../reasoner/index.ts';
import { entryOfMember } from '../../reasoner/plain/entry-of-member.ts';

/**
 * Reasons no two of which share an entry, as many as are counted aloud (K1): places in `found`, in its order. All absences are one entry, and reasons that rest on
 * no entry share one too. Empty where taking the most telling first does not find so many; then nothing says which they are.
 */
export const reasonsApart = ({ found, independent }: Pick<Conflicts, 'found' | 'independent'>): readonly number[] => {
  const told = new Set<string>();
  const apart = [...found.keys()].filter((at) => {
    const entries = entriesOf(found[at] as Conflict);
    if (entries.some((entry) => told.has(entry))) return false;
    for (const entry of entries) told.add(entry);
    return true;
  });
  return apart.length === independent.count ? apart : [];
};

const entriesOf = ({ members }: Pick<Conflict, 'members'>): readonly string[] => {
  const entries = members.flatMap((member) => entryOfMember(member) ?? []);
  return entries.length === 0 ? ['no entry'] : entries;
};
