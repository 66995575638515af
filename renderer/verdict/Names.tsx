import { useMemo, useState } from 'react';
import type { NameListed, VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { Name, NameId, Sheet, Status } from '../../reasoner/index.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { Pager } from '../look/Pager.tsx';
import { StatusMark } from '../look/StatusMark.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { usePlaceIn } from '../look/usePlaceIn.ts';
import { sayWhole } from '../values/figures.ts';
import { rungWords } from './rungWords.ts';

const statuses: readonly Status[] = ['stands', 'open', 'ruled out'];
const aPage = 50;

interface Props {
  readonly verdict: VerdictAtOnce;
  readonly sheet: Sheet;
  readonly about: NameId | null;
  onAbout(name: Name): void;
}

/** Every name judged, best rung first, a page at a time. Picking one shows its reasons. */
export function Names({ verdict, sheet, about, onAbout }: Props) {
  const [shown, setShown] = useState<ReadonlySet<Status>>(new Set(['stands', 'open']));
  const [text, setText] = useState('');
  const matters = useMemo(() => whatMatters(sheet), [sheet]);
  const list = { sheet: matters, statuses: statuses.filter((status) => shown.has(status)), text: text.trim() };
  const [from, setFrom] = usePlaceIn(list);
  const asked = useAsk('verdict.names', { ...list, from, count: aPage });
  const page = latest(asked);
  const counts = list.text === '' ? verdict.counts : (page?.counts ?? verdict.counts);
  const toggle = (status: Status) => {
    const next = new Set(shown);
    if (!next.delete(status)) next.add(status);
    setShown(next);
  };
  return (
    <section className="block no-print" id="verdict-names" tabIndex={-1} aria-labelledby="verdict-names-title">
      <div className="block-head">
        <h2 id="verdict-names-title" className="head">
          Every name judged
        </h2>
        <fieldset className="filters">
          <legend className="unseen">Show names that are</legend>
          {statuses.map((status) => (
            <label key={status}>
              <input type="checkbox" checked={shown.has(status)} onChange={() => toggle(status)} />
              <StatusMark status={status} /> <span className="soft">{sayWhole(counts[status])}</span>
            </label>
          ))}
        </fieldset>
      </div>
      <search className="names-find">
        <input
          className="field"
          type="search"
          aria-label="Find among these names"
          placeholder="part of a name"
          maxLength={200}
          spellCheck={false}
          autoComplete="off"
          value={text}
          onChange={({ target }) => setText(target.value)}
        />
        {page !== null && <Pager what="names" from={from} size={aPage} count={page.count} onFrom={setFrom} />}
      </search>
      <table className="names" aria-busy={asked.state === 'waiting'}>
        <thead className="unseen">
          <tr>
            <th scope="col">Status</th>
            <th scope="col">Name</th>
            <th scope="col">What kind of name</th>
          </tr>
        </thead>
        <tbody>
          {page?.rows.map((one) => (
            <NameRow key={one.name.id} answer={one} current={one.name.id === about} onAbout={onAbout} />
          ))}
        </tbody>
      </table>
      {!verdict.namesComplete && (
        <p className="small soft">More hybrids are open than are listed here. Settle a housing, and there will be fewer.</p>
      )}
      {asked.state === 'trouble' && <TroubleNote lead="The names could not be listed." trouble={asked.trouble} />}
      {page === null && asked.state === 'waiting' && <p className="soft">Listing the names…</p>}
      {page !== null && page.count === 0 && (
        <p className="soft">{list.text === '' ? 'No name has this status.' : 'No name with these words has this status.'}</p>
      )}
    </section>
  );
}

function NameRow({ answer, current, onAbout }: { readonly answer: NameListed; readonly current: boolean; onAbout(name: Name): void }) {
  const words = useWords();
  return (
    <tr>
      <td>
        <StatusMark status={answer.status} />
      </td>
      <th scope="row">
        <button type="button" className="link" aria-pressed={current} onClick={() => onAbout(answer.name)}>
          {answer.name.text}
        </button>
        {answer.status === 'open' && (
          <span className="soft small">
            {' '}
            not settled: <TermsText text={answer.unsettled.map((slot) => words.slotName(slot)).join(', ')} />
          </span>
        )}
      </th>
      <td className="soft small">{rungWords[answer.name.rung]}</td>
    </tr>
  );
}
