import { type InputHTMLAttributes, useState } from 'react';
import { withSign } from '../values/figures.ts';
import type { Json } from './json.ts';

interface Props extends Omit<InputHTMLAttributes<HTMLInputElement>, 'value' | 'onChange'> {
  readonly value: Json | undefined;
  /** What an empty box says: that it is not known, or nothing. */
  readonly empty: null | undefined;
  onChange(value: Json | undefined): void;
}

/** A figure with a decimal point or comma. What is no figure stays as it is written, and is a fault of its field; an empty box is never nought. */
export function NumberField({ value, empty, onChange, ...rest }: Props) {
  const [typed, setTyped] = useState<{ readonly text: string; readonly as: Json | undefined } | null>(null);
  const shown = typed !== null && typed.as === value ? typed.text : value === null || value === undefined ? '' : withSign(String(value));
  return (
    <input
      {...rest}
      className="field number"
      type="text"
      inputMode="decimal"
      autoComplete="off"
      value={shown}
      onChange={({ target }) => {
        const as = numberOf(target.value, empty);
        setTyped({ text: target.value, as });
        onChange(as);
      }}
    />
  );
}

const numberOf = (text: string, empty: null | undefined): Json | undefined => {
  const bare = text.trim();
  if (bare === '' || bare === '?') return empty;
  return /^[-−+]?(\d+([.,]\d*)?|[.,]\d+)$/.test(bare) ? Number(bare.replace(',', '.').replace('−', '-')) : bare;
};
