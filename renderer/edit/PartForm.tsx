import { useContext } from 'react';
import type { CellRead, Shape } from '../../electron/bridge/edit-calls.ts';
import type { SlotId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { asId } from '../route/asId.ts';
import type { Draft } from './drafts.ts';
import { FactGrid } from './FactGrid.tsx';
import { FormContext } from './FormContext.ts';
import { FormField } from './FormField.tsx';
import { type JsonObject, withField } from './json.ts';

const text: Shape = { type: 'string' };
const orNone = (shape: Shape): Shape => ({ anyOf: [shape, { type: 'null' }] });

/** A part’s own fields, in the order they are filled in. Its facts stand in a grid of their own. */
const fields: readonly { readonly field: string; readonly shape: Shape; readonly mayLack: boolean }[] = [
  { field: 'name', shape: text, mayLack: false },
  { field: 'maker', shape: orNone(text), mayLack: false },
  { field: 'numbers', shape: { type: 'array', items: text }, mayLack: false },
  { field: 'source', shape: text, mayLack: false },
  { field: 'patternOf', shape: text, mayLack: true },
  { field: 'supersedes', shape: text, mayLack: true },
];

const references = [
  { at: ['maker'], list: 'makers' },
  { at: ['source'], list: 'sources' },
  { at: ['patternOf'], list: 'parts' },
  { at: ['supersedes'], list: 'parts' },
];

/** A part: what it is and was sold as, and below it what is known of it, a line a feature. */
export function PartForm(props: {
  readonly isNew: boolean;
  readonly draft: Draft;
  readonly read: Readonly<Record<string, CellRead>>;
  readonly freeId: string;
  onChange(next: Partial<Draft>): void;
}) {
  const { isNew, draft, read, onChange } = props;
  const words = useWords();
  const ground = useContext(FormContext);
  const { entry, cells } = draft;
  const slot = String(entry.slot ?? '');
  return (
    <FormContext value={{ ...ground, references }}>
      <div className="edit-field">
        <label htmlFor="part-slot">Slot</label>
        <div className="edit-given">
          <select
            id="part-slot"
            className="field"
            value={slot}
            disabled={!isNew && slot !== ''}
            onChange={({ target }) => onChange({ entry: { ...entry, slot: target.value } })}
          >
            <option value="">pick one</option>
            {words.slots.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </div>
      </div>
      {fields.map(({ field, shape, mayLack }) => (
        <FormField
          key={field}
          shape={shape}
          path={[field]}
          value={entry[field]}
          mayLack={mayLack}
          onChange={(next) => onChange({ entry: withField(entry, field, next) })}
        />
      ))}
      {slot !== '' && (
        <FactGrid
          slot={asId<SlotId>(slot)}
          cells={cells}
          read={read}
          sources={(entry.factSources ?? {}) as JsonObject}
          onType={(feature, typed) => onChange({ cells: { ...cells, [feature]: typed } })}
          onSource={(feature, source) =>
            onChange({ entry: { ...entry, factSources: withField((entry.factSources ?? {}) as JsonObject, feature, source) } })
          }
        />
      )}
    </FormContext>
  );
}
