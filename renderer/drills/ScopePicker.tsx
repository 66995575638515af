import type { DrillKind, FamilyId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { kindNames } from './kindNames.ts';

export interface PickedScope {
  readonly families: readonly FamilyId[];
  readonly kinds: readonly DrillKind[];
}

/** Families pinned and kinds chosen. Nothing ticked means all of them, and says so. */
export function ScopePicker({ scope, onChange }: { readonly scope: PickedScope; readonly onChange: (scope: PickedScope) => void }) {
  const { vocabulary } = useWords();
  const toggled = <T,>(list: readonly T[], item: T): readonly T[] =>
    list.includes(item) ? list.filter((each) => each !== item) : [...list, item];
  return (
    <>
      <fieldset className="scope-list">
        <legend>Only these families{scope.families.length === 0 && ' (none ticked: all of them)'}</legend>
        {vocabulary.families.map(({ id, name }) => (
          <label key={id}>
            <input
              type="checkbox"
              checked={scope.families.includes(id)}
              onChange={() => onChange({ ...scope, families: toggled(scope.families, id) })}
            />
            {name}
          </label>
        ))}
      </fieldset>
      <fieldset className="scope-list">
        <legend>Only these kinds of drill{scope.kinds.length === 0 && ' (none ticked: all of them)'}</legend>
        {Object.entries(kindNames).map(([kind, name]) => (
          <label key={kind}>
            <input
              type="checkbox"
              checked={scope.kinds.includes(kind as DrillKind)}
              onChange={() => onChange({ ...scope, kinds: toggled(scope.kinds, kind as DrillKind) })}
            />
            {name}
          </label>
        ))}
      </fieldset>
    </>
  );
}

export const orAll = <T,>(list: readonly T[]): T[] | null => (list.length === 0 ? null : [...list]);
