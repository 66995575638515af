import { expect, test } from 'vitest';
import type { LearningRecord } from '../../../db/index.ts';
import { knownOf } from '../../../electron/desk/what-is-known.ts';
import { asId, type FamilyId, type TopicId, topicsOf } from '../../../reasoner/index.ts';
import { sayKnown } from '../../../renderer/drills/sayKnown.ts';
import { demo } from '../seed/demo-atlas.ts';

const families = ['petrel', 'skua'].map((id) => asId<FamilyId>(id));
const record = (answers: readonly (readonly [topic: string, right: boolean, day: number])[]): LearningRecord => ({
  learner: { id: asId('wenna'), name: 'Wenna', course: asId('course'), level: 'by eye' },
  course: { id: asId('course'), name: 'Two', families, kinds: ['looks', 'name', 'grammar'], newPerDay: 5 },
  cards: new Map(),
  answers: answers.map(([topic, right, day], seed) => ({
    topic: asId<TopicId>(topic),
    seed,
    edition: '',
    response: [],
    right,
    confused: null,
    first: true,
    at: `2031-05-0${day}T10:00:00.000Z`,
  })),
  now: new Date('2031-05-09T10:00:00.000Z'),
});

test('[D6] a family is known by the last answer to each topic that speaks of it, at the learner’s level', () => {
  const given = record([
    ['looks-by-eye:petrel+skua', false, 1],
    ['looks-by-eye:petrel+skua', true, 3],
    ['name-by-eye:petrel', true, 2],
    ['name-by-eye:petrel', false, 4],
    // With instruments, and of no one family: neither counts.
    ['looks:petrel+skua', true, 5],
    ['grammar-by-eye:merrowby', true, 6],
  ]);
  const topics = topicsOf(demo, { families, kinds: ['looks', 'name'], level: 'by eye' });
  const about = (family: string) =>
    topics.filter((topic) =>
      (topic.kind === 'looks' ? topic.families : [topic.kind === 'name' ? topic.family : '']).some((id) => id === family),
    ).length;
  expect(about('petrel')).toBe(3);
  expect(knownOf(demo, given)).toEqual([
    { family: 'petrel', topics: 3, asked: 2, right: 1, lastAt: '2031-05-04T10:00:00.000Z' },
    { family: 'skua', topics: 3, asked: 1, right: 1, lastAt: '2031-05-03T10:00:00.000Z' },
  ]);
  expect(knownOf(demo, record([])).map(({ asked, lastAt }) => [asked, lastAt])).toEqual([
    [0, null],
    [0, null],
  ]);
});

test('[D6] how well is said in words and in strokes; all of it only when all of it was right', () => {
  const say = (topics: number, asked: number, right: number) => {
    const { word, meter } = sayKnown({ family: families[0] as FamilyId, topics, asked, right, lastAt: '2031-05-04T10:00:00.000Z' });
    return `${meter} ${word}`;
  };
  expect(say(10, 0, 0)).toBe('□□□□□ not asked yet');
  expect(say(10, 2, 0)).toBe('□□□□□ none of it yet');
  expect(say(10, 2, 1)).toBe('□□□□□ little of it');
  expect(say(10, 9, 2)).toBe('■□□□□ some of it');
  expect(say(10, 9, 6)).toBe('■■■□□ most of it');
  expect(say(10, 10, 9)).toBe('■■■■□ most of it');
  expect(say(10, 10, 10)).toBe('■■■■■ all of it');
});
