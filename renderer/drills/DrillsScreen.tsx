import './drills.css';
import { useCallback, useEffect, useState } from 'react';
import type { KeptCourse, Learner, LearnerId } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { DrillLevel } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { type DrillsPlace, goTo, hrefOf } from '../route/route.ts';
import { ConfusionsPage } from './ConfusionsPage.tsx';
import { CoursePage } from './CoursePage.tsx';
import { DrillPage } from './DrillPage.tsx';
import { KnownPage } from './KnownPage.tsx';
import { levelNames } from './levelNames.ts';
import { QuestionsPage } from './QuestionsPage.tsx';

const places: readonly { readonly place: DrillsPlace; readonly name: string }[] = [
  { place: 'drill', name: 'Drill' },
  { place: 'confusions', name: 'Mix-ups' },
  { place: 'course', name: 'Courses' },
  { place: 'known', name: 'Who knows what' },
  { place: 'questions', name: 'Sheet of questions' },
];

/** Who learns, what, and how it goes. */
export function DrillsScreen({ place, learner }: { readonly place: DrillsPlace; readonly learner: LearnerId | null }) {
  const [learners, setLearners] = useState<readonly Learner[]>([]);
  const [courses, setCourses] = useState<readonly KeptCourse[]>([]);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [adding, setAdding] = useState('');
  const refresh = useCallback(async () => {
    const [who, what] = await Promise.all([desk.ask('drills.learners', {}), desk.ask('drills.courses', {})]);
    if (who.ok) setLearners(who.value);
    if (what.ok) setCourses(what.value);
    const failed = [who, what].find((reply) => !reply.ok);
    setTrouble(failed !== undefined && !failed.ok ? failed.trouble : null);
  }, []);
  useEffect(() => void refresh(), [refresh]);
  const chosen = learners.find(({ id }) => id === learner) ?? null;

  const save = async (args: { id?: LearnerId; name: string; course: Learner['course']; level: DrillLevel }) => {
    const reply = await desk.ask('drills.saveLearner', args);
    if (!reply.ok) return setTrouble(reply.trouble);
    await refresh();
    setAdding('');
    // Whoever only changed a course may have gone on to another page meanwhile.
    if (args.id === undefined) goTo({ screen: 'drills', place, learner: reply.value.id });
  };

  return (
    <main className="page-screen drills-screen">
      <header className="page-ask drills-head no-print">
        <h1 className="page-title">Drills</h1>
        <label>
          Learner{' '}
          <select
            className="field"
            value={chosen?.id ?? ''}
            onChange={({ target }) => goTo({ screen: 'drills', place, learner: (target.value || null) as LearnerId | null })}
          >
            <option value="">choose…</option>
            {learners.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
        {chosen !== null && (
          <label>
            Course{' '}
            <select
              className="field"
              value={chosen.course ?? ''}
              onChange={({ target }) => void save({ ...chosen, course: (target.value || null) as Learner['course'] })}
            >
              <option value="">the whole atlas</option>
              {courses.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        )}
        {chosen !== null && (
          <label>
            Level{' '}
            <select
              className="field"
              value={chosen.level}
              onChange={({ target }) => void save({ ...chosen, level: target.value as DrillLevel })}
            >
              {Object.entries(levelNames).map(([value, name]) => (
                <option key={value} value={value}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        )}
        <form
          className="drills-add"
          onSubmit={(event) => {
            event.preventDefault();
            if (adding.trim() !== '') void save({ name: adding.trim(), course: null, level: 'by eye' });
          }}
        >
          <input
            className="field"
            aria-label="Name of a new learner"
            placeholder="a new learner"
            maxLength={80}
            value={adding}
            onChange={({ target }) => setAdding(target.value)}
          />
          <button type="submit" className="button" disabled={adding.trim() === ''}>
            Add learner
          </button>
        </form>
        <nav aria-label="Drills">
          <ul>
            {places.map((each) => (
              <li key={each.place}>
                <a href={hrefOf({ screen: 'drills', place: each.place, learner })} aria-current={each.place === place ? 'page' : undefined}>
                  {each.name}
                </a>
              </li>
            ))}
          </ul>
        </nav>
      </header>
      {trouble !== null && <TroubleNote lead="That could not be done." trouble={trouble} />}
      {place === 'course' ? (
        <CoursePage courses={courses} onChange={refresh} />
      ) : place === 'questions' ? (
        <QuestionsPage courses={courses} />
      ) : place === 'known' ? (
        <KnownPage />
      ) : chosen === null ? (
        <p className="soft page-hint">Choose who is learning, or add somebody. What is learnt is kept for each person.</p>
      ) : place === 'drill' ? (
        <DrillPage key={`${chosen.id} ${chosen.course} ${chosen.level}`} learner={chosen.id} />
      ) : (
        <ConfusionsPage learner={chosen.id} />
      )}
    </main>
  );
}
