import { useState } from 'react';
import type { Course } from '../../db/answers.ts';
import type { CallArgs } from '../../electron/bridge/contract.ts';
import type { Drill, Quiz } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { kindNames } from './kindNames.ts';
import { orAll, type PickedScope, ScopePicker } from './ScopePicker.tsx';
import { Shown } from './Shown.tsx';

/** A quiz for paper and, on a page of its own, its key. The seed stands on both. */
export function QuizPage({ courses }: { readonly courses: readonly Course[] }) {
  const [seed, setSeed] = useState(1);
  const [count, setCount] = useState(10);
  const [scope, setScope] = useState<PickedScope>({ families: [], kinds: [] });
  const [asking, setAsking] = useState<CallArgs<'drills.quiz'> | null>(null);
  const asked = useAsk('drills.quiz', asking);
  const quiz = latest(asked);
  return (
    <div className="quiz-page">
      <form
        className="course-form no-print"
        aria-label="Paper quiz"
        onSubmit={(event) => {
          event.preventDefault();
          setAsking({ seed, count, families: orAll(scope.families), kinds: orAll(scope.kinds) });
        }}
      >
        <p className="course-fields">
          <label>
            Seed{' '}
            <input
              className="field"
              type="number"
              min={0}
              max={2147483647}
              required
              value={seed}
              onChange={({ target }) => setSeed(target.valueAsNumber || 0)}
            />
          </label>
          <label>
            Questions{' '}
            <input
              className="field"
              type="number"
              min={1}
              max={100}
              required
              value={count}
              onChange={({ target }) => setCount(target.valueAsNumber || 1)}
            />
          </label>
          <label>
            As in the course{' '}
            <select
              className="field"
              value=""
              onChange={({ target }) => {
                const course = courses.find(({ id }) => id === target.value);
                if (course !== undefined) setScope({ families: course.families ?? [], kinds: course.kinds ?? [] });
              }}
            >
              <option value="">choose…</option>
              {courses.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        </p>
        <ScopePicker scope={scope} onChange={setScope} />
        <p className="course-fields">
          <button type="submit" className="button main">
            Make the quiz
          </button>
          {quiz !== null && (
            <button type="button" className="button" onClick={() => window.print()}>
              Print quiz and key
            </button>
          )}
        </p>
      </form>
      {asked.state === 'trouble' && <TroubleNote lead="The quiz could not be made." trouble={asked.trouble} />}
      {quiz !== null && <QuizPaper quiz={quiz} />}
    </div>
  );
}

function QuizPaper({ quiz }: { readonly quiz: Quiz }) {
  const words = useWords();
  const { families, kinds, seed } = quiz.asked;
  const made = `Seed ${seed} · ${families?.map((id) => words.familyName(id)).join(', ') ?? 'all families'} · ${
    kinds?.map((kind) => kindNames[kind]).join(', ') ?? 'all kinds'
  } · ${quiz.questions.length} questions · atlas ${quiz.edition}`;
  return (
    <>
      <article className="quiz" aria-label="Quiz">
        <h2>Quiz</h2>
        <p className="soft small">{made}</p>
        <p className="quiz-name">Name: </p>
        {quiz.questions.map(({ drill }, i) => (
          <section className="quiz-question" key={`${drill.topic} ${drill.seed}`}>
            <h3>
              {i + 1}. {drill.question}
            </h3>
            <Shown drill={drill} />
            <ol className="quiz-choices">
              {drill.choices.map(({ id, text }, place) => (
                <li key={id}>
                  <b>{letter(place)}</b> {text}
                </li>
              ))}
            </ol>
            <p className="quiz-blank">
              {drill.respond.kind === 'order' ? 'Order' : 'Answer'}:{' '}
              {'____  '.repeat(
                drill.respond.kind === 'one' ? 1 : drill.respond.kind === 'order' ? drill.choices.length : drill.respond.count,
              )}
            </p>
          </section>
        ))}
      </article>
      <article className="quiz quiz-key" aria-label="Key">
        <h2>Key</h2>
        <p className="soft small">{made}</p>
        <ol>
          {quiz.questions.map(({ drill, key }) => (
            <li key={`${drill.topic} ${drill.seed}`}>
              <b>{key.accepted.map((response) => letters(drill, response)).join(' or ')}</b> {key.sentences.join(' ')}
            </li>
          ))}
        </ol>
      </article>
    </>
  );
}

const letter = (place: number): string => String.fromCharCode(65 + place);
const letters = (drill: Drill, response: readonly string[]): string => {
  const places = response.map((id) => drill.choices.findIndex((choice) => choice.id === id));
  return (drill.respond.kind === 'order' ? places : [...places].sort((a, b) => a - b)).map(letter).join(' ');
};
