import type { FormEvent, ReactNode } from 'react';
import { FieldsDialog } from '../look/FieldsDialog.tsx';
import { landmark } from '../look/landmarks.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayWhen } from '../values/sayWhen.ts';
import type { SettingHeld } from './useSetting.ts';

interface Props<Value extends object> {
  readonly title: string;
  readonly held: SettingHeld<Value>;
  /** What each field is called, and how it reads. */
  readonly names: Readonly<Record<keyof Value, string>>;
  say<Field extends keyof Value>(field: Field, value: Value[Field]): string;
  /** The fields read; null where one of them is at fault, which the form then says. */
  read(): Value | null;
  readonly children: ReactNode;
}

/** One part of what the shop says of itself, saved by its own button or Enter. */
export function SettingForm<Value extends object>({ title, held, names, say, read, children }: Props<Value>) {
  const { said, trouble, met, save, settle } = held;
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const value = read();
    if (value !== null) void save(value);
  };
  return (
    <form className="setting" aria-label={title} onSubmit={submit} noValidate {...landmark('own undo')}>
      <h2 className="head">{title}</h2>
      {children}
      {trouble !== null && <TroubleNote lead="Not saved." trouble={trouble} />}
      <p className="setting-foot">
        <button type="submit" className="button main">
          Save
        </button>
        <span role="status" className="soft small">
          {said}
        </span>
      </p>
      {met !== null && (
        <FieldsDialog
          title="Saved elsewhere meanwhile"
          told={`${met.who || 'Somebody'} saved this ${met.at === null ? 'meanwhile' : sayWhen(met.at)}, after it was read here. Nothing was overwritten.`}
          base={met.base}
          mine={met.mine}
          theirs={met.theirs}
          names={names}
          say={say}
          onSave={(value) => settle({ save: value })}
          onTake={() => settle('take theirs')}
          onLater={() => settle('later')}
        />
      )}
    </form>
  );
}
