import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { Shape } from '../../electron/bridge/edit-calls.ts';
import type { Field, FieldProps } from './fieldProps.ts';
import type { Json, JsonObject } from './json.ts';
import { blankOf } from './shapes.ts';

interface Props extends Omit<FieldProps, 'value'> {
  readonly label: string;
  readonly of: Shape;
  readonly Field: Field;
  readonly value: JsonObject;
}

/** What each of some texts stands for: the text on the left, what it stands for on the right. Enter leads from a text to what it stands for, and on to the next text. */
export function TableField({ label, of, Field, path, value, onChange }: Props) {
  const [fresh, setFresh] = useState('');
  const rows = useRef<HTMLTableSectionElement>(null);
  const box = useRef<HTMLInputElement>(null);
  const goTo = useRef<string | null>(null);
  useEffect(() => {
    if (goTo.current === null) return;
    const row = [...(rows.current?.children ?? [])].find((one) => one.firstElementChild?.textContent === goTo.current);
    goTo.current = null;
    row?.querySelector<HTMLElement>('input, select, textarea')?.focus();
  });
  const lines = Object.entries(value) as [string, Json][];
  const add = () => {
    const key = fresh.trim();
    if (key === '' || key in value) return;
    goTo.current = key;
    onChange({ ...value, [key]: blankOf(of) ?? '' });
    setFresh('');
  };
  const back = (event: KeyboardEvent) => {
    const line = event.target instanceof HTMLInputElement && event.target.getAttribute('role') === null;
    if (event.key !== 'Enter' || event.ctrlKey || !line) return;
    event.preventDefault();
    event.stopPropagation();
    box.current?.focus();
  };
  return (
    <table className="edit-table">
      <tbody ref={rows}>
        {lines.map(([key, is]) => (
          <tr key={key}>
            <th scope="row">{key}</th>
            <td onKeyDown={back}>
              <Field
                shape={of}
                path={[...path, key]}
                value={is}
                mayLack={false}
                bare
                onChange={(next) => onChange({ ...value, [key]: next ?? '' })}
              />
            </td>
            <td>
              <button
                type="button"
                className="button bare"
                aria-label={`${label}: take away ${key}`}
                onClick={() => onChange(Object.fromEntries(lines.filter(([other]) => other !== key)))}
              >
                ×
              </button>
            </td>
          </tr>
        ))}
        <tr>
          <td colSpan={3}>
            <input
              ref={box}
              className="field"
              type="text"
              aria-label={`${label}: another`}
              placeholder="another"
              value={fresh}
              onChange={({ target }) => setFresh(target.value)}
              onKeyDown={(event) => {
                if (event.key !== 'Enter') return;
                event.preventDefault();
                add();
              }}
            />{' '}
            <button type="button" className="button plain" disabled={fresh.trim() === '' || fresh.trim() in value} onClick={add}>
              Add<span className="unseen"> to {label}</span>
            </button>
          </td>
        </tr>
      </tbody>
    </table>
  );
}
