import { useCallback, useEffect, useRef, useState } from 'react';
import type { LearnerId } from '../../db/answers.ts';
import type { CallResult, Trouble } from '../../electron/bridge/contract.ts';
import type { Drill, Judgement } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { DrillAsked, wantedOf } from './DrillAsked.tsx';
import { Explanation } from './Explanation.tsx';
import { sayDue, sayToday } from './sayDay.ts';

type Next = CallResult<'drills.next'>;
interface Answered {
  readonly judgement: Judgement;
  readonly due: string;
}

/** One drill after another: number keys choose, Enter goes on. */
export function DrillPage({ learner }: { readonly learner: LearnerId }) {
  const [next, setNext] = useState<Next | null>(null);
  const [today, setToday] = useState<Next['today'] | null>(null);
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const [answered, setAnswered] = useState<Answered | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [beyond, setBeyond] = useState(false);
  const asking = useRef(false);
  const heading = useRef<HTMLHeadingElement>(null);
  const onward = useRef<HTMLButtonElement>(null);

  const goOn = useCallback(
    async (further: boolean) => {
      const reply = await desk.ask('drills.next', { learner, beyond: further });
      if (!reply.ok) return setTrouble(reply.trouble);
      setTrouble(null);
      setNext(reply.value);
      setToday(reply.value.today);
      setChosen([]);
      setAnswered(null);
    },
    [learner],
  );
  useEffect(() => void goOn(beyond), [goOn, beyond]);
  const drill = next?.state === 'drill' ? next.drill : null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new question takes the focus.
  useEffect(() => heading.current?.focus(), [next]);
  useEffect(() => {
    if (answered !== null) onward.current?.focus();
  }, [answered]);

  const answer = useCallback(
    async (of: Drill, response: readonly string[]) => {
      if (asking.current) return;
      asking.current = true;
      const { topic, seed, edition } = of;
      const reply = await desk.ask('drills.answer', { learner, topic, seed, edition, response: [...response] });
      asking.current = false;
      if (!reply.ok) return setTrouble(reply.trouble);
      setAnswered(reply.value);
      setToday(reply.value.today);
    },
    [learner],
  );

  const wanted = drill === null ? 0 : wantedOf(drill);
  const choose = useCallback(
    (id: string) => {
      if (drill === null || answered !== null) return;
      if (drill.respond.kind === 'one') {
        setChosen([id]);
        void answer(drill, [id]);
        return;
      }
      setChosen((before) =>
        before.includes(id) ? before.filter((each) => each !== id) : before.length < wanted ? [...before, id] : before,
      );
    },
    [drill, answered, answer, wanted],
  );
  const full = drill !== null && drill.respond.kind !== 'one' && chosen.length === wanted;
  useEffect(() => {
    if (full) onward.current?.focus();
  }, [full]);

  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.target instanceof Element && event.target.closest('input, select, textarea, dialog') !== null) return;
      const choice = drill?.choices[Number(event.key) - 1];
      if (choice !== undefined && /^[1-9]$/.test(event.key)) {
        event.preventDefault();
        choose(choice.id);
      } else if (event.key === 'Backspace' && answered === null) {
        event.preventDefault();
        setChosen((before) => before.slice(0, -1));
      }
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [drill, choose, answered]);

  if (trouble !== null)
    return (
      <TroubleNote lead="The drill could not go on." trouble={trouble}>
        <p>
          <button type="button" className="button" onClick={() => void goOn(beyond)}>
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
          <p>{next.next === null ? 'This course has no drills in the atlas as it is.' : `The next comes ${sayDue(next.next)}.`}</p>
          {!beyond && next.next !== null && (
            <p>
              <button type="button" className="button" onClick={() => setBeyond(true)}>
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
              <button ref={onward} type="button" className="button main" onClick={() => void goOn(beyond)}>
                Go on
              </button>
            </Explanation>
          )}
        </DrillAsked>
      )}
    </div>
  );
}
