import { useState } from 'react';
import type { ChangeEntry, ChangeKind } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { useWho } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { useWhoList } from '../look/HeldShop.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
import { sayMany } from '../values/sayMany.ts';
import { sayWhen } from '../values/sayWhen.ts';
import { CellRow, sayCount } from './ChangePanel.tsx';
import { useEntryName } from './entryNames.ts';
import { listWords } from './fieldWords.ts';
import { cellName, sayCell } from './sayCell.ts';

const atOnce = 50;
const mostCells = 60;
const kinds: Record<ChangeKind, string> = {
  'pack loaded': 'A pack was brought in',
  'pack removed': 'A pack was taken out',
  edited: 'Edited',
  undone: 'Taken back',
};

/** What was changed, the newest first: when, what, by whom and why; of one of them what it altered, and whether it can be taken back. */
export function HistoryPage({ of }: { readonly of: { readonly list: string; readonly id: string } | null }) {
  const [many, setMany] = useState(atOnce);
  const [open, setOpen] = useState<number | null>(null);
  const asked = useAsk('changes.list', { before: null, limit: many, of });
  const name = useEntryName(of?.list ?? '', of?.id ?? null);
  const entries = latest(asked) ?? [];
  return (
    <div className={open === null ? 'edit-list-page' : 'edit-list-page with-many'}>
      <div className="edit-form">
        <p className="head">
          <a href={hrefOf({ screen: 'edit', place: { at: 'lists' } })}>Edit the atlas</a>
          {of !== null && (
            <>
              {' · '}
              <a href={hrefOf({ screen: 'edit', place: { at: 'entry', list: of.list, id: of.id } })}>{name}</a>
            </>
          )}
        </p>
        <h1 className="page-title">{of === null ? 'What was changed' : `What was changed of ${name}`}</h1>
        {asked.state === 'trouble' && <TroubleNote lead="The history could not be read." trouble={asked.trouble} />}
        {entries.length === 0 && latest(asked) !== null && <p className="soft">Nothing was changed yet.</p>}
        <ul>
          {entries.map((entry) => (
            <li key={entry.change} className="edit-history-line">
              <button
                type="button"
                className="button"
                aria-expanded={open === entry.change}
                onClick={() => setOpen(open === entry.change ? null : entry.change)}
              >
                {entry.change}
                <span className="unseen">, what it altered</span>
              </button>
              <Summary entry={entry} />
            </li>
          ))}
        </ul>
        {entries.length === many && (
          <button type="button" className="button" onClick={() => setMany(Math.min(200, many + atOnce))}>
            Older ones
          </button>
        )}
      </div>
      {open !== null && <Opened key={open} change={open} onLeave={() => setOpen(null)} />}
    </div>
  );
}

function Summary({ entry }: { readonly entry: ChangeEntry }) {
  const { packs } = useWords().vocabulary;
  const title = (id: string): string => packs.find((pack) => pack.id === id)?.title ?? id;
  return (
    <div>
      {kinds[entry.kind]}
      {entry.undoes !== null && `: change ${entry.undoes}`}
      {entry.kind !== 'edited' && entry.undoes === null && `: ${entry.packs.map(title).join(', ')}`} {sayWhen(entry.at)}
      {entry.who !== null && entry.who !== '' && ` by ${entry.who}`}, {sayMany(entry.cells, 'thing')} altered.
      {entry.undoneBy !== null && <span className="tag"> taken back by change {entry.undoneBy}</span>}
      {entry.why !== null && entry.why !== '' && <div>{entry.why}</div>}
      {entry.source !== null && entry.source !== '' && <div className="small soft">From {entry.source}</div>}
    </div>
  );
}

/** What one change altered, and what taking it back would come to. */
function Opened({ change, onLeave }: { readonly change: number; onLeave(): void }) {
  const words = useWords();
  const [who, setWho] = useWho();
  const whoList = useWhoList();
  const [why, setWhy] = useState('');
  const [failed, setFailed] = useState<Trouble | null>(null);
  const whole = useAsk('changes.one', { change });
  const undo = useAsk('changes.lookUndo', { change });
  const one = latest(whole);
  const seen = undo.state === 'answered' ? undo.value : null;
  const take = async (rest: boolean) => {
    if (seen === null) return;
    const reply = await desk.ask('changes.undo', { change, rest, who: who.trim(), why: why.trim(), head: seen.head });
    if (reply.ok) onLeave();
    else setFailed(reply.trouble);
  };
  const cells = one?.altered.filter(({ list }) => list !== 'pack') ?? [];
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, and by keyboard too.
    <aside className="edit-change" aria-label={`Change ${change}`} tabIndex={0}>
      <h2 className="head">Change {change}</h2>
      {whole.state === 'trouble' && <TroubleNote lead="It could not be read." trouble={whole.trouble} />}
      {failed !== null && <TroubleNote lead="It was not taken back." trouble={failed} />}
      {undo.state === 'trouble' && <TroubleNote lead="It cannot be taken back." trouble={undo.trouble} />}
      {one !== null && one.undoneBy === null && undo.state === 'waiting' && (
        <p className="small soft">Looking whether it can be taken back…</p>
      )}
      {one !== null && one.undoneBy === null && seen !== null && (
        <section className="edit-undo" aria-label="Taking it back">
          {seen.faults.length > 0 && (
            <ul className="edit-faults">
              {seen.faults.slice(0, 12).map(({ sentence }) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          )}
          {seen.disputes.length > 0 && (
            <>
              <p>Something later rests on a part of it:</p>
              <ul className="edit-faults">
                {seen.disputes.slice(0, 12).map((dispute) => (
                  <li key={`${dispute.list} ${dispute.id} ${dispute.field} ${dispute.line}`}>
                    {listWords[dispute.list]?.one ?? dispute.list} “{dispute.id}”, {cellName(words, dispute)}: now{' '}
                    {sayCell(words, dispute, dispute.present)}
                  </li>
                ))}
              </ul>
            </>
          )}
          {seen.cellsInAll > 0 ? (
            <>
              <label className="edit-many-line">
                Who{' '}
                <input
                  className="field"
                  type="text"
                  maxLength={200}
                  list={whoList}
                  value={who}
                  onChange={({ target }) => setWho(target.value)}
                />
              </label>
              <label className="edit-many-line">
                Why <input className="field" type="text" maxLength={2000} value={why} onChange={({ target }) => setWhy(target.value)} />
              </label>
              <button
                type="button"
                className="button"
                disabled={seen.faults.length > 0}
                onClick={() => void take(seen.disputes.length > 0)}
              >
                {seen.disputes.length > 0 ? 'Take back the rest of it' : 'Take this change back'}
              </button>
            </>
          ) : (
            <p className="small soft">There is nothing left of it to take back.</p>
          )}
        </section>
      )}
      {one !== null && (
        <>
          <p className="small">
            {one.counts
              .filter(({ of }) => of !== 'pack')
              .map(({ of, added, altered, removed }) => sayCount(of, added, altered, removed))
              .join(' ')}
          </p>
          <ul className="edit-cells">
            {cells.slice(0, mostCells).map((cell) => (
              <CellRow key={`${cell.pack} ${cell.list} ${cell.id} ${cell.field} ${cell.line}`} cell={cell} />
            ))}
          </ul>
          {one.alteredInAll > Math.min(mostCells, cells.length) && (
            <p className="small soft">and {one.alteredInAll - Math.min(mostCells, cells.length)} more</p>
          )}
        </>
      )}
    </aside>
  );
}
