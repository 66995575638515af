import { useEffect, useId, useRef, useState } from 'react';
import type { CaseDetails, CaseFile } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { desk } from '../bridge/desk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';

interface Props {
  readonly file: CaseFile;
  /** Shown as it stood on a day: to be read and not written. */
  readonly past: boolean;
  onSaved(file: CaseFile): void;
}

/** Whom it is for, who looked, and notes. Each field is saved when it is left, so nothing typed waits for a button. */
export function CaseDetailsForm({ file, past, onSaved }: Props) {
  const id = useId();
  const [typed, setTyped] = useState<CaseDetails>(detailsOf(file));
  const [kept, setKept] = useState<CaseDetails>(detailsOf(file));
  const [state, setState] = useState<'rest' | 'saving' | 'saved'>('rest');
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const now = useRef({ typed, kept });
  now.current = { typed, kept };
  const unsaved = !same(typed, kept);

  const save = async () => {
    const { typed: details, kept: before } = now.current;
    if (past || same(details, before)) return;
    setState('saving');
    const reply = await desk.ask('cases.describe', { sheet: file.sheet, ...details });
    if (!reply.ok) {
      setTrouble(reply.trouble);
      return setState('rest');
    }
    setTrouble(null);
    setKept(details);
    setState('saved');
    onSaved(reply.value);
  };
  // The page may be left by a key while a field still has the focus.
  useEffect(
    () => () => {
      const { typed: details, kept: before } = now.current;
      if (!past && !same(details, before)) void desk.ask('cases.describe', { sheet: file.sheet, ...details });
    },
    [file.sheet, past],
  );

  const field = (name: keyof CaseDetails) => ({
    id: `${id}-${name}`,
    className: 'field',
    value: typed[name],
    readOnly: past,
    onChange: (event: { readonly target: { readonly value: string } }) => setTyped({ ...typed, [name]: event.target.value }),
    onBlur: () => void save(),
  });
  return (
    <section className="case-block" aria-labelledby={`${id}-head`}>
      <div className="block-head">
        <h2 id={`${id}-head`} className="head">
          The case
        </h2>
        <span className="small soft no-print" role="status">
          {state === 'saving' ? 'Saving…' : unsaved ? 'Saved when you leave the field' : state === 'saved' ? 'Saved' : ''}
        </span>
      </div>
      {trouble !== null && <TroubleNote lead="Not saved." trouble={trouble} />}
      <div className="case-fields">
        <label htmlFor={`${id}-customer`}>Customer</label>
        <input {...field('customer')} maxLength={300} placeholder="name, order number, berth" autoComplete="off" />
        <label htmlFor={`${id}-lookedBy`}>Looked at by</label>
        <input {...field('lookedBy')} maxLength={200} autoComplete="off" />
        <label htmlFor={`${id}-notes`}>Notes</label>
        <textarea {...field('notes')} rows={4} maxLength={20_000} />
      </div>
      <p className="print-only case-notes">{typed.notes}</p>
    </section>
  );
}

const detailsOf = ({ customer, lookedBy, notes }: CaseFile): CaseDetails => ({ customer, lookedBy, notes });
const same = (a: CaseDetails, b: CaseDetails): boolean => a.customer === b.customer && a.lookedBy === b.lookedBy && a.notes === b.notes;
