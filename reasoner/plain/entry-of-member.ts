/** What of a member of a conflict says which entry it is. */
interface OfEntry {
  readonly kind: string;
  readonly observation?: string;
}

/** The entry a member of a conflict is, for telling whether two reasons share one (K1): all absences are one; null where it is none. */
export const entryOfMember = ({ kind, observation }: OfEntry): string | null =>
  kind === 'observation' ? `observation ${observation}` : kind === 'absent' ? 'absent' : null;
