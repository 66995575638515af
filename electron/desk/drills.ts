import { randomUUID } from 'node:crypto';
import type { Course, CourseId, Learner, LearnerId, LearningRecord, Outcome, Store } from '../../db/index.ts';
import {
  asId,
  type CompiledAtlas,
  type Drill,
  drillOf,
  faultIn,
  judgeDrill,
  quizOf,
  type Scope,
  seedOf,
  type Topic,
  topicOf,
  topicsOf,
} from '../../reasoner/index.ts';
import type { Confusion } from '../bridge/drill-calls.ts';
import { trouble, well } from '../bridge/reply.ts';
import type { Calls } from './desk.ts';
import { nextDue, scheduled, todayOf, upNext } from './drill-schedule.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** Drills, who learns from them, and what each takes for what. */
export const drillCalls = ({ learning }: Store, kept: KeptAtlas): Calls<'drills'> => ({
  'drills.learners': () => learning.learners(),
  'drills.saveLearner': async ({ id = asId<LearnerId>(randomUUID()), ...rest }) => {
    const learner: Learner = { id, ...rest };
    const saved = await learning.saveLearner(learner);
    return saved.ok ? well(learner) : saved;
  },
  'drills.removeLearner': ({ id }) => learning.removeLearner(id),
  'drills.courses': () => learning.courses(),
  'drills.saveCourse': async ({ id = asId<CourseId>(randomUUID()), ...rest }) => {
    const stranger = strangerIn(await kept.now(), rest);
    if (stranger !== null) return stranger;
    const course: Course = { id, ...rest };
    const saved = await learning.saveCourse(course);
    return saved.ok ? well(course) : saved;
  },
  'drills.removeCourse': ({ id }) => learning.removeCourse(id),

  'drills.next': async ({ learner, beyond = false }) => {
    const record = await learning.record(learner);
    if (!record.ok) return record;
    const atlas = await kept.now();
    const topics = topicsOf(atlas, scopeOf(record.value));
    const today = todayOf(record.value, topics);
    for (const { topic, why } of upNext(record.value, topics, beyond)) {
      const drill = nextDrill(atlas, record.value, topic);
      if (drill !== null) return well({ state: 'drill' as const, drill, topic, why, today });
    }
    // What is left gave no drill, and is nothing still to come.
    return well({ state: 'done' as const, next: nextDue(record.value, topics), today: { ...today, due: 0, fresh: 0 } });
  },

  'drills.answer': async ({ learner, topic: topicId, seed, edition, response }) => {
    const atlas = await kept.now();
    const topic = topicOf(atlas, topicId);
    if (topic === undefined) return trouble('not-found', `topic ${topicId}`, `The atlas has nothing to drill of the name "${topicId}".`);
    if (edition !== atlas.data.edition)
      return trouble(
        'drill-changed',
        'edition',
        'The atlas has changed since this drill was asked. It was not judged; go on with the next one.',
      );
    const drill = drillOf(atlas, topic, seed);
    if (drill === null) return trouble('not-found', `seed ${seed}`, `The topic "${topic.text}" gives no drill from the seed ${seed}.`);
    const fault = faultIn(drill, response);
    if (fault !== null) return trouble('drill-response', 'response', fault);
    const judgement = judgeDrill(atlas, drill, response);
    const { right, confused } = judgement;
    const card = await learning.keepAnswer(learner, { topic: topicId, seed, edition, response, right, confused }, (before, now) =>
      scheduled(before, right, now),
    );
    if (!card.ok) return card;
    const record = await learning.record(learner);
    if (!record.ok) return record;
    return well({ judgement, due: card.value.due, today: todayOf(record.value, topicsOf(atlas, scopeOf(record.value))) });
  },

  'drills.confusions': async ({ learner }) => {
    const record = await learning.record(learner);
    return record.ok ? well(confusionsIn(record.value)) : record;
  },

  'drills.quiz': async (asked) => {
    const atlas = await kept.now();
    return strangerIn(atlas, asked) ?? well(quizOf(atlas, asked));
  },
});

const scopeOf = ({ course }: LearningRecord): Scope => ({ families: course?.families ?? null, kinds: course?.kinds ?? null });

/** A topic's drills follow one another by how often this learner has answered it: never the same twice, and the same again wherever it is asked again. */
const nextDrill = (atlas: CompiledAtlas, { learner, answers }: LearningRecord, topic: Topic): Drill | null => {
  const times = answers.filter((answer) => answer.topic === topic.id).length;
  const seed = seedOf(learner.id, topic.id, times);
  const none = barren.get(atlas) ?? new Set();
  barren.set(atlas, none);
  const key = `${topic.id} ${seed}`;
  if (none.has(key)) return null;
  const drill = drillOf(atlas, topic, seed);
  if (drill === null) none.add(key);
  return drill;
};

/** Topics and seeds that gave no drill: they are passed over each time, and looking for one takes the longest where there is none. */
const barren = new WeakMap<CompiledAtlas, Set<string>>();

const strangerIn = (atlas: CompiledAtlas, { families }: Pick<Scope, 'families'>): (Outcome<never> & { readonly ok: false }) | null => {
  const stranger = families?.find((id) => !atlas.families.has(id));
  return stranger === undefined ? null : trouble('not-found', `family ${stranger}`, `The atlas has no family "${stranger}".`);
};

/** Most often first, then the latest. */
const confusionsIn = ({ answers }: LearningRecord): Confusion[] => {
  const rows = new Map<string, Confusion>();
  for (const { confused, at } of answers) {
    if (confused === null) continue;
    const { asked, answered } = confused;
    const key = JSON.stringify([asked.kind, asked.id, answered.kind, answered.id]);
    rows.set(key, { asked, answered, count: (rows.get(key)?.count ?? 0) + 1, lastAt: at });
  }
  return [...rows.values()].sort((a, b) => b.count - a.count || (a.lastAt < b.lastAt ? 1 : -1));
};
