import { and, asc, eq } from 'drizzle-orm';
import type { TopicId } from '../../reasoner/index.ts';
import type { Door } from '../driver/door.ts';
import type { Guard, Reader } from '../driver/driver.ts';
import { checkMadeAgainst, type MadeAgainst } from '../driver/made-against.ts';
import { build, statementOf } from '../driver/statements.ts';
import { type Version, versionOf } from '../driver/version.ts';
import * as t from '../schema.ts';
import { type Outcome, TroubleError, trouble } from '../trouble.ts';
import type { Card, Course, CourseId, DrillAnswer, KeptCourse, Learner, LearnerId, LearnerToSave, LearningRecord } from './learning.ts';

/** Learners, courses, cards and answers on disk. */
export interface LearningShelf {
  learners(): Promise<Outcome<readonly Learner[]>>;
  /** New or not. Troubles: `not-found` of a course. */
  saveLearner(learner: LearnerToSave): Promise<Outcome<Learner>>;
  removeLearner(id: LearnerId): Promise<Outcome<null>>;
  courses(): Promise<Outcome<readonly KeptCourse[]>>;
  /** New or not. `changed-since` when it was made against another course than the one that is there. */
  saveCourse(course: Course, madeAgainst?: MadeAgainst): Promise<Outcome<Version>>;
  /** Learners of the course go on with the whole atlas. `changed-since` when another course is there than the one it was decided of. */
  removeCourse(id: CourseId, madeAgainst?: MadeAgainst): Promise<Outcome<null>>;
  record(learner: LearnerId): Promise<Outcome<LearningRecord>>;
  /** Keeps an answer and the card `schedule` makes of the one there was, together. Troubles: `not-found`, `drill-answered`. */
  keepAnswer(learner: LearnerId, answer: DrillAnswer, schedule: (card: Card | null, now: Date) => Card): Promise<Outcome<Card>>;
}

export const learningShelf = ({ read, write, now }: Door): LearningShelf => ({
  learners: () => read(({ orm }) => orm.select(learnerColumns).from(t.learners).orderBy(asc(t.learners.n), asc(t.learners.id))),
  saveLearner: (learner) => {
    const since = now().toISOString();
    return write(async (reader) => {
      const { id: _, ...said } = learner;
      const { course } = said;
      if (course !== null) await courseOf(reader, course);
      const statement = statementOf(
        build
          .insert(t.learners)
          .values({ ...learner, since })
          .onConflictDoUpdate({ target: t.learners.id, set: said }),
      );
      const [held] = await reader.orm.select(learnerColumns).from(t.learners).where(eq(t.learners.id, learner.id));
      return {
        batch: { guards: course === null ? [] : [courseStands(course)], statements: [statement] },
        value: { ...learner, level: learner.level ?? held?.level ?? 'measured' },
      };
    });
  },
  removeLearner: (id) =>
    write(async () => ({
      batch: { guards: [learnerStands(id)], statements: [statementOf(build.delete(t.learners).where(eq(t.learners.id, id)))] },
      value: null,
    })),
  courses: () =>
    read(async ({ orm }) =>
      (await orm.select().from(t.courses).orderBy(asc(t.courses.name), asc(t.courses.id))).map((course) => ({
        ...course,
        version: versionOf(course),
      })),
    ),
  saveCourse: (course, madeAgainst) =>
    write(async ({ orm }) => {
      const [held] = await orm.select().from(t.courses).where(eq(t.courses.id, course.id));
      checkMadeAgainst(madeAgainst, held ?? null, `course ${course.id}`, `The course "${held?.name ?? course.name}"`, course);
      const statement = statementOf(build.insert(t.courses).values(course).onConflictDoUpdate({ target: t.courses.id, set: course }));
      return {
        batch: { guards: madeAgainst === undefined ? [] : [courseIsAsRead(course.id, held)], statements: [statement] },
        value: versionOf(course),
      };
    }),
  removeCourse: (id, madeAgainst) =>
    write(async ({ orm }) => {
      const [held] = await orm.select().from(t.courses).where(eq(t.courses.id, id));
      if (held === undefined) throw new TroubleError(noSuchCourse(id));
      checkMadeAgainst(madeAgainst, held, `course ${id}`, `The course "${held.name}"`);
      const guards = [courseStands(id), ...(madeAgainst === undefined ? [] : [courseIsAsRead(id, held)])];
      return { batch: { guards, statements: [statementOf(build.delete(t.courses).where(eq(t.courses.id, id)))] }, value: null };
    }),
  record: (id) => read((reader) => recordOf(reader, id, now())),
  keepAnswer: (id, answer, schedule) => {
    const at = now();
    return write(async (reader) => {
      const { cards, answers } = await recordOf(reader, id, at);
      if (answers.some(({ topic, seed }) => topic === answer.topic && seed === answer.seed))
        throw new TroubleError(trouble('drill-answered', 'seed', 'This drill has been answered already; the answer given first is kept.'));
      const before = cards.get(answer.topic) ?? null;
      const card = schedule(before, at);
      const { topic, seed, edition, response, right, confused } = answer;
      const given = {
        learner: id,
        n: answers.length + 1,
        topic,
        seed,
        edition,
        first: before === null,
        response,
        correct: right,
        asked: confused?.asked ?? null,
        answered: confused?.answered ?? null,
        at: at.toISOString(),
      };
      const row = { learner: id, topic, due: card.due, card };
      return {
        batch: {
          // A card changes with an answer alone.
          guards: [learnerStands(id), answersAreAsRead(id, answers.length)],
          statements: [
            statementOf(build.insert(t.drillAnswers).values(given)),
            statementOf(
              build
                .insert(t.drillCards)
                .values(row)
                .onConflictDoUpdate({ target: [t.drillCards.learner, t.drillCards.topic], set: row }),
            ),
          ],
        },
        value: card,
      };
    });
  },
});

const noSuchLearner = (id: LearnerId) => trouble('not-found', `learner ${id}`, `There is no learner "${id}".`);
const noSuchCourse = (id: CourseId) => trouble('not-found', `course ${id}`, `There is no course "${id}".`);

const learnerStands = (id: LearnerId): Guard => ({
  sql: 'select count(*) from learners where id = ?',
  params: [id],
  refusal: noSuchLearner(id),
});

const courseStands = (id: CourseId): Guard => ({
  sql: 'select count(*) from courses where id = ?',
  params: [id],
  refusal: noSuchCourse(id),
});

const courseIsAsRead = (id: CourseId, held: Course | undefined): Guard => {
  const refusal = trouble(
    'changed-since',
    `course ${id}`,
    'The course was being saved elsewhere at the same time. Nothing was changed. Try again.',
  );
  if (held === undefined) return { sql: 'select not exists (select 1 from courses where id = ?)', params: [id], refusal };
  const text = (list: readonly string[] | null) => (list === null ? null : JSON.stringify(list));
  return {
    sql: 'select count(*) from courses where id = ? and name = ? and families is ? and kinds is ? and new_per_day = ?',
    params: [id, held.name, text(held.families), text(held.kinds), held.newPerDay],
    refusal,
  };
};

const answersAreAsRead = (id: LearnerId, many: number): Guard => ({
  sql: 'select count(*) = ? from drill_answers where learner = ?',
  params: [many, id],
  refusal: trouble(
    'changed-since',
    `learner ${id}`,
    'Another drill was being answered at the same time, so this answer was not kept. Try again.',
  ),
});

const learnerColumns = { id: t.learners.id, name: t.learners.name, course: t.learners.course, level: t.learners.level };

const learnerOf = async (reader: Reader, id: LearnerId): Promise<Learner> => {
  const [found] = await reader.orm.select(learnerColumns).from(t.learners).where(eq(t.learners.id, id));
  if (found === undefined) throw new TroubleError(noSuchLearner(id));
  return found;
};

const courseOf = async (reader: Reader, id: CourseId): Promise<Course> => {
  const [found] = await reader.orm.select().from(t.courses).where(eq(t.courses.id, id));
  if (found === undefined) throw new TroubleError(noSuchCourse(id));
  return found;
};

const recordOf = async (reader: Reader, id: LearnerId, now: Date): Promise<LearningRecord> => {
  const learner = await learnerOf(reader, id);
  const cards = await reader.orm.select().from(t.drillCards).where(eq(t.drillCards.learner, id));
  const answers = await reader.orm
    .select()
    .from(t.drillAnswers)
    .where(and(eq(t.drillAnswers.learner, id)))
    .orderBy(asc(t.drillAnswers.n));
  return {
    learner,
    course: learner.course === null ? null : await courseOf(reader, learner.course),
    cards: new Map(cards.map(({ topic, card }): [TopicId, Card] => [topic, card])),
    answers: answers.map(({ topic, seed, edition, response, correct, asked, answered, first, at }) => ({
      topic,
      seed,
      edition,
      response,
      right: correct,
      confused: asked === null || answered === null ? null : { asked, answered },
      first,
      at,
    })),
    now,
  };
};
