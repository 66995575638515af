import { useState } from 'react';
import type { NameAnswer, NameId, Status, Verdict } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { StatusMark } from '../look/StatusMark.tsx';
import { rungWords } from './rungWords.ts';

const statuses: readonly Status[] = ['stands', 'open', 'ruled out'];
const firstShown = 30;

/** Every name judged, best rung first. Picking one shows its reasons. */
export function Names({
  verdict,
  about,
  onAbout,
}: {
  readonly verdict: Verdict;
  readonly about: NameId | null;
  onAbout(name: NameId): void;
}) {
  const [shown, setShown] = useState<ReadonlySet<Status>>(new Set(['stands', 'open']));
  const [limit, setLimit] = useState(firstShown);
  const count = (status: Status) => verdict.names.filter((one) => one.status === status).length;
  const names = verdict.names.filter((one) => shown.has(one.status));
  const toggle = (status: Status) => {
    const next = new Set(shown);
    if (!next.delete(status)) next.add(status);
    setShown(next);
    setLimit(firstShown);
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
              <StatusMark status={status} /> <span className="soft">{count(status)}</span>
            </label>
          ))}
        </fieldset>
      </div>
      <table className="names">
        <thead className="unseen">
          <tr>
            <th scope="col">Status</th>
            <th scope="col">Name</th>
            <th scope="col">What kind of name</th>
          </tr>
        </thead>
        <tbody>
          {names.slice(0, limit).map((one) => (
            <NameRow key={one.name.id} answer={one} current={one.name.id === about} onAbout={onAbout} />
          ))}
        </tbody>
      </table>
      {!verdict.namesComplete && (
        <p className="small soft">More hybrids are open than are listed here. Settle a housing, and there will be fewer.</p>
      )}
      {names.length === 0 && <p className="soft">No name has this status.</p>}
      {names.length > limit && (
        <button type="button" className="button plain" onClick={() => setLimit(limit + 100)}>
          {names.length - limit} more
        </button>
      )}
    </section>
  );
}

function NameRow({ answer, current, onAbout }: { readonly answer: NameAnswer; readonly current: boolean; onAbout(name: NameId): void }) {
  const words = useWords();
  return (
    <tr>
      <td>
        <StatusMark status={answer.status} />
      </td>
      <th scope="row">
        <button type="button" className="link" aria-pressed={current} onClick={() => onAbout(answer.name.id)}>
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
