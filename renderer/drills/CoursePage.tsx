import { useState } from 'react';
import type { Course, KeptCourse } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { desk } from '../bridge/desk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { FieldsDialog } from '../look/FieldsDialog.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { kindNames } from './kindNames.ts';
import { orAll, type PickedScope, ScopePicker } from './ScopePicker.tsx';

type CourseFields = Omit<Course, 'id'>;

/** A course that was changed, or removed (null), since it was read here. */
interface MetCourse {
  readonly mine: CourseFields;
  readonly base: KeptCourse;
  readonly theirs: KeptCourse | null;
}

const fieldsOf = ({ name, newPerDay, families, kinds }: Course): CourseFields => ({ name, newPerDay, families, kinds });

const blank = { name: '', newPerDay: 12 };
const noScope: PickedScope = { families: [], kinds: [] };

/** The courses there are, and one being set. */
export function CoursePage({ courses, onChange }: { readonly courses: readonly KeptCourse[]; readonly onChange: () => Promise<void> }) {
  const words = useWords();
  /** The course that is changed, as it was read; null for a new one. */
  const [changed, setChanged] = useState<KeptCourse | null>(null);
  const [met, setMet] = useState<MetCourse | null>(null);
  const [draft, setDraft] = useState(blank);
  const [scope, setScope] = useState(noScope);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [said, setSaid] = useState('');
  const clear = () => {
    setChanged(null);
    setDraft(blank);
    setScope(noScope);
  };
  const typed: CourseFields = {
    name: draft.name.trim(),
    newPerDay: draft.newPerDay,
    families: orAll(scope.families),
    kinds: orAll(scope.kinds),
  };
  const save = async (fields: CourseFields, over: KeptCourse | null): Promise<void> => {
    const reply = await desk.ask('drills.saveCourse', {
      ...(over === null ? {} : { id: over.id }),
      ...fields,
      madeAgainst: over?.version ?? null,
    });
    if (!reply.ok) {
      setTrouble(reply.trouble);
      if (reply.trouble.code !== 'changed-since' || over === null) return;
      const now = await desk.ask('drills.courses', {});
      if (now.ok) setMet({ mine: fields, base: over, theirs: now.value.find(({ id }) => id === over.id) ?? null });
      return;
    }
    setTrouble(null);
    setSaid(`The course “${reply.value.name}” is set.`);
    clear();
    await onChange();
  };
  const remove = async (course: KeptCourse) => {
    const reply = await desk.ask('drills.removeCourse', { id: course.id, madeAgainst: course.version });
    if (!reply.ok) {
      setTrouble(reply.trouble);
      // What it says now is shown, to be looked at before it is removed.
      if (reply.trouble.code === 'changed-since') await onChange();
      return;
    }
    setTrouble(null);
    setSaid(`The course “${course.name}” is gone; its learners go on with the whole atlas.`);
    await onChange();
  };
  const take = (course: KeptCourse) => {
    setChanged(course);
    setDraft({ name: course.name, newPerDay: course.newPerDay });
    setScope({ families: course.families ?? [], kinds: course.kinds ?? [] });
  };
  const sayField = (field: keyof CourseFields, value: CourseFields[keyof CourseFields]): string => {
    if (field === 'families') return (value as Course['families'])?.map((family) => words.familyName(family)).join(', ') ?? 'all families';
    if (field === 'kinds') return (value as Course['kinds'])?.map((kind) => kindNames[kind]).join(', ') ?? 'all kinds';
    return String(value);
  };
  return (
    <div className="course-page">
      {met !== null && met.theirs !== null && (
        <FieldsDialog<CourseFields>
          title="This course was changed elsewhere"
          told={`Somebody changed the course “${met.theirs.name}” after it was read here. Nothing was overwritten.`}
          base={fieldsOf(met.base)}
          mine={met.mine}
          theirs={fieldsOf(met.theirs)}
          names={{ name: 'Name', newPerDay: 'First-time questions a day', families: 'Families', kinds: 'Kinds of drill' }}
          say={sayField}
          onSave={(fields) => {
            setMet(null);
            void save(fields, met.theirs);
          }}
          onTake={() => {
            setMet(null);
            setTrouble(null);
            if (met.theirs !== null) take(met.theirs);
            void onChange();
          }}
          onLater={() => setMet(null)}
        />
      )}
      {met !== null && met.theirs === null && (
        <AskDialog
          title="This course was removed elsewhere"
          onLeave={() => setMet(null)}
          choices={[
            {
              label: 'Set it as a new course',
              tone: 'usual',
              run: () => {
                setMet(null);
                void save(met.mine, null);
              },
            },
          ]}
        >
          <p>
            <b>{met.base.name}</b> was removed since it was read here; its learners go on with the whole atlas. Set as a new course, nobody
            follows it yet.
          </p>
        </AskDialog>
      )}
      <form
        className="course-form"
        aria-label={changed === null ? 'A new course' : 'The course'}
        onSubmit={(event) => {
          event.preventDefault();
          void save(typed, changed);
        }}
      >
        <h2>{changed === null ? 'A new course' : 'Change the course'}</h2>
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
            First-time questions a day, at most{' '}
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
          {changed !== null && (
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
                {sayField('families', course.families)} · {sayField('kinds', course.kinds)} · {course.newPerDay} not asked before a day
              </span>
              <span>
                <button
                  type="button"
                  className="button plain"
                  aria-label={`Change ${course.name}`}
                  onClick={() => {
                    take(course);
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
