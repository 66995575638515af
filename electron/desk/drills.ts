import { randomUUID } from 'node:crypto';
import type { Course, CourseId, LearnerId, LearningRecord, Outcome, Store } from '../../db/index.ts';
import {
  asId,
  type CompiledAtlas,
  type Drill,
  drillOf,
  type FamilyId,
  questionSheetOf,
  type Scope,
  seedOf,
  type Topic,
  topicsOf,
} from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import type { Confusion, WhatIsKnown } from '../bridge/drill-calls.ts';
import { refusal, well } from '../bridge/reply.ts';
import { nextDue, scheduled, scopeOf, todayOf, upNext } from './drill-schedule.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import type { Reasoning } from './reasoning.ts';
import { knownOf } from './what-is-known.ts';

/** Drills, who learns from them, and what each takes for what. */
export const drillCalls = ({ learning, atlas: { vocabulary } }: Store, kept: KeptAtlas, reasoning: Reasoning): Calls<'drills'> => ({
  'drills.learners': () => learning.learners(),
  'drills.saveLearner': ({ id = asId<LearnerId>(randomUUID()), ...rest }) => learning.saveLearner({ id, ...rest }),
  'drills.removeLearner': ({ id }) => learning.removeLearner(id),
  'drills.courses': () => learning.courses(),
  'drills.saveCourse': async ({ id = asId<CourseId>(randomUUID()), madeAgainst, ...rest }) => {
    const words = await vocabulary();
    if (!words.ok) return words;
    const stranger = strangerIn(new Set(words.value.families.map((family) => family.id)), rest);
    if (stranger !== null) return stranger;
    const course: Course = { id, ...rest };
    const saved = await learning.saveCourse(course, madeAgainst);
    return saved.ok ? well({ ...course, version: saved.value }) : saved;
  },
  'drills.removeCourse': ({ id, madeAgainst }) => learning.removeCourse(id, madeAgainst),

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

  'drills.answer': async ({ learner, ...given }) => {
    const judged = await reasoning.judgeDrill(given);
    if (!judged.ok) return judged;
    const { right, confused } = judged.value;
    const card = await learning.keepAnswer(learner, { ...given, right, confused }, (before, now) => scheduled(before, right, now));
    if (!card.ok) return card;
    const today = await reasoning.dayOf({ learner });
    return today.ok ? well({ judgement: judged.value, due: card.value.due, today: today.value }) : today;
  },

  'drills.confusions': async ({ learner }) => {
    const record = await learning.record(learner);
    return record.ok ? well(confusionsIn(record.value)) : record;
  },

  'drills.known': async () => {
    const learners = await learning.learners();
    if (!learners.ok) return learners;
    const atlas = await kept.now();
    const rows: WhatIsKnown[] = [];
    for (const { id } of learners.value) {
      const record = await learning.record(id);
      // Whoever was removed meanwhile knows nothing here.
      if (!record.ok) continue;
      rows.push({ learner: record.value.learner, families: knownOf(atlas, record.value) });
    }
    return well(rows);
  },

  'drills.questions': async (asked) => {
    const atlas = await kept.now();
    return strangerIn(atlas.families, asked) ?? well(questionSheetOf(atlas, asked));
  },
});

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

const strangerIn = (
  known: { has(family: FamilyId): boolean },
  { families }: Pick<Scope, 'families'>,
): (Outcome<never> & { readonly ok: false }) | null => {
  const stranger = families?.find((id) => !known.has(id));
  return stranger === undefined ? null : refusal('not-found', `family ${stranger}`, `The atlas has no family "${stranger}".`);
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
