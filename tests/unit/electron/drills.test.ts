import path from 'node:path';
import { default_w } from 'ts-fsrs';
import { describe, expect, test } from 'vitest';
import type { CallArgs, CallName, CallResult } from '../../../electron/bridge/contract.ts';
import { scheduled } from '../../../electron/desk/drill-schedule.ts';
import { openDesk } from '../../../electron/desk/open-desk.ts';
import { expandForPacks } from '../../../electron/desk/open-house.ts';
import { freshFolder, freshStore, valueIn } from '../db/kit.ts';
import { demoFolder } from '../seed/demo-atlas.ts';

const noon = new Date('2026-03-04T12:00:00Z');
const later = (days: number, minutes = 0): Date => new Date(noon.getTime() + (days * 1440 + minutes) * 60_000);
const minutesFrom = (from: Date, iso: string): number => (new Date(iso).getTime() - from.getTime()) / 60_000;

describe('when a topic is asked again', () => {
  // FSRS-6 as its authors publish it (open-spaced-repetition wiki, “The Algorithm”), M: S₀(G) = w[G−1]; D₀(G) = w₄ − e^{w₅(G−1)} + 1 within [1, 10].
  const w = (i: number): number => default_w[i] as number;
  const first = (grade: number): { stability: number; difficulty: number } => ({
    stability: w(grade - 1),
    difficulty: Math.min(10, Math.max(1, w(4) - Math.exp(w(5) * (grade - 1)) + 1)),
  });

  test('a new topic answered right starts with the library’s figures for good and comes again in ten minutes', () => {
    const card = scheduled(null, true, noon);
    expect(card.stability).toBeCloseTo(first(3).stability, 6);
    expect(card.difficulty).toBeCloseTo(first(3).difficulty, 6);
    expect(minutesFrom(noon, card.due)).toBe(10);
  });

  test('a new topic answered wrong starts with those for again and comes again in a minute', () => {
    const card = scheduled(null, false, noon);
    expect(card.stability).toBeCloseTo(first(1).stability, 6);
    expect(card.difficulty).toBeCloseTo(first(1).difficulty, 6);
    expect(minutesFrom(noon, card.due)).toBe(1);
  });

  test('answered right whenever it is due, it comes in days, longer each time; answered wrong, within the hour, and it lasts less', () => {
    let [card, now] = [scheduled(null, true, noon), noon];
    const gaps: number[] = [];
    for (let i = 0; i < 5; i += 1) {
      now = new Date(card.due);
      card = scheduled(card, true, now);
      gaps.push(card.scheduled_days);
    }
    // At a retention of 0.9 the interval is the stability, in whole days.
    expect(card.scheduled_days).toBe(Math.round(card.stability));
    // The library’s own numbers, V: ts-fsrs 5.4.2, no fuzz, the default parameters.
    expect(gaps).toEqual([2, 11, 46, 163, 498]);
    const before = card.stability;
    const missed = scheduled(card, false, new Date(card.due));
    expect(minutesFrom(new Date(card.due), missed.due)).toBe(10);
    expect(missed.stability).toBeLessThan(before);
    expect(missed.lapses).toBe(1);
  });

  test('a card goes through JSON and is scheduled the same', () => {
    const card = scheduled(null, true, noon);
    expect(scheduled(JSON.parse(JSON.stringify(card)), false, later(3))).toEqual(scheduled(card, false, later(3)));
  });
});

describe('a learner at the desk', () => {
  const opened = async () => {
    let now = noon;
    const store = await freshStore({ file: path.join(freshFolder(), 'a.sqlite'), expandCode: expandForPacks, now: () => now });
    valueIn(await store.packs.load(demoFolder));
    const desk = openDesk(store);
    const ask = async <C extends CallName>(name: C, args: CallArgs<C>): Promise<CallResult<C>> =>
      valueIn((await desk[name](args as never)) as never) as CallResult<C>;
    return { ask, desk, at: (time: Date) => (now = time) };
  };

  test('a course says how much is new a day; what was wrong comes back, what was right waits; midnight brings new ones', async () => {
    const { ask, at } = await opened();
    const course = await ask('drills.saveCourse', {
      name: 'Birds',
      families: ['petrel', 'skua', 'gannet'],
      kinds: ['looks', 'name', 'grammar'],
      newPerDay: 3,
      madeAgainst: null,
    });
    const { id: learner } = await ask('drills.saveLearner', { name: 'Jory', course: course.id });
    const topics: string[] = [];
    for (let i = 0; i < 3; i += 1) {
      const next = await ask('drills.next', { learner });
      if (next.state !== 'drill') throw new Error('no drill');
      expect(next.why).toBe('new');
      expect(['looks', 'name', 'grammar']).toContain(next.topic.kind);
      const { drill } = next;
      const tried = await Promise.resolve(drill.choices.map(({ id }) => id));
      topics.push(drill.topic);
      await ask('drills.answer', { learner, topic: drill.topic, seed: drill.seed, edition: drill.edition, response: tried.slice(0, 1) });
    }
    expect(new Set(topics).size).toBe(3);
    const done = await ask('drills.next', { learner });
    expect(done).toMatchObject({ state: 'done', today: { answered: 3, fresh: 0, due: 0 } });
    expect(done.state === 'done' && done.next !== null).toBe(true);
    expect(await ask('drills.next', { learner, beyond: true })).toMatchObject({ state: 'drill', why: 'beyond' });
    at(later(0, 30));
    const back = await ask('drills.next', { learner });
    expect(back).toMatchObject({ state: 'drill', why: 'due' });
    if (back.state === 'drill') expect(topics).toContain(back.drill.topic);
    at(later(1, 30));
    expect((await ask('drills.next', { learner })).today).toMatchObject({ answered: 0, fresh: 3 });
  });

  test('what is taken for what is counted, and each drill is answered once', async () => {
    const { ask, desk } = await opened();
    const { id: learner } = await ask('drills.saveLearner', { name: 'Wenna', course: null });
    let wrong = 0;
    for (let i = 0; i < 8; i += 1) {
      const next = await ask('drills.next', { learner, beyond: true });
      if (next.state !== 'drill') throw new Error('no drill');
      const { drill } = next;
      const ids = drill.choices.map(({ id }) => id);
      const response = drill.respond.kind === 'order' ? ids : ids.slice(0, drill.respond.kind === 'one' ? 1 : drill.respond.count);
      const asked = { learner, topic: drill.topic, seed: drill.seed, edition: drill.edition, response };
      const { judgement } = await ask('drills.answer', asked);
      if (!judgement.right) wrong += 1;
      expect(await desk['drills.answer'](asked)).toMatchObject({ ok: false, trouble: { code: 'drill-answered' } });
      expect(await desk['drills.answer']({ ...asked, edition: 'older' })).toMatchObject({ ok: false, trouble: { code: 'drill-changed' } });
      expect(await desk['drills.answer']({ ...asked, response: ['none'] })).toMatchObject({
        ok: false,
        trouble: { code: 'drill-response' },
      });
    }
    const rows = await ask('drills.confusions', { learner });
    expect(wrong).toBeGreaterThan(0);
    expect(rows.reduce((sum, { count }) => sum + count, 0)).toBe(wrong);
    await ask('drills.removeLearner', { id: learner });
    expect(await ask('drills.learners', {})).toEqual([]);
  });
});
