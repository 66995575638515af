import { useId, useState } from 'react';
import type { KeptSetting, ShopCounter } from '../../db/answers.ts';
import { counterLetters } from '../../reasoner/plain/counter-letter.ts';
import { SettingForm } from './SettingForm.tsx';
import { useSetting } from './useSetting.ts';

const names = { letter: 'Letter' } as const;

/** The letter that stands first in the numbers of cases opened here. */
export function CounterForm({ read }: { readonly read: KeptSetting<ShopCounter> }) {
  const id = useId();
  const [typed, setTyped] = useState(read.value.letter);
  const [fault, setFault] = useState<string | null>(null);
  const held = useSetting('counter', read, ({ letter }) => setTyped(letter));
  const letter = typed.trim().toUpperCase();
  const can = counterLetters.includes(letter);
  const written = (): ShopCounter | null => {
    setFault(
      can ? null : `“${typed.trim()}” is no letter for a counter. Write one letter from A to Z, but not I or O: they read as 1 and 0.`,
    );
    if (can) setTyped(letter);
    return can ? { letter } : null;
  };
  return (
    <SettingForm title="This counter" held={held} names={names} say={(_, value) => value} read={written}>
      <div className="setting-fields">
        <label htmlFor={`${id}-letter`}>Letter</label>
        <input
          id={`${id}-letter`}
          className="field short"
          maxLength={3}
          autoComplete="off"
          spellCheck={false}
          value={typed}
          aria-invalid={fault !== null}
          aria-describedby={`${id}-says`}
          onChange={(event) => setTyped(event.target.value)}
        />
      </div>
      <p id={`${id}-says`} className="small soft">
        {can ? (
          <>
            The next case opened here is numbered <span className="figures">{`${letter}-${new Date().getFullYear()}-…`}</span>
            {'. '}
          </>
        ) : null}
        Give every counter of the shop a letter of its own, and no two cases get the same number. A number once given never changes.
      </p>
      {fault !== null && (
        <p className="trouble" role="alert">
          {fault}
        </p>
      )}
    </SettingForm>
  );
}
