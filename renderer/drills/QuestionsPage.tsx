import { useState } from 'react';
import type { Course } from '../../db/answers.ts';
import type { CallArgs } from '../../electron/bridge/contract.ts';
import type { Drill, DrillLevel, QuestionSheet } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { kindNames } from './kindNames.ts';
import { levelNames } from './levelNames.ts';
import { orAll, type PickedScope, ScopePicker } from './ScopePicker.tsx';
import { Shown } from './Shown.tsx';

/** Questions for paper and, on a page of their own, the answers. The number of the sheet stands on both. */
export function QuestionsPage({ courses }: { readonly courses: readonly Course[] }) {
  const [number, setNumber] = useState(1);
  const [level, setLevel] = useState<DrillLevel>('by eye');
  const [count, setCount] = useState(10);
  const [scope, setScope] = useState<PickedScope>({ families: [], kinds: [] });
  const [asking, setAsking] = useState<CallArgs<'drills.questions'> | null>(null);
  const asked = useAsk('drills.questions', asking);
  const sheet = latest(asked);
  return (
    <div className="questions-page">
      <form
        className="course-form no-print"
        aria-label="Sheet of questions"
        onSubmit={(event) => {
          event.preventDefault();
          setAsking({ number, count, families: orAll(scope.families), kinds: orAll(scope.kinds), level });
        }}
      >
        <p className="course-fields">
          <label>
            Number of the sheet{' '}
            <input
              className="field"
              type="number"
              min={0}
              max={2147483647}
              required
              value={number}
              onChange={({ target }) => setNumber(target.valueAsNumber || 0)}
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
            Level{' '}
            <select className="field" value={level} onChange={({ target }) => setLevel(target.value as DrillLevel)}>
              {Object.entries(levelNames).map(([value, name]) => (
                <option key={value} value={value}>
                  {name}
                </option>
              ))}
            </select>
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
            Make the sheet
          </button>
          {sheet !== null && (
            <button type="button" className="button" onClick={() => window.print()}>
              Print questions and answers
            </button>
          )}
        </p>
      </form>
      {asked.state === 'trouble' && <TroubleNote lead="The sheet could not be made." trouble={asked.trouble} />}
      {sheet !== null && <Paper sheet={sheet} />}
    </div>
  );
}

function Paper({ sheet }: { readonly sheet: QuestionSheet }) {
  const words = useWords();
  const { families, kinds, number, level } = sheet.asked;
  const made = `Sheet ${number} · ${levelNames[level ?? 'measured']} · ${families?.map((id) => words.familyName(id)).join(', ') ?? 'all families'} · ${
    kinds?.map((kind) => kindNames[kind]).join(', ') ?? 'all kinds'
  } · ${sheet.questions.length} questions · atlas ${sheet.edition}`;
  return (
    <>
      <article className="questions" aria-label="Questions">
        <h2>Questions</h2>
        <p className="soft small">{made}</p>
        <p className="questions-name">Name: </p>
        {sheet.questions.map(({ drill }, i) => (
          <section className="question" key={`${drill.topic} ${drill.seed}`}>
            <h3>
              {i + 1}. {drill.question}
            </h3>
            <Shown drill={drill} />
            <ol className="question-choices">
              {drill.choices.map(({ id, text }, place) => (
                <li key={id}>
                  <b>{letter(place)}</b> {text}
                </li>
              ))}
            </ol>
            <p className="question-blank">
              {drill.respond.kind === 'order' ? 'Order' : 'Answer'}:{' '}
              {'____  '.repeat(
                drill.respond.kind === 'one' ? 1 : drill.respond.kind === 'order' ? drill.choices.length : drill.respond.count,
              )}
            </p>
          </section>
        ))}
      </article>
      <article className="questions is-answers" aria-label="Answers">
        <h2>Answers</h2>
        <p className="soft small">{made}</p>
        <ol>
          {sheet.questions.map(({ drill, key }) => (
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
