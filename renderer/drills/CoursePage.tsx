import { useState } from 'react';
import type { Course } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { desk } from '../bridge/desk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { kindNames } from './kindNames.ts';
import { orAll, type PickedScope, ScopePicker } from './ScopePicker.tsx';

const blank = { name: '', newPerDay: 12 };
const noScope: PickedScope = { families: [], kinds: [] };

/** The courses there are, and one being set. */
export function CoursePage({ courses, onChange }: { readonly courses: readonly Course[]; readonly onChange: () => Promise<void> }) {
  const words = useWords();
  const [id, setId] = useState<Course['id'] | null>(null);
  const [draft, setDraft] = useState(blank);
  const [scope, setScope] = useState(noScope);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [said, setSaid] = useState('');
  const clear = () => {
    setId(null);
    setDraft(blank);
    setScope(noScope);
  };
  const save = async () => {
    const reply = await desk.ask('drills.saveCourse', {
      ...(id === null ? {} : { id }),
      name: draft.name.trim(),
      newPerDay: draft.newPerDay,
      families: orAll(scope.families),
      kinds: orAll(scope.kinds),
    });
    if (!reply.ok) return setTrouble(reply.trouble);
    setTrouble(null);
    setSaid(`The course “${reply.value.name}” is set.`);
    clear();
    await onChange();
  };
  const remove = async (course: Course) => {
    const reply = await desk.ask('drills.removeCourse', { id: course.id });
    if (!reply.ok) return setTrouble(reply.trouble);
    setSaid(`The course “${course.name}” is gone; its learners go on with the whole atlas.`);
    await onChange();
  };
  return (
    <div className="course-page">
      <form
        className="course-form"
        aria-label={id === null ? 'A new course' : 'The course'}
        onSubmit={(event) => {
          event.preventDefault();
          void save();
        }}
      >
        <h2>{id === null ? 'A new course' : 'Change the course'}</h2>
        <p className="course-fields">
          <label>
            Name{' '}
            <input
              className="field"
              required
              maxLength={80}
              value={draft.name}
              onChange={({ target }) => setDraft({ ...draft, name: target.value })}
            />
          </label>
          <label>
            New topics a day, at most{' '}
            <input
              className="field"
              type="number"
              min={0}
              max={500}
              required
              value={draft.newPerDay}
              onChange={({ target }) => setDraft({ ...draft, newPerDay: target.valueAsNumber || 0 })}
            />
          </label>
        </p>
        <ScopePicker scope={scope} onChange={setScope} />
        <p className="course-fields">
          <button type="submit" className="button main" disabled={draft.name.trim() === ''}>
            Set the course
          </button>
          {id !== null && (
            <button type="button" className="button" onClick={clear}>
              Leave it as it was
            </button>
          )}
          <span role="status" className="soft">
            {said}
          </span>
        </p>
        {trouble !== null && <TroubleNote lead="The course was not set." trouble={trouble} />}
      </form>
      <section>
        <h2>Courses</h2>
        {courses.length === 0 && <p className="soft">None yet. Without one, a learner goes through the whole atlas.</p>}
        <ul className="course-list">
          {courses.map((course) => (
            <li key={course.id}>
              <b>{course.name}</b>
              <span className="soft small">
                {course.families?.map((family) => words.familyName(family)).join(', ') ?? 'all families'} ·{' '}
                {course.kinds?.map((kind) => kindNames[kind]).join(', ') ?? 'all kinds'} · {course.newPerDay} new a day
              </span>
              <span>
                <button
                  type="button"
                  className="button plain"
                  aria-label={`Change ${course.name}`}
                  onClick={() => {
                    setId(course.id);
                    setDraft({ name: course.name, newPerDay: course.newPerDay });
                    setScope({ families: course.families ?? [], kinds: course.kinds ?? [] });
                  }}
                >
                  Change
                </button>
                <button type="button" className="button bare" aria-label={`Remove ${course.name}`} onClick={() => void remove(course)}>
                  Remove
                </button>
              </span>
            </li>
          ))}
        </ul>
      </section>
    </div>
  );
}
