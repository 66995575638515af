import { useEffect, useId, useMemo, useRef, useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { capital, numberInWords } from '../../reasoner/plain/text.ts';
import { useWho } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { sayInstant } from '../cases/sayCase.ts';
import { CarriedNotes } from '../edit/CarriedNotes.tsx';
import { CalledContext, useCalled } from '../edit/entryNames.ts';
import { FaultSaid } from '../edit/FaultSaid.tsx';
import { WouldFollowOf } from '../edit/WouldFollow.tsx';
import { useWhoList } from '../look/HeldShop.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayMany } from '../values/sayMany.ts';
import { AlteredTable } from './AlteredTable.tsx';
import { sayKind, titlesIn } from './sayChange.ts';

/** One change with all it altered, and the way to take it back. */
export function ChangeView({ change, onUndone }: { readonly change: number; readonly onUndone: (number: number | null) => void }) {
  const { vocabulary } = useWords();
  const [undoing, setUndoing] = useState(false);
  const head = useRef<HTMLHeadingElement>(null);
  const asked = useAsk('changes.one', { change });
  const whole = latest(asked);
  const there = whole !== null;
  const called = useCalled(whole?.called);
  useEffect(() => {
    if (there) head.current?.focus();
  }, [there]);
  if (asked.state === 'trouble') return <TroubleNote lead="The change could not be read." trouble={asked.trouble} />;
  if (whole === null) return <p className="soft page-hint">Looking…</p>;
  return (
    <section className="history-change" aria-labelledby={`change-${change}`}>
      <h2 id={`change-${change}`} ref={head} tabIndex={-1} className="head">
        Change {change}: {sayKind(whole, titlesIn(vocabulary))}
      </h2>
      <p className="soft">
        {sayInstant(whole.at)}
        {whole.who !== null && `, ${whole.who}`}
        {whole.why !== null && `. ${whole.why}`}
        {whole.source !== null && `. From: ${whole.source}`}
      </p>
      {!undoing && (
        <p className="no-print">
          <button type="button" className="button" onClick={() => setUndoing(true)}>
            Undo it…
          </button>
        </p>
      )}
      {undoing && <UndoView change={change} onUndone={onUndone} onLeave={() => setUndoing(false)} />}
      <CarriedNotes carried={whole.carried} />
      {whole.altered.length === 0 ? (
        <p className="soft">It altered nothing that can be shown.</p>
      ) : (
        <CalledContext value={called}>
          <AlteredTable label={`What change ${change} altered`} cells={whole.altered} inAll={whole.alteredInAll} />
        </CalledContext>
      )}
    </section>
  );
}

interface UndoProps {
  readonly change: number;
  onUndone(number: number | null): void;
  onLeave(): void;
}

/** What undoing would come to, what stands in its way, and who does it why. */
function UndoView({ change, onUndone, onLeave }: UndoProps) {
  const id = useId();
  const [who, setWho] = useWho();
  const whoList = useWhoList();
  const [why, setWhy] = useState('');
  const [working, setWorking] = useState(false);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const asked = useAsk('changes.lookUndo', { change });
  const seen = latest(asked);
  const undone = useMemo(() => ({ of: { undo: change } }), [change]);
  const undo = async (): Promise<void> => {
    if (seen === null || working) return;
    setWorking(true);
    setTrouble(null);
    const rest = seen.disputes.length > 0;
    const reply = await desk.ask('changes.undo', { change, rest, who: who.trim(), why: why.trim(), head: seen.head });
    setWorking(false);
    if (reply.ok) onUndone(reply.value.change);
    else setTrouble(reply.trouble);
  };
  if (asked.state === 'trouble') return <TroubleNote lead="It cannot be undone." trouble={asked.trouble} />;
  if (seen === null) return <p className="soft page-hint">Looking for what rests on it…</p>;
  const left = seen.cellsInAll;
  return (
    <section className="history-undo" aria-label={`Undoing change ${change}`}>
      {trouble !== null && <TroubleNote lead="Nothing was undone." trouble={trouble} />}
      {seen.disputes.length > 0 && (
        <>
          <p>
            {seen.disputes.length === 1
              ? 'One thing was changed since, or is spoken of by something later, and stays'
              : `${capital(numberInWords(seen.disputes.length))} things were changed since, or are spoken of by something later, and stay`}{' '}
            as {seen.disputes.length === 1 ? 'it is' : 'they are'}.
          </p>
          <AlteredTable
            label="What stays as it is"
            cells={seen.disputes}
            inAll={seen.disputes.length}
            heads={['The change made it', 'Before the change']}
            present={(cell) => seen.disputes.find((one) => sameCell(one, cell))?.present ?? null}
          />
        </>
      )}
      {seen.faults.length > 0 && (
        <ul className="history-faults">
          {seen.faults.slice(0, 40).map((fault) => (
            <li key={fault.sentence}>
              <FaultSaid fault={fault} />
            </li>
          ))}
        </ul>
      )}
      <CarriedNotes carried={seen.carried} />
      {left === 0 ? <p>There is nothing left of it to undo.</p> : <p>{sayMany(left, 'thing')} would be as before.</p>}
      {seen.faults.length === 0 && left > 0 && <WouldFollowOf args={undone} />}
      <div className="history-undo-line no-print">
        <label htmlFor={`${id}-who`}>Who</label>
        <input
          id={`${id}-who`}
          className="field"
          maxLength={200}
          autoComplete="off"
          value={who}
          list={whoList}
          onChange={(event) => setWho(event.target.value)}
        />
        <label htmlFor={`${id}-why`}>Why</label>
        <input
          id={`${id}-why`}
          className="field history-why"
          maxLength={2000}
          autoComplete="off"
          value={why}
          // biome-ignore lint/a11y/noAutofocus: it stands where the button that asked for it was.
          autoFocus
          onChange={(event) => setWhy(event.target.value)}
        />
        <button
          type="button"
          className="button main"
          disabled={working || left === 0 || seen.faults.length > 0}
          onClick={() => void undo()}
        >
          {seen.disputes.length > 0 ? 'Undo the rest' : 'Undo it'}
        </button>
        <button type="button" className="button" onClick={onLeave}>
          Leave it
        </button>
      </div>
    </section>
  );
}

const sameCell = (
  a: { readonly list: string; readonly id: string; readonly field: string | null; readonly line: string | null },
  b: { readonly list: string; readonly id: string; readonly field: string | null; readonly line: string | null },
): boolean => a.list === b.list && a.id === b.id && a.field === b.field && a.line === b.line;
