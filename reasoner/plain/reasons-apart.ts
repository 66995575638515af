import { entryOfMember } from './entry-of-member.ts';

/** Of the conflicts of a name, what says which of them share no entry. */
interface Reasons {
  readonly found: readonly { readonly members: readonly { readonly kind: string; readonly observation?: string }[] }[];
  readonly independent: { readonly count: number };
}

/**
 * Reasons no two of which share an entry, as many as are counted aloud (K1): places in `found`, in its order. All absences are one entry, and reasons that rest on
 * no entry share one too. Empty where taking the most telling first does not find so many; then nothing says which they are.
 */
export const reasonsApart = ({ found, independent }: Reasons): readonly number[] => {
  const told = new Set<string>();
  const apart = found.flatMap((conflict, at) => {
    const entries = entriesOf(conflict);
    if (entries.some((entry) => told.has(entry))) return [];
    for (const entry of entries) told.add(entry);
    return [at];
  });
  return apart.length === independent.count ? apart : [];
};

const entriesOf = ({ members }: Reasons['found'][number]): readonly string[] => {
  const entries = members.flatMap((member) => entryOfMember(member) ?? []);
  return entries.length === 0 ? ['no entry'] : entries;
};
