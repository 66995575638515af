import { type FormEvent, type ReactNode, useState } from 'react';
import type { ChangeMade, Edit } from '../../db/answers.ts';
import type { CallArgs, Trouble } from '../../electron/bridge/contract.ts';
import { useWho } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { ChangePanel } from '../edit/ChangePanel.tsx';
import { useLook } from '../edit/useLook.ts';
import { ModalBox } from '../look/ModalBox.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';

/** Edits that come from the counter, with what they would change beside what is said of them; made as one change. */
export function ChangeDialog(props: {
  readonly title: string;
  readonly edits: readonly Edit[];
  readonly source: string;
  /** What stands there while there are no edits. */
  readonly nothing: string;
  readonly why: string;
  /** Why the edits could not be made out. */
  readonly trouble: Trouble | null;
  readonly make: string;
  readonly children: ReactNode;
  onMade(made: ChangeMade): void;
  onLeave(): void;
}) {
  const { edits, source } = props;
  const [who, setWho] = useWho();
  const [why, setWhy] = useState(props.why);
  const [refused, setRefused] = useState<Trouble | null>(null);
  const [busy, setBusy] = useState(false);
  const looked = useLook(edits);
  const ready = looked.seen !== null && looked.seen.faults.length === 0 && looked.seen.cellsInAll > 0 && props.trouble === null;
  const make = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (!ready || busy || looked.seen === null) return;
    setBusy(true);
    const reply = await desk.ask('changes.make', {
      edits: [...edits] as CallArgs<'changes.make'>['edits'],
      who: who.trim(),
      why: why.trim(),
      source,
      head: looked.seen.head,
    });
    setBusy(false);
    if (reply.ok) props.onMade(reply.value);
    else setRefused(reply.trouble);
  };
  const trouble = refused ?? props.trouble;
  return (
    <ModalBox title={props.title} className="samples-dialog" onLeave={props.onLeave}>
      <div className="samples-columns">
        <form onSubmit={(event) => void make(event)} noValidate>
          {props.children}
          <div className="samples-fields">
            <label>
              Who <input className="field" maxLength={200} value={who} onChange={({ target }) => setWho(target.value)} />
            </label>
            <label>
              Why <input className="field" maxLength={2000} value={why} onChange={({ target }) => setWhy(target.value)} />
            </label>
          </div>
          {source !== '' && <p className="small soft">Source: {source}.</p>}
          {trouble !== null && <TroubleNote lead="Nothing was changed." trouble={trouble} />}
          <div className="actions">
            <button type="submit" className="button main" disabled={!ready || busy}>
              {props.make}
            </button>
            <button type="button" className="button" onClick={props.onLeave}>
              Cancel
            </button>
          </div>
        </form>
        <ChangePanel edits={edits} looked={looked} nothing={props.nothing} />
      </div>
    </ModalBox>
  );
}
