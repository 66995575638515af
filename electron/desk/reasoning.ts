import type { LearnerId, Outcome, Store } from '../../db/index.ts';
import {
  type CaseVerdict,
  drillOf,
  faultIn,
  type Judgement,
  judgeCase,
  judgeDrill,
  type Sheet,
  type TopicId,
  topicOf,
  topicsOf,
} from '../../reasoner/index.ts';
import type { Today } from '../bridge/drill-calls.ts';
import { refusal, well } from '../bridge/reply.ts';
import { scopeOf, todayOf } from './drill-schedule.ts';
import type { KeptAtlas } from './kept-atlas.ts';

export interface Answered {
  readonly topic: TopicId;
  readonly seed: number;
  readonly edition: string;
  readonly response: readonly string[];
}

/**
 * The reasoning that what is written rests on. Whoever writes does not reason: a verdict takes longer than anything else may wait, so it is asked of whoever holds the compiled atlas.
 */
export interface Reasoning {
  readonly judgeCase: (asked: { readonly sheet: Sheet }) => Promise<Outcome<CaseVerdict>>;
  readonly judgeDrill: (asked: Answered) => Promise<Outcome<Judgement>>;
  readonly dayOf: (asked: { readonly learner: LearnerId }) => Promise<Outcome<Today>>;
}

export type InnerName = keyof Reasoning;

/** Answered here and now, over the compiled atlas. */
export const reasoningOver = (store: Store, kept: KeptAtlas): Reasoning => ({
  judgeCase: async ({ sheet }) => {
    const held = await kept.holding(sheet);
    return held.ok ? well(judgeCase(held.value.atlas, held.value.sheet)) : held;
  },

  judgeDrill: async ({ topic: topicId, seed, edition, response }) => {
    const atlas = await kept.now();
    const topic = topicOf(atlas, topicId);
    if (topic === undefined) return refusal('not-found', `topic ${topicId}`, `The atlas has nothing to drill of the name "${topicId}".`);
    if (edition !== atlas.data.edition)
      return refusal(
        'drill-changed',
        'edition',
        'The atlas has changed since this drill was asked. It was not judged; go on with the next one.',
      );
    const drill = drillOf(atlas, topic, seed);
    if (drill === null) return refusal('not-found', `seed ${seed}`, `“${topic.text}” gives no question for the number ${seed}.`);
    const fault = faultIn(drill, response);
    return fault === null ? well(judgeDrill(atlas, drill, response)) : refusal('drill-response', 'response', fault);
  },

  dayOf: async ({ learner }) => {
    const record = await store.learning.record(learner);
    return record.ok ? well(todayOf(record.value, topicsOf(await kept.now(), scopeOf(record.value)))) : record;
  },
});
