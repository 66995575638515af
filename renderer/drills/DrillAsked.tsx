import type { ReactNode, RefObject } from 'react';
import type { Drill, Judgement } from '../../reasoner/index.ts';
import { Shown } from './Shown.tsx';

/** A drill as it stands on screen: the question, what is shown beside the choices, and under them what follows. Nothing moves when it is answered. */
export function DrillAsked({
  drill,
  topic,
  chosen,
  judgement,
  heading,
  choose,
  children,
}: {
  readonly drill: Drill;
  readonly topic: string;
  readonly chosen: readonly string[];
  /** Null until it is answered. */
  readonly judgement: Judgement | null;
  readonly heading: RefObject<HTMLHeadingElement | null>;
  readonly choose: (id: string) => void;
  readonly children: ReactNode;
}) {
  const inOrder = drill.respond.kind === 'order';
  return (
    <section
      className={`drill${drill.shown.length === 0 ? ' is-bare' : ''}`}
      aria-label="Drill"
      data-kind={drill.kind}
      data-topic={drill.topic}
      data-seed={drill.seed}
    >
      <header>
        <p className="head">{topic}</p>
        <h2 ref={heading} tabIndex={-1}>
          {drill.question}
        </h2>
      </header>
      <Shown drill={drill} />
      <div className="drill-answers">
        {drill.respond.kind !== 'one' && (
          <p className="soft small">
            {inOrder ? 'Choose them one after another, the earliest first.' : `Choose ${wantedOf(drill)}.`} Backspace takes the last one
            back.
          </p>
        )}
        <ol className="drill-choices">
          {drill.choices.map(({ id, text }, i) => {
            const place = chosen.indexOf(id);
            const accepted = judgement?.accepted.some((each) => each.includes(id)) ?? false;
            const mark = judgement === null || inOrder ? '' : accepted ? ' is-right' : place >= 0 ? ' is-wrong' : '';
            return (
              <li key={id}>
                <button
                  type="button"
                  className={`drill-choice${mark}`}
                  aria-pressed={place >= 0}
                  disabled={judgement !== null}
                  onClick={() => choose(id)}
                >
                  <kbd>{i + 1}</kbd>
                  <span>{text}</span>
                  {inOrder && place >= 0 && <span className="drill-place">{ordinal(place + 1)}</span>}
                  {mark === ' is-right' && <span className="drill-said">right</span>}
                  {mark === ' is-wrong' && <span className="drill-said">your answer</span>}
                </button>
              </li>
            );
          })}
        </ol>
        {!inRight(drill, judgement) && children}
      </div>
      {inRight(drill, judgement) && children}
    </section>
  );
}

/** Where nothing is shown, the explanation has its place beside the choices. */
const inRight = ({ shown }: Drill, judgement: Judgement | null): boolean => shown.length === 0 && judgement !== null;

/** How many choices a response has. */
export const wantedOf = (drill: Drill): number => {
  switch (drill.respond.kind) {
    case 'one':
      return 1;
    case 'several':
      return drill.respond.count;
    case 'order':
      return drill.choices.length;
  }
};

const ordinal = (n: number): string => ['first', 'second', 'third', 'fourth', 'fifth'][n - 1] ?? `${n}th`;
