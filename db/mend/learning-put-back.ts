import { z } from 'zod';
import { insertRows } from '../driver/statements.ts';
import type { Plan } from '../driver/write-planned.ts';
import type { SalvagedRow } from '../salvage/salvage.ts';
import * as t from '../schema.ts';
import type { Card, CourseId, LearnerId } from '../shop/learning.ts';

type CourseRow = typeof t.courses.$inferSelect;
type LearnerRow = typeof t.learners.$inferSelect;
type CardRow = typeof t.drillCards.$inferSelect;
type AnswerRow = typeof t.drillAnswers.$inferSelect;

/** What was learnt, out of a damaged file, as its rows were. */
export interface RecoveredLearning {
  readonly courses: readonly CourseRow[];
  readonly learners: readonly LearnerRow[];
  readonly cards: readonly CardRow[];
  readonly answers: readonly AnswerRow[];
}

/** What was put back, and what of it had to do without something that could not be read. */
export interface LearningPutBack {
  readonly courses: number;
  readonly learners: number;
  readonly answers: number;
  readonly topics: number;
  /** Learners of whom only cards or answers were left; they have a name made of their id. */
  readonly nameless: readonly string[];
  /** Learners whose course is gone; they go on with the whole atlas. */
  readonly withoutCourse: readonly string[];
  /** Answers known to be missing, by the numbers of those before and after them. */
  readonly answersMissing: number;
  /** Topics whose card was lost and worked out again from the answers. */
  readonly rescheduled: number;
}

const json = (inner: z.ZodType) =>
  z.string().transform((text, context) => {
    try {
      return inner.parse(JSON.parse(text));
    } catch {
      context.addIssue('no such JSON');
      return z.NEVER;
    }
  });
const time = z.string().refine((text) => !Number.isNaN(Date.parse(text)));
const flag = z.union([z.literal(0), z.literal(1)]).transform(Boolean);
const names = json(z.array(z.string())).nullable();
const subject = json(z.object({ kind: z.string(), id: z.string(), text: z.string() })).nullable();
const card = json(
  z.object({
    due: time,
    stability: z.number(),
    difficulty: z.number(),
    elapsed_days: z.number(),
    scheduled_days: z.number(),
    learning_steps: z.number(),
    reps: z.number(),
    lapses: z.number(),
    state: z.number(),
    last_review: time.optional(),
  }),
);
const courseRow = z
  .object({ id: z.string(), name: z.string(), families: names, kinds: names, new_per_day: z.int().min(0) })
  .transform(({ new_per_day: newPerDay, ...rest }) => ({ ...rest, newPerDay }));
const learnerRow = z.object({
  id: z.string(),
  name: z.string(),
  course: z.string().nullable(),
  since: time,
  n: z.number().default(0),
  level: z.enum(['by eye', 'measured']).default('measured'),
});
const cardRow = z.object({ learner: z.string(), topic: z.string(), due: time, card });
const answerRow = z.object({
  learner: z.string(),
  n: z.int(),
  topic: z.string(),
  seed: z.int(),
  edition: z.string(),
  first: flag,
  response: json(z.array(z.string())),
  correct: flag,
  asked: subject,
  answered: subject,
  at: time,
});

/** What was learnt, of rows as a file holds them; rows that are none are left out. */
export const learningOf = (rows: ReadonlyMap<string, readonly SalvagedRow[]>): RecoveredLearning => {
  const read = <Row>(table: string, schema: z.ZodType): Row[] =>
    (rows.get(table) ?? []).flatMap((row): Row[] => {
      const found = schema.safeParse(row);
      return found.success ? [found.data as Row] : [];
    });
  return {
    courses: read<CourseRow>('courses', courseRow),
    learners: read<LearnerRow>('learners', learnerRow),
    cards: read<CardRow>('drill_cards', cardRow),
    answers: read<AnswerRow>('drill_answers', answerRow),
  };
};

/**
 * Puts back what was learnt into an atlas where nobody has learnt anything yet.
 * @param schedule the card after an answer, as when it was first given
 */
export const learningPutBack = (
  { courses, learners, cards, answers }: RecoveredLearning,
  schedule: (card: Card | null, right: boolean, at: Date) => Card,
): Plan<LearningPutBack> => {
  const sorted = [...answers].sort((a, b) => (a.learner < b.learner ? -1 : a.learner > b.learner ? 1 : a.n - b.n));
  const courseIds = new Set<CourseId>(courses.map(({ id }) => id));
  const known = new Set<LearnerId>(learners.map(({ id }) => id));
  const nameless = [...new Set([...cards, ...sorted].map(({ learner }) => learner))].filter((id) => !known.has(id));
  const orphans = nameless.map((id): LearnerRow => {
    const since = sorted.find(({ learner }) => learner === id)?.at ?? cards.find(({ learner }) => learner === id)?.due;
    return { id, name: `learner ${id.slice(0, 8)}`, course: null, since: since as string, n: 0, level: 'measured' };
  });
  const withoutCourse = learners.filter(({ course }) => course !== null && !courseIds.has(course));
  const rows = [...learners.map((learner) => (withoutCourse.includes(learner) ? { ...learner, course: null } : learner)), ...orphans];

  const cardKeys = new Set(cards.map(({ learner, topic }) => JSON.stringify([learner, topic])));
  const again = new Map<string, CardRow>();
  for (const { learner, topic, correct, at } of sorted) {
    const key = JSON.stringify([learner, topic]);
    if (cardKeys.has(key)) continue;
    const next = schedule(again.get(key)?.card ?? null, correct, new Date(at));
    again.set(key, { learner, topic, due: next.due, card: next });
  }

  const counts = new Map<LearnerId, { rows: number; last: number }>();
  // The next answer takes the number after how many there are, so that they are counted anew where some are gone.
  const numbered = sorted.map((row) => {
    const { rows: before } = counts.get(row.learner) ?? { rows: 0 };
    counts.set(row.learner, { rows: before + 1, last: row.n });
    return { ...row, n: before + 1 };
  });

  const statements = [
    ...insertRows(t.courses, courses),
    ...insertRows(t.learners, rows),
    ...insertRows(t.drillCards, [...cards, ...again.values()]),
    ...insertRows(t.drillAnswers, numbered),
  ];
  const value = {
    courses: courses.length,
    learners: rows.length,
    answers: numbered.length,
    topics: cards.length + again.size,
    nameless: orphans.map(({ name }) => name),
    withoutCourse: withoutCourse.map(({ name }) => name),
    answersMissing: [...counts.values()].reduce((sum, { rows: read, last }) => sum + last - read, 0),
    rescheduled: again.size,
  };
  return { batch: { statements }, value };
};
