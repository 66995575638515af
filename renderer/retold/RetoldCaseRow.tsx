import { useId, useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { sayInstant } from '../cases/sayCase.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
import { SayTold } from '../told/SayTold.tsx';
import type { RetoldRow } from './useRetold.ts';

/** One case of the list: what it was told, what it would be told and why, and the two ways of working it off. */
export function RetoldCaseRow({ row, onDone }: { readonly row: RetoldRow; onDone(): void }) {
  const [leaving, setLeaving] = useState(false);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const title = row.title === '' ? 'untitled unit' : row.title;

  const saveAnew = async () => {
    const opened = await desk.ask('sheets.open', { id: row.sheet });
    if (!opened.ok) return setTrouble(opened.trouble);
    const saved = await desk.ask('sheets.save', { sheet: opened.value.sheet, who: whoLooks(), madeAgainst: opened.value.version });
    if (saved.ok) onDone();
    else setTrouble(saved.trouble);
  };
  const leave = async (reason: string) => {
    if (row.otherwise === null) return;
    const left = await desk.ask('cases.leave', { sheet: row.sheet, entry: row.entry, otherwise: row.otherwise, reason, who: whoLooks() });
    if (left.ok) onDone();
    else setTrouble(left.trouble);
  };

  return (
    <li className="retold-row" aria-label={`Case ${row.number}: ${title}`}>
      <div>
        <a className="retold-case" href={hrefOf({ screen: 'case', sheet: row.sheet })}>
          {row.number} {title}
        </a>
        <span className="sheet-detail">
          judged {sayInstant(row.savedAt)}
          {row.who === '' ? '' : ` by ${row.who}`}
        </span>
        {row.retold !== null && <span className="retold-weight">{row.retold.weight}</span>}
      </div>
      {row.retold === null ? (
        <div className="retold-why">
          <p>Today’s atlas cannot judge it:</p>
          <ul className="plain-list small">
            {row.faults.map((fault) => (
              <li key={fault}>{fault}</li>
            ))}
          </ul>
        </div>
      ) : (
        <>
          <dl className="told-both">
            <dt>Was judged</dt>
            <dd>
              <SayTold told={row.retold.was} beside={row.retold.is} />
            </dd>
            <dt>Would be judged</dt>
            <dd>
              <SayTold told={row.retold.is} beside={row.retold.was} />
            </dd>
          </dl>
          <div className="retold-why">
            <ul className="plain-list small">
              {row.retold.why.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </div>
        </>
      )}
      {trouble !== null && <TroubleNote lead="It was not worked off." trouble={trouble} />}
      {row.retold !== null && !leaving && (
        <p className="retold-actions">
          <button type="button" className="button" aria-label={`Save as judged today: case ${row.number}`} onClick={() => void saveAnew()}>
            Save as judged today
          </button>
          <button
            type="button"
            className="button plain"
            aria-label={`Leave as it was… case ${row.number}`}
            onClick={() => setLeaving(true)}
          >
            Leave as it was…
          </button>
        </p>
      )}
      {leaving && <LeaveForm onLeaveAsTold={(reason) => void leave(reason)} onCancel={() => setLeaving(false)} />}
    </li>
  );
}

function LeaveForm({ onLeaveAsTold, onCancel }: { onLeaveAsTold(reason: string): void; onCancel(): void }) {
  const id = useId();
  const [reason, setReason] = useState('');
  return (
    <form
      className="retold-leave"
      aria-label="Leave as it was"
      onSubmit={(event) => {
        event.preventDefault();
        onLeaveAsTold(reason.trim());
      }}
    >
      <label htmlFor={id}>Why it stays as it was</label>
      <input
        id={id}
        className="field"
        maxLength={1000}
        required
        autoComplete="off"
        // biome-ignore lint/a11y/noAutofocus: it was asked for, and its first field is where it begins.
        autoFocus
        value={reason}
        onChange={(event) => setReason(event.target.value)}
      />
      <button type="submit" className="button" disabled={reason.trim() === ''}>
        Leave it as it was
      </button>
      <button type="button" className="button plain" onClick={onCancel}>
        Cancel
      </button>
    </form>
  );
}
