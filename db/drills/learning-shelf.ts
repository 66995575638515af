import { and, asc, eq } from 'drizzle-orm';
import type { TopicId } from '../../reasoner/index.ts';
import type { Reader } from '../driver/driver.ts';
import * as t from '../schema.ts';
import type { Door } from '../store/door.ts';
import { type Outcome, TroubleError, trouble } from '../trouble.ts';
import type { Card, Course, CourseId, DrillAnswer, Learner, LearnerId, LearningRecord } from './learning.ts';
import { type LearningPutBack, putBackLearning, type RecoveredLearning } from './recover-learning.ts';

/** Learners, courses, cards and answers on disk. */
export interface LearningShelf {
  learners(): Promise<Outcome<readonly Learner[]>>;
  /** New or not. Troubles: `not-found` of a course. */
  saveLearner(learner: Learner): Promise<Outcome<null>>;
  removeLearner(id: LearnerId): Promise<Outcome<null>>;
  courses(): Promise<Outcome<readonly Course[]>>;
  saveCourse(course: Course): Promise<Outcome<null>>;
  /** Learners of the course go on with the whole atlas. */
  removeCourse(id: CourseId): Promise<Outcome<null>>;
  record(learner: LearnerId): Promise<Outcome<LearningRecord>>;
  /** Keeps an answer and the card `schedule` makes of the one there was, together. Troubles: `not-found`, `drill-answered`. */
  keepAnswer(learner: LearnerId, answer: DrillAnswer, schedule: (card: Card | null, now: Date) => Card): Promise<Outcome<Card>>;
  /** Puts back what `recoverLearning` read out of a damaged file, where nobody has learnt anything yet. */
  putBack(recovered: RecoveredLearning, schedule: (card: Card | null, right: boolean, at: Date) => Card): Promise<Outcome<LearningPutBack>>;
}

export const learningShelf = ({ read, transact, now }: Door): LearningShelf => ({
  learners: () => read(({ orm }) => orm.select(learnerColumns).from(t.learners).orderBy(asc(t.learners.since), asc(t.learners.id))),
  saveLearner: (learner) =>
    transact(async (connection) => {
      if (learner.course !== null) await courseOf(connection, learner.course);
      const row = { ...learner, since: now().toISOString() };
      await connection.orm
        .insert(t.learners)
        .values(row)
        .onConflictDoUpdate({ target: t.learners.id, set: { name: learner.name, course: learner.course } });
      return null;
    }),
  removeLearner: (id) =>
    transact(async (connection) => {
      await learnerOf(connection, id);
      await connection.orm.delete(t.learners).where(eq(t.learners.id, id));
      return null;
    }),
  courses: () => read(({ orm }) => orm.select().from(t.courses).orderBy(asc(t.courses.name), asc(t.courses.id))),
  saveCourse: (course) =>
    transact(async (connection) => {
      await connection.orm.insert(t.courses).values(course).onConflictDoUpdate({ target: t.courses.id, set: course });
      return null;
    }),
  removeCourse: (id) =>
    transact(async (connection) => {
      await courseOf(connection, id);
      await connection.orm.delete(t.courses).where(eq(t.courses.id, id));
      return null;
    }),
  record: (id) => read((reader) => recordOf(reader, id, now())),
  keepAnswer: (id, answer, schedule) =>
    transact(async (connection) => {
      const at = now();
      const { cards, answers } = await recordOf(connection, id, at);
      if (answers.some(({ topic, seed }) => topic === answer.topic && seed === answer.seed))
        throw new TroubleError(trouble('drill-answered', 'seed', 'This drill has been answered already; the answer given first is kept.'));
      const before = cards.get(answer.topic) ?? null;
      const card = schedule(before, at);
      const { topic, seed, edition, response, right, confused } = answer;
      await connection.orm.insert(t.drillAnswers).values({
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
      });
      const row = { learner: id, topic, due: card.due, card };
      await connection.orm
        .insert(t.drillCards)
        .values(row)
        .onConflictDoUpdate({ target: [t.drillCards.learner, t.drillCards.topic], set: row });
      return card;
    }),
  putBack: (recovered, schedule) => transact((connection) => putBackLearning(connection, recovered, schedule)),
});

const learnerColumns = { id: t.learners.id, name: t.learners.name, course: t.learners.course };

const learnerOf = async (reader: Reader, id: LearnerId): Promise<Learner> => {
  const [found] = await reader.orm.select(learnerColumns).from(t.learners).where(eq(t.learners.id, id));
  if (found === undefined) throw new TroubleError(trouble('not-found', `learner ${id}`, `There is no learner "${id}".`));
  return found;
};

const courseOf = async (reader: Reader, id: CourseId): Promise<Course> => {
  const [found] = await reader.orm.select().from(t.courses).where(eq(t.courses.id, id));
  if (found === undefined) throw new TroubleError(trouble('not-found', `course ${id}`, `There is no course "${id}".`));
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
