import { useState } from 'react';
import type { VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { Name, NameAnswer, NameId, Sheet, Status } from '../../reasoner/index.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { StatusMark } from '../look/StatusMark.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { rungWords } from './rungWords.ts';

const statuses: readonly Status[] = ['stands', 'open', 'ruled out'];
const firstShown = 30;

interface Props {
  readonly verdict: VerdictAtOnce;
  readonly sheet: Sheet;
  readonly about: NameId | null;
  onAbout(name: Name): void;
}

/** Every name judged, best rung first. Picking one shows its reasons. */
export function Names({ verdict, sheet, about, onAbout }: Props) {
  const [shown, setShown] = useState<ReadonlySet<Status>>(new Set(['stands', 'open']));
  const [limit, setLimit] = useState(firstShown);
  const asked = useAsk('verdict.names', { sheet: whatMatters(sheet) });
  const judged = latest(asked);
  const names = (judged ?? []).filter((one) => shown.has(one.status));
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
              <StatusMark status={status} /> <span className="soft">{verdict.counts[status]}</span>
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
      {asked.state === 'trouble' && <TroubleNote lead="The names could not be listed." trouble={asked.trouble} />}
      {judged === null && asked.state === 'waiting' && <p className="soft">Listing the names…</p>}
      {judged !== null && names.length === 0 && <p className="soft">No name has this status.</p>}
      {names.length > limit && (
        <button type="button" className="button plain" onClick={() => setLimit(limit + 100)}>
          {names.length - limit} more
        </button>
      )}
    </section>
  );
}

function NameRow({ answer, current, onAbout }: { readonly answer: NameAnswer; readonly current: boolean; onAbout(name: Name): void }) {
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
