import { sameValue } from './same-value.ts';

/** A field in which two states differ. */
export interface FieldDifference<Field> {
  readonly field: Field;
  /** Who changed it since both read the same: the one here, the one there, or both, otherwise. */
  readonly changed: Changed;
}

export type Changed = 'here' | 'there' | 'both';
export type Side = 'mine' | 'theirs';

/**
 * Two states of one thing made of the same earlier one, joined field by field: a field only one of them changed is as that one has it, so that an empty field never takes the
 * place of one that was filled meanwhile (H5). A field both changed, and not alike, is as `decided` says; until then it is as it is there.
 * @param base what both were made of
 */
export const fieldsMerged = <Fields extends object>(
  base: Fields,
  mine: Fields,
  theirs: Fields,
  decided: (field: keyof Fields) => Side | undefined = () => undefined,
): { readonly merged: Fields; readonly differences: readonly FieldDifference<keyof Fields>[] } => {
  const differences: FieldDifference<keyof Fields>[] = [];
  const merged = { ...theirs };
  for (const field of Object.keys(theirs) as (keyof Fields)[]) {
    const changed = changedBy(base[field], mine[field], theirs[field]);
    if (changed === null) continue;
    differences.push({ field, changed });
    if (changed === 'here' || (changed === 'both' && decided(field) === 'mine')) merged[field] = mine[field];
  }
  return { merged, differences };
};

/** Who made two values differ that were one; null where they are the same. */
export const changedBy = (base: unknown, mine: unknown, theirs: unknown): Changed | null => {
  if (sameValue(mine, theirs)) return null;
  if (sameValue(theirs, base)) return 'here';
  return sameValue(mine, base) ? 'there' : 'both';
};
