import './retold.css';
import '../told/told.css';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
import { Judging } from '../told/Judging.tsx';
import { sayMany } from '../values/sayMany.ts';
import { RetoldCaseRow } from './RetoldCaseRow.tsx';
import { type RetoldDone, useRetold } from './useRetold.ts';

/** What saved cases would be told today: judged once more, a case at a time, and those that differ are worked off one by one. */
export function RetoldScreen() {
  const { stands, start, stop, takeOff } = useRetold();
  const open = stands.state === 'done' ? stands.list.cases.filter(({ sheet }) => !stands.off.has(sheet)) : [];
  return (
    <main className="retold-screen">
      <div className="retold">
        <p className="small">
          <a href={hrefOf({ screen: 'sheets' })}>All cases</a>
        </p>
        <div className="retold-head">
          <h1 className="page-title">Cases judged once more</h1>
          <button type="button" className="button main" disabled={stands.state === 'running'} onClick={() => void start()}>
            {stands.state === 'none' ? 'Judge every case once more' : 'Judge them again'}
          </button>
        </div>
        {stands.state === 'none' && (
          <p className="soft retold-words">
            Every saved case is judged by today’s atlas, entries as they were saved last. Those that would be judged otherwise are listed,
            worst first: what stood and is ruled out comes before other words for the ticket. Nothing is saved by judging.
          </p>
        )}
        {stands.state === 'trouble' && <TroubleNote lead="The cases could not be judged." trouble={stands.trouble} />}
        {stands.state === 'running' && (
          <div className="judging">
            <Judging judged={stands.judged} of={stands.of} />
            <button type="button" className="button" onClick={stop}>
              Stop here
            </button>
          </div>
        )}
        {stands.state === 'done' && (
          <section aria-label="Cases to work off" data-state="done">
            <p role="status">{summary(stands.list, open.length)}</p>
            <ul className="retold-list">
              {open.map((row) => (
                <RetoldCaseRow key={row.sheet} row={row} onDone={() => takeOff(row.sheet)} />
              ))}
            </ul>
          </section>
        )}
      </div>
    </main>
  );
}

const summary = ({ judged, of, left, complete, edition }: RetoldDone, open: number): string =>
  [
    open === 0
      ? `None of ${sayMany(judged, 'case')} would be judged otherwise, or all of them have been dealt with.`
      : `${sayMany(open, 'case')} of ${judged} would be judged otherwise.`,
    left === 0 ? '' : `${sayMany(left, 'case')} more ${left === 1 ? 'was left as it was' : 'were left as they were'}.`,
    complete ? '' : `Stopped before all ${of} were judged.`,
    `Atlas: ${edition}.`,
  ]
    .filter((text) => text !== '')
    .join(' ');
