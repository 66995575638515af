import type { LearningRecord } from '../../db/index.ts';
import { type CompiledAtlas, type FamilyId, type Topic, topicsOf } from '../../reasoner/index.ts';
import type { WhatIsKnown } from '../bridge/drill-calls.ts';
import { scopeOf } from './drill-schedule.ts';

/** How the families of a learner's course are known: of the topics about each, how many were asked, and how many answered rightly the last time. */
export const knownOf = (atlas: CompiledAtlas, record: LearningRecord): WhatIsKnown['families'] => {
  const last = new Map(record.answers.map((answer) => [answer.topic, answer]));
  const byFamily = new Map<FamilyId, Topic[]>();
  for (const topic of topicsOf(atlas, scopeOf(record)))
    for (const family of familiesOf(topic)) byFamily.set(family, [...(byFamily.get(family) ?? []), topic]);
  return atlas.data.families.flatMap(({ id: family }) => {
    const topics = byFamily.get(family);
    if (topics === undefined) return [];
    const answers = topics.flatMap(({ id }) => last.get(id) ?? []);
    const times = answers.map(({ at }) => at).sort();
    return [
      {
        family,
        topics: topics.length,
        asked: answers.length,
        right: answers.filter(({ right }) => right).length,
        lastAt: times.at(-1) ?? null,
      },
    ];
  });
};

/** Which families a topic is about; how a maker makes its names is about no one of them. */
const familiesOf = (topic: Topic): readonly FamilyId[] => {
  switch (topic.kind) {
    case 'looks':
      return [...new Set(topic.families)];
    case 'grammar':
      return [];
    default:
      return [topic.family];
  }
};
