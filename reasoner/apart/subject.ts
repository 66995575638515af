import type { Part } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import { familyName, fullName } from '../compile/name-texts.ts';
import { rolesOf } from '../compile/seats.ts';
import type { FamilyId, ModelId, PartId } from '../ids.ts';

export type SubjectRef =
  | { readonly kind: 'family'; readonly id: FamilyId }
  | { readonly kind: 'model'; readonly id: ModelId }
  | { readonly kind: 'part'; readonly id: PartId };

/** Something to be told from others: by slot number, the parts a true example may hold there. */
export interface Subject {
  readonly ref: SubjectRef;
  readonly name: string;
  /** Null where nothing is listed for the slot, or the slot is not the part's own: there is then nothing to see by. */
  readonly parts: readonly (readonly Part[] | null)[];
}

/**
 * The subjects these stand for, in the same order; null for one the atlas does not have. A model holds whatever it lists in any role, and what
 * supersedes that; a family whatever any of its models holds.
 */
export const subjectsOf = (atlas: CompiledAtlas, refs: readonly SubjectRef[]): readonly (Subject | null)[] => {
  const roles = refs.some(({ kind }) => kind !== 'part') ? rolesOf(atlas) : null;
  const listedBy = (models: readonly ModelId[]): readonly (readonly Part[] | null)[] =>
    atlas.slots.map((slot) => {
      const numbers = new Set(models.flatMap((model) => [...(roles?.get(model)?.[slot.number]?.keys() ?? [])]));
      return numbers.size === 0 ? null : [...numbers].sort((a, b) => a - b).map((number) => partAt(slot, number));
    });
  const subjectOf = (ref: SubjectRef): Subject | null => {
    switch (ref.kind) {
      case 'family': {
        const family = atlas.families.get(ref.id);
        if (family === undefined) return null;
        const models = atlas.data.models.filter((model) => model.family === family.id).map(({ id }) => id);
        return { ref, name: familyName(atlas, family), parts: listedBy(models) };
      }
      case 'model': {
        const model = atlas.models.get(ref.id);
        return model === undefined ? null : { ref, name: fullName(atlas, model), parts: listedBy([model.id]) };
      }
      case 'part': {
        const part = atlas.parts.get(ref.id);
        return part === undefined
          ? null
          : { ref, name: part.name, parts: atlas.slots.map(({ data: slot }) => (slot.id === part.slot ? [part] : null)) };
      }
    }
  };
  return refs.map(subjectOf);
};

const partAt = (slot: CompiledSlot, number: number): Part => slot.parts[number] as Part;
