import { type KeyboardEvent, useRef } from 'react';
import type { EntryForm } from '../../electron/bridge/edit-calls.ts';
import type { Role, Slot } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import type { Draft, Sits } from './drafts.ts';
import { useEntryName } from './entryNames.ts';
import { Fields } from './FormField.tsx';
import type { Json, JsonObject } from './json.ts';
import { RefField } from './RefField.tsx';

/** A model: what it is, and slot by slot which parts may sit in it, each with its role. */
export function ModelForm(props: { readonly form: EntryForm; readonly draft: Draft; onChange(next: Partial<Draft>): void }) {
  const { form, draft, onChange } = props;
  const words = useWords();
  const { entry, sits } = draft;
  const open = (entry.openEnded ?? []) as readonly string[];
  const setOpen = (slot: string, is: boolean) => {
    const next = is ? [...open, slot] : open.filter((one) => one !== slot);
    const { openEnded: _was, ...rest } = entry;
    onChange({ entry: next.length === 0 ? rest : { ...entry, openEnded: next as Json } });
  };
  return (
    <>
      <Fields
        shape={form.shape}
        path={[]}
        value={entry}
        but={['id', 'openEnded']}
        onChange={(next: JsonObject) => onChange({ entry: next })}
      />
      <section className="edit-slots" aria-label="What may sit in each slot">
        <h2 className="head">What may sit in each slot</h2>
        <p className="small soft">
          Type a name or a number to add a part; its role follows: N names the model, O is a catalogued option, S a service part. Enter goes
          back to the box.
        </p>
        <table className="edit-grid">
          <tbody>
            {words.slots.map((slot) => (
              <SlotRow
                key={slot.id}
                slot={slot}
                sits={sits.filter((one) => one.slot === slot.id)}
                open={open.includes(slot.id)}
                onOpen={(is) => setOpen(slot.id, is)}
                onSits={(next) => onChange({ sits: [...sits.filter((one) => one.slot !== slot.id), ...next] })}
              />
            ))}
          </tbody>
        </table>
      </section>
    </>
  );
}

interface RowProps {
  readonly slot: Slot;
  readonly sits: readonly Sits[];
  readonly open: boolean;
  onOpen(is: boolean): void;
  onSits(next: readonly Sits[]): void;
}

function SlotRow({ slot, sits, open, onOpen, onSits }: RowProps) {
  const box = useRef<HTMLInputElement>(null);
  const row = useRef<HTMLTableCellElement>(null);
  const add = (part: string) => {
    // A slot’s first part names the model as a rule; what comes after it is most often an option.
    onSits([...sits, { slot: slot.id, part, role: sits.length === 0 && slot.group !== 'housing' ? 'names' : 'option' }]);
    setTimeout(() => [...(row.current?.querySelectorAll<HTMLElement>('select') ?? [])].at(-1)?.focus());
  };
  const back = (event: KeyboardEvent) => {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    box.current?.focus();
  };
  return (
    <tr>
      <th scope="row">{slot.name}</th>
      <td ref={row}>
        {sits.map(({ part, role }) => (
          <SitsRow
            key={part}
            part={part}
            role={role}
            onKeyDown={back}
            onRole={(next) => onSits(sits.map((one) => (one.part === part ? { ...one, role: next } : one)))}
            onTakeAway={() => {
              onSits(sits.filter((one) => one.part !== part));
              box.current?.focus();
            }}
          />
        ))}
        <span className="edit-add-part">
          <RefField
            label={`${slot.name}: add a part`}
            list="parts"
            slot={slot.id}
            value={null}
            none={sits.length === 0 ? 'no part is listed; type a name or a number' : 'add another'}
            input={box}
            but={sits.map(({ part }) => part)}
            onPick={add}
            onClear={() => onSits(sits.slice(0, -1))}
          />
          {slot.group !== 'plate' && (
            <label className="small soft">
              <input type="checkbox" checked={open} onChange={({ target }) => onOpen(target.checked)} /> This list is not whole
              <span className="unseen"> for {slot.name}</span>
            </label>
          )}
        </span>
      </td>
    </tr>
  );
}

/** Each begins with a letter of its own, which picks it. */
const roles: readonly (readonly [Role, string])[] = [
  ['names', 'names the model'],
  ['option', 'option of the catalogue'],
  ['service', 'service part'],
];

function SitsRow(props: {
  readonly part: string;
  readonly role: Role;
  onKeyDown(event: KeyboardEvent): void;
  onRole(role: Role): void;
  onTakeAway(): void;
}) {
  const name = useEntryName('parts', props.part);
  return (
    <div className="edit-sits">
      <span>{name}</span>
      <select
        className="field"
        aria-label={`role of ${name}`}
        value={props.role}
        onKeyDown={props.onKeyDown}
        onChange={({ target }) => props.onRole(target.value as Role)}
      >
        {roles.map(([role, words]) => (
          <option key={role} value={role}>
            {words}
          </option>
        ))}
      </select>
      <button type="button" className="button bare" aria-label={`take away ${name}`} onClick={props.onTakeAway}>
        ×
      </button>
    </div>
  );
}
