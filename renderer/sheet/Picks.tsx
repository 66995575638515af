import { type KeyboardEvent, useId, useRef, useState } from 'react';
import { isWithinName, type Option, type Typed, typedAt } from './typeAhead.ts';

interface Props {
  readonly name: string;
  readonly label?: string;
  readonly labelledBy?: string;
  readonly options: readonly Option[];
  readonly picked: string | null;
  /** Null takes the choice back. */
  onPick(value: string | null): void;
}

/** One of a few, all in sight: arrows choose, letters and figures go to what begins so, a space picks where it is in no name, Enter takes the entry. */
export function Picks({ name, label, labelledBy, options, picked, onPick }: Props) {
  const id = useId();
  const group = useRef<HTMLDivElement>(null);
  const typed = useRef<Typed | null>(null);
  const [unknown, setUnknown] = useState<string | null>(null);
  const pick = (value: string | null) => {
    typed.current = null;
    setUnknown(null);
    onPick(value);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key.length !== 1 || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === ' ' && !isWithinName(options, typed.current, event.timeStamp)) return;
    event.preventDefault();
    const came = typedAt(options, picked, typed.current, event.key, event.timeStamp);
    typed.current = came.typed;
    setUnknown(came.unknown);
    if (came.picked !== picked) onPick(came.picked);
    const at = options.findIndex(({ value }) => value === came.picked);
    group.current?.querySelectorAll<HTMLInputElement>('input')[Math.max(at, 0)]?.focus();
  };
  return (
    <>
      <div
        ref={group}
        className="picks"
        role="radiogroup"
        aria-label={label}
        aria-labelledby={labelledBy}
        aria-describedby={unknown === null ? undefined : id}
        onKeyDown={onKeyDown}
      >
        {options.map((option) => (
          <label key={option.value}>
            <input type="radio" name={name} value={option.value} checked={picked === option.value} onChange={() => pick(option.value)} />
            <span>{option.text}</span>
          </label>
        ))}
      </div>
      <p id={id} className={unknown === null ? 'unseen' : 'picks-hint'} role="status">
        {unknown !== null && `Nothing here begins “${unknown}”. This is a choice: ${listed(options)}.`}
      </p>
    </>
  );
}

/** So many are named, and then how many more there are. */
const most = 4;

const listed = (options: readonly Option[]): string => {
  const texts = options.slice(0, most).map(({ text }) => text);
  const rest = options.length > most ? `${options.length - most} more` : (texts.pop() ?? '');
  return texts.length === 0 ? rest : `${texts.join(', ')} or ${rest}`;
};
