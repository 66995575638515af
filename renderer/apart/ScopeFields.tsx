import './apart.css';
import type { CheckScope, StageId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';

/** Which checks may be made: letters, the nameplate, and how far the unit may be taken apart. */
export function ScopeFields({ scope, onChange }: { readonly scope: CheckScope; onChange(scope: CheckScope): void }) {
  const words = useWords();
  const { stages } = words.vocabulary;
  const last = stages.at(-1)?.id;
  const far = stages.findLast(({ id }) => scope.stages === undefined || scope.stages.includes(id))?.id ?? last;
  return (
    <fieldset className="scope-fields no-print" aria-label="Which checks may be made">
      <label>
        Taken apart as far as{' '}
        <select
          className="field"
          value={far}
          onChange={(event) => {
            const upTo = stages.findIndex(({ id }) => id === event.target.value);
            const { stages: _, ...rest } = scope;
            onChange(upTo === stages.length - 1 ? rest : { ...rest, stages: stages.slice(0, upTo + 1).map(({ id }): StageId => id) });
          }}
        >
          {stages.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <label>
        <input
          type="checkbox"
          checked={scope.letters !== false}
          onChange={(event) => onChange({ ...scope, letters: event.target.checked })}
        />{' '}
        letters on parts
      </label>
      <label>
        <input type="checkbox" checked={scope.plate === true} onChange={(event) => onChange({ ...scope, plate: event.target.checked })} />{' '}
        nameplate
      </label>
    </fieldset>
  );
}
