import { type KeyboardEvent, useContext, useEffect, useRef } from 'react';
import type { Shape } from '../../electron/bridge/edit-calls.ts';
import { useEntryName } from './entryNames.ts';
import { FormContext, listAt } from './FormContext.ts';
import type { Field, FieldProps } from './fieldProps.ts';
import { fieldWords } from './fieldWords.ts';
import type { Json } from './json.ts';
import { RefField } from './RefField.tsx';
import { blankOf, simple } from './shapes.ts';

interface Props extends FieldProps {
  readonly label: string;
  readonly of: Shape;
  readonly Field: Field;
  /** Whether a list with nothing in it is said by leaving it out. */
  readonly empty: boolean;
}

/**
 * Several of one kind, one under the other. Ctrl+Enter adds one beneath, Alt and the arrows move it, Ctrl+Backspace takes it away. Ids are picked by name, in a box behind
 * those there are.
 */
export function ListField({ label, of, Field, path, value, empty, onChange }: Props) {
  const { list, references } = useContext(FormContext);
  const items = Array.isArray(value) ? (value as readonly Json[]) : [];
  const rows = useRef<HTMLOListElement>(null);
  const goTo = useRef<number | null>(null);
  useEffect(() => {
    if (goTo.current === null) return;
    const row = rows.current?.children[goTo.current];
    goTo.current = null;
    row?.querySelector<HTMLElement>('input, select, textarea')?.focus();
  });
  const say = (next: readonly Json[]) => onChange(next.length === 0 && empty ? undefined : next);
  const ids = listAt(references, [...path, 0]);
  if (ids !== null) {
    return (
      <div className="edit-ids">
        {items.map((id, at) => (
          <IdChip
            // biome-ignore lint/suspicious/noArrayIndexKey: an id may stand twice while it is being mended.
            key={at}
            list={ids}
            id={String(id)}
            onTakeAway={() => say(items.filter((_one, other) => other !== at))}
          />
        ))}
        <RefField
          label={`${label}: add`}
          list={ids}
          value={null}
          none={items.length === 0 ? 'none; type a name to add one' : 'add another'}
          but={items.map(String)}
          onPick={(id) => say([...items, id])}
          onClear={() => say(items.slice(0, -1))}
        />
      </div>
    );
  }
  const add = (at: number) => {
    goTo.current = at;
    say([...items.slice(0, at), blankOf(of) ?? '', ...items.slice(at)]);
  };
  const move = (at: number, by: 1 | -1) => {
    const [one, other] = [items[at], items[at + by]];
    if (one === undefined || other === undefined) return;
    goTo.current = at + by;
    say(items.map((item, place) => (place === at ? other : place === at + by ? one : item)));
  };
  const takeAway = (at: number) => {
    goTo.current = Math.max(0, at - 1);
    say(items.filter((_one, place) => place !== at));
  };
  const onKeyDown = (event: KeyboardEvent, at: number) => {
    const onLine = event.target instanceof HTMLInputElement && event.target.type === 'text' && !event.target.getAttribute('role');
    if (event.key === 'Enter' && (event.ctrlKey || (simple(of) && onLine))) add(at + 1);
    else if (event.altKey && event.key === 'ArrowDown') move(at, 1);
    else if (event.altKey && event.key === 'ArrowUp') move(at, -1);
    else if (event.key === 'Backspace' && (event.ctrlKey || (simple(of) && onLine && (event.target as HTMLInputElement).value === '')))
      takeAway(at);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const one = fieldWords(list, [...path, 0]).label.toLowerCase();
  return (
    <>
      <ol className={simple(of) ? 'edit-list lines' : 'edit-list'} ref={rows}>
        {items.map((item, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: lines have no name of their own; their place is what they are told by.
          <li key={at} onKeyDown={(event) => onKeyDown(event, at)}>
            <Field
              shape={of}
              path={[...path, at]}
              value={item}
              mayLack={false}
              bare
              onChange={(next) => say(items.map((before, place) => (place === at ? (next ?? '') : before)))}
            />
            <span className="edit-line-buttons">
              <button
                type="button"
                className="button bare"
                aria-label={`${one} ${at + 1}: up`}
                disabled={at === 0}
                onClick={() => move(at, -1)}
              >
                ↑
              </button>
              <button
                type="button"
                className="button bare"
                aria-label={`${one} ${at + 1}: down`}
                disabled={at === items.length - 1}
                onClick={() => move(at, 1)}
              >
                ↓
              </button>
              <button type="button" className="button bare" aria-label={`${one} ${at + 1}: take away`} onClick={() => takeAway(at)}>
                ×
              </button>
            </span>
          </li>
        ))}
      </ol>
      <button type="button" className="button plain" onClick={() => add(items.length)}>
        Add {items.length === 0 ? 'one' : 'another'}
        <span className="unseen"> to {label}</span>
      </button>
    </>
  );
}

function IdChip({ list, id, onTakeAway }: { readonly list: string; readonly id: string; onTakeAway(): void }) {
  const name = useEntryName(list, id);
  return (
    <span className="edit-chip">
      {name}
      <button type="button" className="button bare" aria-label={`take away ${name}`} onClick={onTakeAway}>
        ×
      </button>
    </span>
  );
}
