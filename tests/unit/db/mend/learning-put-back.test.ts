import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../../db/driver/write-planned.ts';
import { type LearningPutBack, learningOf, learningPutBack, type RecoveredLearning } from '../../../../db/mend/learning-put-back.ts';
import type { SalvagedRow } from '../../../../db/salvage/salvage.ts';
import type { Card, CourseId, LearnerId } from '../../../../db/shop/learning.ts';
import { asId, type FamilyId, type TopicId } from '../../../../reasoner/index.ts';
import { card } from './card.ts';

const at = (hour: number): string => `2026-03-04T${String(hour).padStart(2, '0')}:00:00.000Z`;
const topic = (name: string) => asId<TopicId>(name);
const wenna = asId<LearnerId>('wenna');
const osk = asId<LearnerId>('osk');
const firstWeek = asId<CourseId>('first-week');

describe('rows of what was learnt', () => {
  const rows: Readonly<Record<string, SalvagedRow>> = {
    courses: { id: 'first-week', name: 'First week', families: '["petrel"]', kinds: '["looks"]', new_per_day: 4 },
    learners: { id: 'wenna', name: 'Wenna', course: 'first-week', since: at(8), n: 3 },
    drill_cards: { learner: 'wenna', topic: 'looks:petrel', due: card.due, card: JSON.stringify(card) },
    drill_answers: {
      learner: 'wenna',
      n: 1,
      topic: 'looks:petrel',
      seed: 17,
      edition: 'small 1',
      first: 1,
      response: '["choice-1"]',
      correct: 0,
      asked: '{"kind":"family","id":"petrel","text":"Petrel"}',
      answered: '{"kind":"family","id":"skua","text":"Skua"}',
      at: at(9),
    },
  };
  const listOf = { courses: 'courses', learners: 'learners', drill_cards: 'cards', drill_answers: 'answers' } as const;
  const read = (table: string, row: SalvagedRow) => learningOf(new Map([[table, [row]]]))[listOf[table as keyof typeof listOf]];

  test('[P3] they are read as the store has them: JSON as its value, yes and no as such', () => {
    expect(learningOf(new Map(Object.entries(rows).map(([table, row]) => [table, [row]])))).toEqual({
      courses: [{ id: 'first-week', name: 'First week', families: ['petrel'], kinds: ['looks'], newPerDay: 4 }],
      learners: [{ id: 'wenna', name: 'Wenna', course: 'first-week', since: at(8), n: 3, level: 'measured' }],
      cards: [{ learner: 'wenna', topic: 'looks:petrel', due: card.due, card }],
      answers: [
        {
          learner: 'wenna',
          n: 1,
          topic: 'looks:petrel',
          seed: 17,
          edition: 'small 1',
          first: true,
          response: ['choice-1'],
          correct: false,
          asked: { kind: 'family', id: 'petrel', text: 'Petrel' },
          answered: { kind: 'family', id: 'skua', text: 'Skua' },
          at: at(9),
        },
      ],
    });
    expect(learningOf(new Map())).toEqual({ courses: [], learners: [], cards: [], answers: [] });
  });

  const { last_review: _, ...newCard } = card;
  const { n: __, ...turnless } = rows.learners as SalvagedRow;

  test.each([
    ['courses', 'families', null, { families: null }],
    ['courses', 'kinds', null, { kinds: null }],
    ['courses', 'families', '[]', { families: [] }],
    ['courses', 'new_per_day', 0, { newPerDay: 0 }],
    ['learners', 'course', null, { course: null }],
    ['learners', 'name', '', { name: '' }],
    ['drill_cards', 'card', JSON.stringify(newCard), { card: newCard }],
    ['drill_answers', 'asked', null, { asked: null }],
    ['drill_answers', 'answered', null, { answered: null }],
    ['drill_answers', 'first', 0, { first: false }],
    ['drill_answers', 'correct', 1, { correct: true }],
    ['drill_answers', 'response', '[]', { response: [] }],
  ] as const)('[P3] a row of %s is one with %s = %s', (table, column, value, expected) => {
    expect(read(table, { ...rows[table], [column]: value })).toMatchObject([expected]);
  });

  test('[P3] a learner of a file from before learners had a turn gets one when put back', () => {
    expect(read('learners', turnless)).toMatchObject([{ id: 'wenna', n: 0 }]);
  });

  const spoilt: Readonly<Record<string, Readonly<Record<string, readonly unknown[]>>>> = {
    courses: {
      id: [null, 7],
      name: [null],
      families: [7, '["a"', '{}', '[1]', 'null'],
      kinds: [7, '["a"', '{}', '[1]', 'null'],
      new_per_day: [-1, 1.5, null, '4'],
    },
    learners: { id: [null], name: [null], course: [7, undefined], since: [null, '', 'spring', 7], n: ['1', null] },
    drill_cards: {
      learner: [null],
      topic: [null],
      due: [null, 'spring'],
      card: [
        null,
        7,
        'null',
        JSON.stringify(card).slice(1),
        JSON.stringify({ ...card, due: 'spring' }),
        JSON.stringify({ ...card, last_review: 'spring' }),
        ...Object.keys(newCard).map((name) => JSON.stringify({ ...card, [name]: null })),
        ...Object.keys(newCard).map((name) => JSON.stringify({ ...card, [name]: undefined })),
      ],
    },
    drill_answers: {
      learner: [null],
      n: [null, 1.5, '1'],
      topic: [null],
      seed: [null, 1.5, '17'],
      edition: [null],
      first: [null, 2, '1'],
      response: [null, '["a"', '[1]', '{}'],
      correct: [null, 2, true],
      asked: [7, 'null', '{}', '{"kind":"family","id":"a"}', '{"kind":"family","text":"A"}', '{"id":"a","text":"A"}'],
      answered: [7, 'null', '{}', '{"kind":"family","id":"a"}', '{"kind":"family","text":"A"}', '{"id":"a","text":"A"}'],
      at: [null, 'spring'],
    },
  };
  test.each(Object.entries(spoilt))(
    '[P3] a row of %s with one column spoilt is left out, and those beside it are not',
    (table, columns) => {
      const row = rows[table] as SalvagedRow;
      const list = listOf[table as keyof typeof listOf];
      for (const [column, values] of Object.entries(columns))
        for (const value of values) {
          const none = { ...row, [column]: value } as SalvagedRow;
          expect([column, value, learningOf(new Map([[table, [none, row]]]))[list].length]).toEqual([column, value, 1]);
        }
    },
  );
});

describe('what was learnt, put back', () => {
  type Answer = RecoveredLearning['answers'][number];
  const answer = (learner: LearnerId, n: number, name: string, correct: boolean): Answer => ({
    learner,
    n,
    topic: topic(name),
    seed: n,
    edition: 'small 1',
    first: n === 1,
    response: [`choice-${n}`],
    correct,
    asked: null,
    answered: null,
    at: at(n),
  });
  const cardOf = (learner: LearnerId, name: string, due = card.due) => ({ learner, topic: topic(name), due, card: { ...card, due } });
  const learner = (id: LearnerId, course: CourseId | null = null) => ({
    id,
    name: `The ${id}`,
    course,
    since: at(8),
    n: 1,
    level: 'measured' as const,
  });
  const course = { id: firstWeek, name: 'First week', families: [asId<FamilyId>('petrel')], kinds: null, newPerDay: 4 };
  const none: RecoveredLearning = { courses: [], learners: [], cards: [], answers: [] };

  /** A schedule of the test's own, which keeps what it was asked. */
  const put = (learning: Partial<RecoveredLearning>) => {
    const asked: { readonly reps: number | null; readonly right: boolean; readonly at: string }[] = [];
    const plan = learningPutBack({ ...none, ...learning }, (before, right, when) => {
      asked.push({ reps: before?.reps ?? null, right, at: when.toISOString() });
      return { ...card, reps: (before?.reps ?? 0) + 10, due: new Date(when.getTime() + 86_400_000).toISOString() };
    });
    return { ...plan, asked, rows: rowsIn(plan) };
  };
  /** The rows that would be written, by table, in their order. */
  const rowsIn = ({ batch }: Plan<LearningPutBack>): readonly (readonly [string, Readonly<Record<string, unknown>>])[] =>
    [...(batch?.statements ?? [])].flatMap(({ sql, params = [] }) => {
      const [, table = '', names = ''] = /^insert into (\w+) \(([^)]*)\)/.exec(sql) ?? [];
      const columns = names.split(', ');
      return Array.from({ length: params.length / columns.length }, (_, row) => [
        table,
        Object.fromEntries(columns.map((name, column) => [name, params[row * columns.length + column]])),
      ]) as [string, Record<string, unknown>][];
    });
  const of = (rows: ReturnType<typeof rowsIn>, table: string) => rows.filter(([name]) => name === table).map(([, row]) => row);

  test('[P3] nothing learnt writes nothing', () => {
    const { rows, value, asked } = put({});
    expect(rows).toEqual([]);
    expect(asked).toEqual([]);
    expect(value).toEqual({
      courses: 0,
      learners: 0,
      answers: 0,
      topics: 0,
      nameless: [],
      withoutCourse: [],
      answersMissing: 0,
      rescheduled: 0,
    });
  });

  test('[P3] whole rows go back as they were, what others refer to first, and no day is worked out again', () => {
    const { rows, value, asked } = put({
      courses: [course],
      learners: [learner(wenna, firstWeek), learner(osk)],
      cards: [cardOf(wenna, 'a')],
      answers: [answer(wenna, 2, 'a', false), answer(wenna, 1, 'a', true)],
    });
    expect(asked).toEqual([]);
    expect(rows).toEqual([
      ['courses', { id: 'first-week', name: 'First week', families: '["petrel"]', kinds: null, new_per_day: 4 }],
      ['learners', { id: 'wenna', name: 'The wenna', course: 'first-week', since: at(8), n: 1, level: 'measured' }],
      ['learners', { id: 'osk', name: 'The osk', course: null, since: at(8), n: 1, level: 'measured' }],
      ['drill_cards', { learner: 'wenna', topic: 'a', due: card.due, card: JSON.stringify(card) }],
      ...[1, 2].map((n) => [
        'drill_answers',
        {
          learner: 'wenna',
          n,
          topic: 'a',
          seed: n,
          edition: 'small 1',
          first: n === 1 ? 1 : 0,
          response: `["choice-${n}"]`,
          correct: n === 1 ? 1 : 0,
          asked: null,
          answered: null,
          at: at(n),
        },
      ]),
    ]);
    expect(value).toEqual({
      courses: 1,
      learners: 2,
      answers: 2,
      topics: 1,
      nameless: [],
      withoutCourse: [],
      answersMissing: 0,
      rescheduled: 0,
    });
  });

  test('[P3] a learner whose course is lost goes on with the whole atlas, and is named', () => {
    const { rows, value } = put({ courses: [course], learners: [learner(wenna, asId<CourseId>('gone')), learner(osk, firstWeek)] });
    expect(of(rows, 'learners').map(({ id, course: held }) => [id, held])).toEqual([
      ['wenna', null],
      ['osk', 'first-week'],
    ]);
    expect(value.withoutCourse).toEqual(['The wenna']);
    expect(value.nameless).toEqual([]);
    // Who never had one has lost none.
    expect(put({ learners: [learner(osk)] }).value.withoutCourse).toEqual([]);
  });

  test('[P3] a learner of whom only answers or cards are left is named after the id, once, from the first answer or the card’s day on', () => {
    const long = asId<LearnerId>('0123456789abcdef');
    const { rows, value } = put({
      learners: [learner(wenna)],
      cards: [cardOf(wenna, 'a'), cardOf(long, 'a', at(3)), cardOf(osk, 'a', at(2))],
      answers: [answer(osk, 6, 'a', true), answer(osk, 5, 'b', true), answer(wenna, 1, 'a', true)],
    });
    expect(of(rows, 'learners')).toEqual([
      { id: 'wenna', name: 'The wenna', course: null, since: at(8), n: 1, level: 'measured' },
      { id: '0123456789abcdef', name: 'learner 01234567', course: null, since: at(3), n: 0, level: 'measured' },
      { id: 'osk', name: 'learner osk', course: null, since: at(5), n: 0, level: 'measured' },
    ]);
    expect(value).toMatchObject({ learners: 3, nameless: ['learner 01234567', 'learner osk'], withoutCourse: [] });
  });

  test('[P3] a topic whose card is lost is worked out again from its answers, in their turn; others are not', () => {
    const { rows, value, asked } = put({
      learners: [learner(wenna), learner(osk)],
      cards: [cardOf(wenna, 'kept'), cardOf(osk, 'a')],
      answers: [
        answer(wenna, 4, 'a', false),
        answer(wenna, 2, 'b', true),
        answer(wenna, 1, 'a', true),
        answer(wenna, 3, 'kept', true),
        answer(osk, 1, 'a', true),
        answer(osk, 2, 'kept', false),
      ],
    });
    expect(asked).toEqual([
      { reps: null, right: false, at: at(2) },
      { reps: null, right: true, at: at(1) },
      { reps: null, right: true, at: at(2) },
      { reps: 10, right: false, at: at(4) },
    ]);
    expect(of(rows, 'drill_cards').map((row) => [row.learner, row.topic, row.due, (JSON.parse(String(row.card)) as Card).reps])).toEqual([
      ['wenna', 'kept', card.due, 1],
      ['osk', 'a', card.due, 1],
      ['osk', 'kept', '2026-03-05T02:00:00.000Z', 10],
      ['wenna', 'a', '2026-03-05T04:00:00.000Z', 20],
      ['wenna', 'b', '2026-03-05T02:00:00.000Z', 10],
    ]);
    expect(value).toMatchObject({ topics: 5, rescheduled: 3, answers: 6, answersMissing: 0 });
  });

  test('[P3] answers are counted anew, each learner’s for themselves, and those between that are missing are told', () => {
    const { rows, value } = put({
      learners: [learner(wenna), learner(osk)],
      cards: [cardOf(wenna, 'a'), cardOf(osk, 'a')],
      answers: [answer(wenna, 10, 'a', true), answer(osk, 3, 'a', true), answer(wenna, 2, 'a', true), answer(osk, 1, 'a', true)],
    });
    expect(of(rows, 'drill_answers').map((row) => [row.learner, row.n, row.at])).toEqual([
      ['osk', 1, at(1)],
      ['osk', 2, at(3)],
      ['wenna', 1, at(2)],
      ['wenna', 2, at(10)],
    ]);
    expect(value).toMatchObject({ answers: 4, answersMissing: 9, nameless: [] });
  });
});
