import './history.css';
import { Fragment, useEffect, useRef, useState } from 'react';
import type { ChangeEntry } from '../../db/answers.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { sayInstant } from '../cases/sayCase.ts';
import { useEntryName } from '../edit/entryNames.ts';
import { listWords } from '../edit/fieldWords.ts';
import { NothingYet } from '../look/NothingYet.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
import { sayWhole } from '../values/figures.ts';
import { sayMany } from '../values/sayMany.ts';
import { AsItStood } from './AsItStood.tsx';
import { ChangeView } from './ChangeView.tsx';
import { type OfEntry, sayKind, titlesIn } from './sayChange.ts';

const atOnce = 50;

/** Every change of the atlas, or of one entry of it: who, when, why, what it altered; undone from here. */
export function HistoryScreen({ of }: { readonly of: OfEntry | null }) {
  const { vocabulary } = useWords();
  const [before, setBefore] = useState<number | null>(null);
  const [earlier, setEarlier] = useState<readonly ChangeEntry[]>([]);
  const [chosen, setChosen] = useState<number | null>(null);
  const [undone, setUndone] = useState(0);
  const [said, setSaid] = useState('');
  const head = useRef<HTMLHeadingElement>(null);
  const asked = useAsk('changes.list', { before, limit: atOnce, of }, 0, undone);
  const page = latest(asked);
  const name = useEntryName(of?.list ?? 'parts', of?.id ?? null);
  const title =
    of === null ? 'History of the atlas' : `History: ${[listWords[of.list]?.one, name].filter((word) => word !== undefined).join(' ')}`;
  // Another entry has a history of its own.
  const key = JSON.stringify(of);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` stands for `of`.
  useEffect(() => {
    setBefore(null);
    setEarlier([]);
    setChosen(null);
  }, [key]);
  const shown = before === null ? (page ?? []) : [...earlier, ...(page ?? [])];

  return (
    <main className="page-screen history-screen">
      <header className="page-ask">
        <h1 className="page-title" ref={head} tabIndex={-1}>
          {title}
        </h1>
        <a className="no-print" href={hrefOf(of === null ? { screen: 'atlas', page: null } : { screen: 'history', of: null })}>
          {of === null ? 'Back to the atlas' : 'All changes'}
        </a>
        <span role="status" className="soft history-said">
          {said}
        </span>
      </header>
      <AsItStood of={of} />
      {asked.state === 'trouble' && <TroubleNote lead="The history could not be read." trouble={asked.trouble} />}
      {page === null && asked.state !== 'trouble' && <p className="soft page-hint">Looking…</p>}
      {page !== null && shown.length === 0 && (
        <NothingYet>
          {of === null ? (
            <p>
              Nothing was changed yet. Whatever is <a href={hrefOf({ screen: 'edit', place: { at: 'lists' } })}>edited</a>, or comes in by{' '}
              <a href={hrefOf({ screen: 'table' })}>a spreadsheet</a> or <a href={hrefOf({ screen: 'packs' })}>a pack</a>, stands here with
              who and why, and can be undone.
            </p>
          ) : (
            <p>Nothing is known to have changed of it. Once it is edited, each change stands here with who and why, and can be undone.</p>
          )}
        </NothingYet>
      )}
      {shown.length > 0 && (
        <table className="page-table history-table" aria-label="Changes, the newest first">
          <thead>
            <tr>
              <th scope="col">Change</th>
              <th scope="col">When</th>
              <th scope="col">What</th>
              <th scope="col">Who</th>
              <th scope="col">Why, and from where</th>
              <th scope="col" className="is-many">
                How much
              </th>
              <td />
            </tr>
          </thead>
          <tbody>
            {shown.map((change) => (
              <tr key={change.change} className={chosen === change.change ? 'is-picked' : undefined}>
                <th scope="row">{change.change}</th>
                <td>{sayInstant(change.at)}</td>
                <td>
                  {sayKind(change, titlesIn(vocabulary))}
                  <Of change={change} />
                  {change.undoneBy !== null && <span className="small soft"> undone since</span>}
                </td>
                <td>{change.who ?? <span className="soft">nobody said</span>}</td>
                <td>{[change.why, change.source].filter((words) => words !== null).join(' · ')}</td>
                <td className="is-many">{change.cells === 1 ? '1 thing' : `${sayWhole(change.cells)} things`}</td>
                <td className="no-print">
                  <button
                    type="button"
                    className="button"
                    aria-label={`${chosen === change.change ? 'Close' : 'Look at it'}: change ${change.change}`}
                    aria-expanded={chosen === change.change}
                    onClick={() => setChosen(chosen === change.change ? null : change.change)}
                  >
                    {chosen === change.change ? 'Close' : 'Look at it'}
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {page !== null && page.length === atOnce && (
        <p className="no-print">
          <button
            type="button"
            className="button"
            onClick={() => {
              setEarlier(shown);
              setBefore(shown.at(-1)?.change ?? null);
            }}
          >
            Earlier changes
          </button>
        </p>
      )}
      {chosen !== null && (
        <ChangeView
          key={chosen}
          change={chosen}
          onUndone={(number) => {
            setSaid(number === null ? 'There was nothing left of it to undo.' : `Undone, as change ${number}.`);
            setChosen(null);
            setBefore(null);
            setEarlier([]);
            setUndone((count) => count + 1);
            head.current?.focus();
          }}
        />
      )}
    </main>
  );
}

/** What a change altered, as far as a line goes. */
function Of({ change: { of, ofInAll } }: { readonly change: ChangeEntry }) {
  if (of.length === 0) return null;
  return (
    <>
      {': '}
      {of.map((entry, at) => (
        <Fragment key={`${entry.list} ${entry.id}`}>
          {at > 0 && ', '}
          <Named {...entry} />
        </Fragment>
      ))}
      {ofInAll > of.length && ` and ${sayMany(ofInAll - of.length, 'more', 'more')}`}
    </>
  );
}

function Named({ list, id, name }: ChangeEntry['of'][number]) {
  const called = useEntryName(list, name === null ? id : null);
  return name ?? called;
}
