import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Card, Course, CourseId, DrillAnswer, LearnerId } from '../../../db/index.ts';
import { asId, type TopicId } from '../../../reasoner/index.ts';
import { filledStore, freshConnection, freshFolder, noon, troubleIn, valueIn } from './kit.ts';

const [wenna, osk] = ['wenna', 'osk'].map((id) => asId<LearnerId>(id)) as [LearnerId, LearnerId];
const course: Course = { id: asId<CourseId>('first'), name: 'First week', families: null, kinds: ['looks'], newPerDay: 4 };
const answer = (topic: string, seed: number, rest: Partial<DrillAnswer> = {}): DrillAnswer => ({
  topic: asId<TopicId>(topic),
  seed,
  edition: 'small',
  response: [`choice-${seed}`],
  right: true,
  confused: null,
  ...rest,
});
/** A card that counts how often it was answered. */
const counted = (card: Card | null, now: Date): Card => ({
  due: now.toISOString(),
  stability: 1,
  difficulty: 1,
  elapsed_days: 0,
  scheduled_days: 1,
  learning_steps: 0,
  reps: (card?.reps ?? 0) + 1,
  lapses: 0,
  state: 1,
});

test('every answer of a learner is kept in its turn with what was confused, and each topic has its card', async () => {
  const file = join(freshFolder(), 'atlas.sqlite');
  const { learning } = await filledStore({ file });
  valueIn(await learning.saveCourse(course));
  valueIn(await learning.saveLearner({ id: wenna, name: 'Wenna', course: course.id }));
  valueIn(await learning.saveLearner({ id: osk, name: 'Osk', course: null }));
  const subject = (id: string) => ({ kind: 'family' as const, id: asId<never>(id), text: id });
  const confused = { asked: subject('petrel'), answered: subject('skua') };
  const given = [answer('a', 1), answer('b', 1, { right: false, confused }), answer('a', 2)];
  for (const one of given) valueIn(await learning.keepAnswer(wenna, one, counted));
  expect(valueIn(await learning.keepAnswer(osk, answer('a', 1), counted)).reps).toBe(1);
  const record = valueIn(await learning.record(wenna));
  const at = noon.toISOString();
  expect(record.answers).toEqual(given.map((one, index) => ({ ...one, first: index < 2, at })));
  expect([...record.cards].map(([topic, { reps }]) => [topic, reps])).toEqual([
    ['a', 2],
    ['b', 1],
  ]);
  expect(record).toMatchObject({ learner: { id: wenna, name: 'Wenna', course: course.id }, course });
  expect(valueIn(await learning.record(osk))).toMatchObject({ course: null, learner: { name: 'Osk' } });
  const onDisk = await freshConnection(file);
  expect(await onDisk.all('select learner, n, topic from drill_answers order by learner, n')).toEqual([
    { learner: 'osk', n: 1, topic: 'a' },
    { learner: 'wenna', n: 1, topic: 'a' },
    { learner: 'wenna', n: 2, topic: 'b' },
    { learner: 'wenna', n: 3, topic: 'a' },
  ]);
});

test('a drill is answered once; what is there of neither learner nor course is told, and nothing is kept', async () => {
  const { learning } = await filledStore();
  valueIn(await learning.saveLearner({ id: osk, name: 'Osk', course: null }));
  valueIn(await learning.keepAnswer(osk, answer('a', 1), counted));
  expect(troubleIn(await learning.keepAnswer(osk, answer('a', 1, { right: false }), counted)).code).toBe('drill-answered');
  expect(valueIn(await learning.record(osk)).answers).toEqual([{ ...answer('a', 1), first: true, at: noon.toISOString() }]);
  const nobody = { code: 'not-found', place: 'learner wenna' };
  expect(troubleIn(await learning.keepAnswer(wenna, answer('a', 1), counted))).toMatchObject(nobody);
  expect(troubleIn(await learning.record(wenna))).toMatchObject(nobody);
  expect(troubleIn(await learning.removeLearner(wenna))).toMatchObject(nobody);
  expect(troubleIn(await learning.saveLearner({ id: wenna, name: 'Wenna', course: course.id }))).toMatchObject({
    code: 'not-found',
    place: 'course first',
  });
  expect(valueIn(await learning.learners())).toEqual([{ id: osk, name: 'Osk', course: null, level: 'measured' }]);
  expect(valueIn(await learning.saveLearner({ id: osk, name: 'Osk', course: null, level: 'by eye' })).level).toBe('by eye');
  // What is not said of the level leaves it as it was.
  expect(valueIn(await learning.saveLearner({ id: osk, name: 'Oskar', course: null }))).toEqual({
    id: osk,
    name: 'Oskar',
    course: null,
    level: 'by eye',
  });
  expect(valueIn(await learning.record(osk)).learner).toEqual({ id: osk, name: 'Oskar', course: null, level: 'by eye' });
});

test('[H5] a course saved over another than the one it was made of is refused by its name', async () => {
  const { learning } = await filledStore();
  valueIn(await learning.saveCourse(course, null));
  const trouble = troubleIn(await learning.saveCourse({ ...course, name: 'Second week' }, null));
  expect(trouble).toMatchObject({ code: 'changed-since', place: 'course first' });
  expect(trouble.sentence).toContain('The course "First week"');
  valueIn(await learning.saveCourse({ ...course, name: 'Second week' }));
  expect(valueIn(await learning.courses()).map(({ name }) => name)).toEqual(['Second week']);
});
