import { type CardInput, createEmptyCard, fsrs, generatorParameters, Rating } from 'ts-fsrs';
import type { Card, LearningRecord } from '../../db/index.ts';
import type { Scope, Topic, TopicId } from '../../reasoner/index.ts';
import type { Today } from '../bridge/drill-calls.ts';

/**
 * When a topic is asked again: the library's own schedule with its own figures, 0.9 of what was learnt to be remembered when it falls due. No fuzz:
 * the same answers at the same times give the same days.
 */
const scheduler = fsrs(generatorParameters({ request_retention: 0.9, enable_fuzz: false }));

/** New topics a day where no course says otherwise. */
export const usualPerDay = 12;

/** The card after an answer: right is the library's *good*, wrong its *again*. */
export const scheduled = (card: Card | null, right: boolean, now: Date): Card => {
  const before: CardInput = card ?? createEmptyCard(now);
  const { due, last_review, ...rest } = scheduler.next(before, now, right ? Rating.Good : Rating.Again).card;
  return { ...rest, due: due.toISOString(), ...(last_review === undefined ? {} : { last_review: last_review.toISOString() }) };
};

/** The shop's own day, from midnight to midnight on its clock. */
const dayOf = (time: Date): string => `${time.getFullYear()}-${time.getMonth()}-${time.getDate()}`;

const answersToday = ({ answers, now }: LearningRecord): LearningRecord['answers'] =>
  answers.filter(({ at }) => dayOf(new Date(at)) === dayOf(now));

const dueTopics = (record: LearningRecord, topics: readonly Topic[]): Topic[] =>
  topics
    .filter(({ id }) => new Date(record.cards.get(id)?.due ?? Number.POSITIVE_INFINITY) <= record.now)
    .sort((a, b) => dueOf(record, a.id) - dueOf(record, b.id));

const dueOf = (record: LearningRecord, topic: TopicId): number => new Date(record.cards.get(topic)?.due ?? 0).getTime();

const freshTopics = (record: LearningRecord, topics: readonly Topic[]): Topic[] => topics.filter(({ id }) => !record.cards.has(id));

const freshLeft = (record: LearningRecord): number =>
  Math.max(0, (record.course?.newPerDay ?? usualPerDay) - answersToday(record).filter(({ first }) => first).length);

/** @param topics those of the learner's course, in the order they are taken up */
export const todayOf = (record: LearningRecord, topics: readonly Topic[]): Today => {
  const answers = answersToday(record);
  return {
    answered: answers.length,
    right: answers.filter(({ right }) => right).length,
    due: dueTopics(record, topics).length,
    fresh: Math.min(freshLeft(record), freshTopics(record, topics).length),
  };
};

/** Topics to ask now, the first first: what is due, then what is new today; beyond that, what falls due soonest and all that is new. */
export const upNext = (
  record: LearningRecord,
  topics: readonly Topic[],
  beyond: boolean,
): readonly { readonly topic: Topic; readonly why: 'due' | 'new' | 'beyond' }[] => {
  const due = dueTopics(record, topics).map((topic) => ({ topic, why: 'due' as const }));
  const all = freshTopics(record, topics);
  // A topic that gives no drill is passed over, so all that are new may be tried while any is left for today.
  const fresh = freshLeft(record) > 0 ? all.map((topic) => ({ topic, why: 'new' as const })) : [];
  if (!beyond) return [...due, ...fresh];
  const later = topics.filter(({ id }) => record.cards.has(id)).sort((a, b) => dueOf(record, a.id) - dueOf(record, b.id));
  return [
    ...due,
    ...fresh,
    ...all.map((topic) => ({ topic, why: 'beyond' as const })),
    ...later.map((topic) => ({ topic, why: 'beyond' as const })),
  ];
};

/** ISO time of the next topic to fall due; null where none is scheduled. */
export const nextDue = (record: LearningRecord, topics: readonly Topic[]): string | null =>
  topics.flatMap(({ id }) => record.cards.get(id)?.due ?? []).sort()[0] ?? null;

/** What a learner is asked about. */
export const scopeOf = ({ learner, course }: LearningRecord): Scope => ({
  families: course?.families ?? null,
  kinds: course?.kinds ?? null,
  level: learner.level,
});
