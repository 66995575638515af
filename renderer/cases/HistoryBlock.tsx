import { useState } from 'react';
import type { CaseEntry, CaseFile } from '../../db/answers.ts';
import { useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { StatusMark } from '../look/StatusMark.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayObservation } from '../values/sayings.ts';
import { sayMany } from '../values/sayMany.ts';
import { ChangesBlock } from './ChangesBlock.tsx';
import { sayInstant, sayNames, sayVerdict } from './sayCase.ts';

/** What was said of the unit when, newest first; the state picked is read in full, and held against today. */
export function HistoryBlock({ file, past }: { readonly file: CaseFile; readonly past: boolean }) {
  const [picked, setPicked] = useState(file.history.length - 1);
  const entry = file.history[picked] ?? null;
  return (
    <section className="case-block history" aria-labelledby="history-head">
      <h2 id="history-head" className="head">
        History
      </h2>
      {file.history.length === 0 && (
        <p className="soft">
          This sheet was saved before cases were kept, and what was said of it then was not. Save it and a history begins.
        </p>
      )}
      {file.history.length > 0 && (
        <table className="history-table">
          <thead>
            <tr>
              <th scope="col">Saved</th>
              <th scope="col">Who</th>
              <th scope="col">Honest name then</th>
              <th scope="col">Claim</th>
            </tr>
          </thead>
          <tbody>
            {file.history
              .map((one, index) => <HistoryRow key={one.at} entry={one} picked={index === picked} onPick={() => setPicked(index)} />)
              .reverse()}
          </tbody>
        </table>
      )}
      {file.left.length > 0 && (
        <ul className="plain-list small" aria-label="Left as told">
          {file.left.map(({ at, who, reason }) => (
            <li key={at}>
              Left as told {sayInstant(at)}
              {who === '' ? '' : ` by ${who}`}, though another edition of the atlas would say otherwise: {reason}
            </li>
          ))}
        </ul>
      )}
      {entry !== null && !past && <SinceThen file={file} index={picked} />}
      {entry !== null && <EntryRead entry={entry} />}
    </section>
  );
}

function HistoryRow({ entry, picked, onPick }: { readonly entry: CaseEntry; readonly picked: boolean; onPick(): void }) {
  const claim = entry.verdict.kind === 'verdict' ? entry.verdict.claim : null;
  return (
    <tr className={picked ? 'is-picked' : undefined}>
      <th scope="row">
        <button type="button" className="link" aria-pressed={picked} onClick={onPick}>
          {sayInstant(entry.at)}
        </button>
      </th>
      <td>{entry.who === '' ? <span className="faint">not said</span> : entry.who}</td>
      <td>{sayVerdict(entry.verdict)}</td>
      <td>{claim === null ? <span className="faint">none</span> : <StatusMark status={claim.status} />}</td>
    </tr>
  );
}

/** One state in full: the verdict as it was worded, and the entries it rested on. */
function EntryRead({ entry }: { readonly entry: CaseEntry }) {
  const words = useWords();
  const { verdict, sheet } = entry;
  return (
    <article className="entry-read" aria-label={`As saved ${sayInstant(entry.at)}`}>
      <p>
        {verdict.kind === 'verdict' ? (
          <>
            <b className="entry-name">{sayNames(verdict.honest)}</b>
            {verdict.fit !== null && <span className="tag">{verdict.fit}</span>}
          </>
        ) : (
          <b className="entry-name">Entries contradict each other; nothing was judged.</b>
        )}
      </p>
      {verdict.kind === 'verdict' && verdict.open.length > 0 && (
        <p className="small">
          <StatusMark status="open" bare /> Open then: {verdict.open.map(({ text }) => text).join('; ')}
        </p>
      )}
      {verdict.sentences.length > 0 && (
        <ul className="plain-list sentences small">
          {verdict.sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
      {verdict.kind === 'verdict' && (
        <ul className="plain-list entry-cautions small" aria-label="Cautions">
          {verdict.cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      )}
      <details className="small">
        <summary>
          {sayMany(sheet.observations.length, 'entry', 'entries')} it rested on · atlas {entry.edition === '' ? 'empty' : entry.edition}
        </summary>
        <ul className="plain-list">
          {sheet.observations.map((one) => (
            <li key={one.id}>
              {words.slotName(one.slot)}: {sayObservation(words.feature(one.feature), one, words.unit)}
            </li>
          ))}
          {sheet.absent.map((slot) => (
            <li key={slot}>{words.slotName(slot)}: not there</li>
          ))}
        </ul>
      </details>
    </article>
  );
}

/** The kept verdict against today's: what is otherwise now, and whether the atlas or the entries did it. */
function SinceThen({ file, index }: { readonly file: CaseFile; readonly index: number }) {
  const asked = useAsk('cases.changes', { sheet: file.sheet, entry: index }, 0, file.history.length);
  return (
    <section className="since" aria-label="What changed since" data-state={asked.state}>
      <h3 className="head">What changed since</h3>
      {asked.state === 'waiting' && <p className="soft small">Judging it again…</p>}
      {asked.state === 'trouble' && <TroubleNote lead="It cannot be compared with today." trouble={asked.trouble} />}
      {asked.state === 'answered' && <ChangesBlock changes={asked.value} />}
    </section>
  );
}
