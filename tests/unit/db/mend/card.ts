import type { Card } from '../../../../db/index.ts';

/** What the scheduler keeps of a topic that was answered once. */
export const card: Card = {
  due: '2026-03-05T12:00:00.000Z',
  stability: 2.5,
  difficulty: 5,
  elapsed_days: 0,
  scheduled_days: 1,
  learning_steps: 0,
  reps: 1,
  lapses: 0,
  state: 2,
  last_review: '2026-03-04T12:00:00.000Z',
};
