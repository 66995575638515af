import { type RefObject, useState } from 'react';
import type { SlotId } from '../../reasoner/index.ts';
import { latest, unanswered, useAsk } from '../bridge/useAsk.ts';
import { Combobox } from '../look/Combobox.tsx';
import { useEntryName } from './entryNames.ts';

interface Props {
  readonly label: string;
  readonly list: string;
  readonly value: string | null;
  /** What stands there where nothing is picked. */
  readonly none: string;
  /** Parts of this slot alone. */
  readonly slot?: SlotId | null;
  readonly input?: RefObject<HTMLInputElement | null>;
  /** Ids that cannot be picked. */
  readonly but?: readonly string[];
  onPick(id: string): void;
  /** Backspace in an empty box takes away what is picked. */
  onClear?(): void;
}

/** Another entry, found by what is typed of its name or number, and shown by its name. */
export function RefField({ label, list, value, none, slot = null, input, but = [], onPick, onClear }: Props) {
  const [typed, setTyped] = useState('');
  const name = useEntryName(list, value);
  const [looked, setLooked] = useState(false);
  const args = looked ? { list, text: typed, slot, limit: 60 } : null;
  const asked = useAsk('edit.entries', args, typed === '' ? 0 : 60);
  const found = latest(asked) ?? [];
  const picked = value !== null && value !== '';
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: nothing is done here; the list is asked for when somebody comes to the box.
    <span className={picked ? 'ref-field picked' : 'ref-field'} onFocus={() => setLooked(true)}>
      <Combobox
        label={picked ? `${label}: ${name}` : label}
        placeholder={picked ? name : none}
        filtered
        searching={unanswered(asked, args)}
        items={found
          .filter(({ id }) => !but.includes(id))
          .map(({ id, name: text, detail }) => ({ key: id, text, detail: detail === '' ? id : detail, value: id }))}
        none="Nothing is called so"
        {...(input === undefined ? {} : { input })}
        onPick={onPick}
        onType={setTyped}
        onEmptyKey={(key) => {
          if (key !== 'Backspace' && key !== 'Delete') return false;
          if (!picked || onClear === undefined) return false;
          onClear();
          return true;
        }}
      />
      {picked && onClear !== undefined && (
        <button type="button" className="button bare" aria-label={`${label}: take away ${name}`} onClick={onClear}>
          ×
        </button>
      )}
    </span>
  );
}
