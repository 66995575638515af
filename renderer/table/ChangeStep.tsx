import { useEffect, useMemo, useState } from 'react';
import type { AlteredSeen, ChangeSeen, Edit } from '../../db/answers.ts';
import type { CallArgs, CallResult, Trouble } from '../../electron/bridge/contract.ts';
import type { Source } from '../../reasoner/index.ts';
import { useWho } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { latest, useAsk, useSettled } from '../bridge/useAsk.ts';
import { CalledContext, useCalled } from '../edit/entryNames.ts';
import { AlteredTable } from '../history/AlteredTable.tsx';
import { useWhoList } from '../look/HeldShop.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { CasesWould } from '../told/CasesWould.tsx';
import { sayMany } from '../values/sayMany.ts';
import { sayCounts } from './sayCounts.ts';
import type { TableWork } from './useTable.ts';

const sources: readonly (readonly [Source['kind'], string])[] = [
  ['measured in the shop', 'measured in the shop'],
  ['published', 'taken from what is published'],
  ['common practice, no source', 'common practice, no source'],
  ['invented', 'made up, to try something'],
];
/** So many are shown of each. */
const most = 60;

/** What the table comes to, before it is made: what is new, what it would alter, what it says otherwise than a pack; made with who and why. */
export function ChangeStep({ table }: { readonly table: TableWork }) {
  const { token, matching, mended } = table;
  const [from, setFrom] = useState<Source['kind']>('measured in the shop');
  const [who, setWho] = useWho();
  const [why, setWhy] = useState('');
  const [making, setMaking] = useState(false);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [times, setTimes] = useState(0);
  const whoList = useWhoList();
  const edits = useAsk('table.edits', token === null || matching === null ? null : { token, matching, mended, from }, 0, times);
  const read = latest(edits);
  const all = edits.state === 'answered' && edits.value.edits.length > 0 ? edits.value.edits : null;
  const looking = useAsk('changes.look', all === null ? null : ({ edits: all } as CallArgs<'changes.look'>), 0, times);
  const seen = edits.state === 'answered' && looking.state === 'answered' ? looking.value : null;
  const called = useCalled(seen?.called);
  const change = useMemo(
    () => (seen === null || seen.faults.length > 0 || all === null ? null : ({ of: { edits: all } } as CallArgs<'changes.would'>)),
    [seen, all],
  );
  const asked = useAsk('changes.would', change);
  const would = useSettled(asked, change);

  const make = async () => {
    if (seen === null || all === null || read === null) return;
    setMaking(true);
    setTrouble(null);
    const reply = await desk.ask('changes.make', {
      edits: [...all] as CallArgs<'changes.make'>['edits'],
      who: who.trim(),
      why: why.trim(),
      source: read.source,
      head: seen.head,
    });
    setMaking(false);
    if (reply.ok) table.done(reply.value, read.source);
    else {
      setTrouble(reply.trouble);
      if (reply.trouble.code === 'changed-since') setTimes((count) => count + 1);
    }
  };
  useEffect(() => setTrouble(null), []);
  if (edits.state === 'trouble') return <TroubleNote lead="The change could not be put together." trouble={edits.trouble} />;
  if (read !== null && read.edits.length === 0) return <p className="table-fine">Nothing: the atlas says all of it already.</p>;
  return (
    <div className="table-change">
      <section aria-labelledby="table-comes-to">
        <h2 id="table-comes-to">What it comes to</h2>
        {looking.state === 'trouble' && <TroubleNote lead="It could not be looked at." trouble={looking.trouble} />}
        {seen === null ? (
          looking.state !== 'trouble' && <p role="status">Looking at what it would change…</p>
        ) : (
          <CalledContext value={called}>
            <Seen seen={seen} rows={read?.rows ?? []} edits={all ?? []} onCells={() => table.go('cells')} />
          </CalledContext>
        )}
        {seen !== null && seen.faults.length === 0 && <Would would={would} waiting={asked.state === 'waiting'} />}
        <CasesWould of={change?.of ?? null} cases={would?.cases ?? null} />
      </section>
      <form
        className="table-make"
        aria-labelledby="table-make"
        onSubmit={(event) => {
          event.preventDefault();
          void make();
        }}
      >
        <h2 id="table-make">Make it</h2>
        <label>
          These figures are
          <select className="field" value={from} onChange={(event) => setFrom(event.target.value as Source['kind'])}>
            {sources.map(([kind, label]) => (
              <option key={kind} value={kind}>
                {label}
              </option>
            ))}
          </select>
        </label>
        <label>
          Who
          <input className="field" value={who} maxLength={200} list={whoList} onChange={(event) => setWho(event.target.value)} />
        </label>
        <label>
          Why
          <input className="field" value={why} maxLength={2000} onChange={(event) => setWhy(event.target.value)} />
        </label>
        {trouble !== null && <TroubleNote lead="Nothing was changed." trouble={trouble} />}
        <button type="submit" className="button main" disabled={seen === null || seen.faults.length > 0 || making}>
          {making ? 'Making the change…' : 'Make this change'}
        </button>
      </form>
    </div>
  );
}

interface SeenProps {
  readonly seen: ChangeSeen;
  readonly rows: readonly (number | null)[];
  readonly edits: readonly Edit[];
  onCells(): void;
}

function Seen({ seen, rows, onCells }: SeenProps) {
  const altered = seen.cells.filter(({ before, after }) => before !== null && after !== null);
  const against = altered.filter(({ own }) => !own);
  const own = altered.filter(({ own: shops }) => shops);
  const gone = seen.cells.filter(({ after }) => after === null);
  return (
    <>
      <p role="status">
        {seen.faults.length > 0
          ? `${sayMany(seen.faults.length, 'thing')} must be mended first.`
          : seen.cellsInAll === 0
            ? 'Nothing: the atlas says all of it already.'
            : `${capital(sayCounts(seen.counts))}.`}
      </p>
      {seen.faults.length > 0 && (
        <>
          <ul className="table-faults">
            {seen.faults.slice(0, most).map((fault, at) => {
              const row = fault.edit === null ? null : (rows[fault.edit] ?? null);
              return (
                // biome-ignore lint/suspicious/noArrayIndexKey: faults stand in their order, and two may say the same.
                <li key={at}>
                  {row !== null && <b>Row {row}: </b>}
                  {fault.sentence}
                </li>
              );
            })}
          </ul>
          <p>
            <button type="button" className="button" onClick={onCells}>
              Back to the cells
            </button>
          </p>
        </>
      )}
      <Cells title="Said otherwise than a pack says it" cells={against} />
      <Cells title="Altered" cells={own} />
      <Cells title="Taken away" cells={gone} />
      {seen.warnings.length > 0 && (
        <details>
          <summary>Worth a second look: {sayMany(seen.warnings.length, 'thing')}</summary>
          <ul className="table-faults">
            {seen.warnings.slice(0, most).map(({ place, sentence }) => (
              <li key={`${place} ${sentence}`}>{sentence}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function Cells({ title, cells }: { readonly title: string; readonly cells: readonly AlteredSeen[] }) {
  if (cells.length === 0) return null;
  return (
    <>
      <h3>
        {title} <span className="soft">{cells.length}</span>
      </h3>
      <AlteredTable label={title} cells={cells} inAll={cells.length} heads={['Says now', 'Would say']} most={most} />
    </>
  );
}

/** What would be concluded otherwise. It is worked out beside, and nothing waits for it. */
function Would({ would, waiting }: { readonly would: CallResult<'changes.would'>; readonly waiting: boolean }) {
  if (waiting) return <p className="small soft">Working out what would follow…</p>;
  if (would === null) return null;
  const { names, meetings } = would;
  const of = (how: (typeof names)[number]['how']) => names.filter((name) => name.how === how).length;
  const said = [
    [of('new'), 'name it would add', 'names it would add'],
    [of('altered'), 'name that would ask for other parts', 'names that would ask for other parts'],
    [of('gone'), 'name that would be gone', 'names that would be gone'],
    [meetings.length, 'place where parts would meet otherwise', 'places where parts would meet otherwise'],
  ] as const;
  const some = said.filter(([many]) => many > 0).map(([many, one, more]) => sayMany(many, one, more));
  return (
    <p>
      <b>What would follow:</b>{' '}
      {some.length === 0 ? 'no name would ask for other parts, and no two parts would meet otherwise than now' : some.join('; ')}.
    </p>
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
