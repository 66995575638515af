import type { LearnerId } from '../../db/answers.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { DrillAsked } from './DrillAsked.tsx';
import { Explanation } from './Explanation.tsx';
import { sayDue, sayToday } from './sayDay.ts';
import { useDrill } from './useDrill.ts';

/** One drill after another: number keys choose, Enter goes on. */
export function DrillPage({ learner }: { readonly learner: LearnerId }) {
  const { next, today, chosen, full, answered, trouble, beyond, heading, onward, choose, answer, goOn, goBeyond } = useDrill(learner);
  if (trouble !== null)
    return (
      <TroubleNote lead="The drill could not go on." trouble={trouble}>
        <p>
          <button type="button" className="button" onClick={goOn}>
            Next drill
          </button>
        </p>
      </TroubleNote>
    );
  if (next === null)
    return (
      <p className="soft page-hint" role="status">
        Making a drill…
      </p>
    );
  return (
    <div className="drill-page" data-state={next.state === 'done' ? 'done' : answered === null ? 'asked' : 'judged'}>
      {today !== null && <p className="drill-today soft">{sayToday(today)}</p>}
      {next.state === 'done' ? (
        <section className="drill-done">
          <h2 ref={heading} tabIndex={-1}>
            That is all for today.
          </h2>
          <p>
            {next.next === null
              ? 'The atlas, as it is, has no questions for this course.'
              : `The next question is asked ${sayDue(next.next)}.`}
          </p>
          {!beyond && next.next !== null && (
            <p>
              <button type="button" className="button" onClick={goBeyond}>
                Go on all the same
              </button>
            </p>
          )}
        </section>
      ) : (
        <DrillAsked
          drill={next.drill}
          topic={next.topic.text}
          chosen={chosen}
          judgement={answered?.judgement ?? null}
          heading={heading}
          choose={choose}
        >
          {answered === null ? (
            next.drill.respond.kind !== 'one' && (
              <p className="drill-on">
                <button ref={onward} type="button" className="button main" disabled={!full} onClick={() => void answer(next.drill, chosen)}>
                  Answer
                </button>
              </p>
            )
          ) : (
            <Explanation drill={next.drill} judgement={answered.judgement} due={answered.due}>
              <button ref={onward} type="button" className="button main" onClick={goOn}>
                Go on
              </button>
            </Explanation>
          )}
        </DrillAsked>
      )}
    </div>
  );
}
