import { useId } from 'react';
import type { CaseDetails, CaseFile } from '../../db/answers.ts';
import { FieldsDialog } from '../look/FieldsDialog.tsx';
import { useWhoList } from '../look/HeldShop.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayWhen } from '../values/sayWhen.ts';
import { type CaseWords, useCaseWords, wordsOf } from './useCaseWords.ts';

interface Props {
  readonly file: CaseFile;
  /** Shown as it stood on a day: to be read and not written. */
  readonly past: boolean;
  onSaved(file: CaseFile): void;
}

/** Whom it is for, who looked, and notes. Each field is saved when it is left, so nothing typed waits for a button. */
export function CaseDetailsForm({ file, past, onSaved }: Props) {
  const id = useId();
  const whoList = useWhoList();
  const { typed, setTyped, unsaved, state, joined, trouble, met, save, settle } = useCaseWords(file, past, onSaved);

  const field = (name: keyof CaseDetails) => ({
    id: `${id}-${name}`,
    className: 'field',
    value: typed[name],
    readOnly: past,
    onChange: (event: { readonly target: { readonly value: string } }) => setTyped({ ...typed, [name]: event.target.value }),
    onBlur: save,
  });
  return (
    <section className="case-block" aria-labelledby={`${id}-head`}>
      <div className="block-head">
        <h2 id={`${id}-head`} className="head">
          The case
        </h2>
        <span className="small soft no-print" role="status">
          {saidOf({ state, unsaved, met, joined })}
        </span>
      </div>
      {trouble !== null && (
        <TroubleNote lead="Not saved." trouble={trouble}>
          {trouble.code === 'changed-since' && (
            <p>
              <button type="button" className="button" onClick={save}>
                See both
              </button>
            </p>
          )}
        </TroubleNote>
      )}
      {met !== null && (
        <FieldsDialog
          title="The case was written on elsewhere"
          told={`${met.there.describedBy || 'Somebody who did not say who'} wrote on the case ${sayWhen(met.there.describedAt)}, after it was read here. Nothing was overwritten.`}
          base={met.base}
          mine={typed}
          theirs={wordsOf(met.there)}
          names={fieldNames}
          say={(_, value) => value}
          onSave={(words) => settle({ how: 'save', words })}
          onTake={() => settle({ how: 'take theirs' })}
          onLater={() => settle({ how: 'later' })}
        />
      )}
      <div className="case-fields">
        <label htmlFor={`${id}-customer`}>Customer</label>
        <input {...field('customer')} maxLength={300} placeholder="name, order number, berth" autoComplete="off" />
        <label htmlFor={`${id}-lookedBy`}>Looked at by</label>
        <input {...field('lookedBy')} maxLength={200} autoComplete="off" list={whoList} />
        <label htmlFor={`${id}-notes`}>Notes</label>
        <textarea {...field('notes')} rows={4} maxLength={20_000} />
      </div>
      <p className="print-only case-notes">{typed.notes}</p>
    </section>
  );
}

const fieldNames = { customer: 'Customer', lookedBy: 'Looked at by', notes: 'Notes' } as const;

const saidOf = ({ state, unsaved, met, joined }: Pick<CaseWords, 'state' | 'unsaved' | 'met' | 'joined'>): string => {
  if (state === 'saving') return 'Saving…';
  if (met !== null) return 'Not saved: written on elsewhere';
  if (unsaved) return 'Saved when you leave the field';
  if (state !== 'saved') return '';
  return joined.length === 0
    ? 'Saved'
    : `Saved, together with what was written elsewhere: ${joined.map((one) => fieldNames[one].toLowerCase()).join(', ')}`;
};
