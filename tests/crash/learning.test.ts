import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { openSqlite } from '../../db/driver/open-sqlite.ts';
import { openScratch } from '../../db/driver/scratch.ts';
import { type CourseId, type LearnerId, openStore } from '../../db/index.ts';
import { layoutsOf } from '../../db/mend/layouts.ts';
import { learningOf, learningPutBack } from '../../db/mend/learning-put-back.ts';
import { openSource } from '../../db/mend/source.ts';
import { scheduled } from '../../electron/desk/drill-schedule.ts';
import { asId, type FamilyId, type TopicId } from '../../reasoner/index.ts';
import { filledStore, freshConnection, freshFolder, freshStore, noon, troubleIn, valueIn } from '../unit/db/kit.ts';

const pageSize = 4096;
const [wenna, osk] = [asId<LearnerId>('wenna'), asId<LearnerId>('osk')];
const topicsEach = 20;

/** A closed atlas in which two people have learnt, one by a course: three answers to each of twenty topics, every third of them wrong. */
const learntIn = async (): Promise<string> => {
  const file = join(freshFolder(), 'atlas.sqlite');
  let now = noon;
  const store = await filledStore({ file, now: () => now });
  const course = asId<CourseId>('first-week');
  valueIn(
    await store.learning.saveCourse({
      id: course,
      name: 'First week',
      families: [asId<FamilyId>('petrel')],
      kinds: ['looks'],
      newPerDay: 4,
    }),
  );
  valueIn(await store.learning.saveLearner({ id: wenna, name: 'Wenna', course }));
  valueIn(await store.learning.saveLearner({ id: osk, name: 'Osk', course: null }));
  for (const learner of [wenna, osk])
    for (let round = 0; round < 3; round += 1)
      for (let n = 0; n < topicsEach; n += 1) {
        now = new Date(now.getTime() + 3_600_000);
        const topic = asId<TopicId>(`looks:petrel+skua-${n}`);
        const right = (n + round) % 3 > 0;
        const confused = right
          ? null
          : ({
              asked: { kind: 'model', id: `asked-${n}`, text: 'What it was' },
              answered: { kind: 'model', id: `answered-${n}`, text: 'What it was taken for' },
            } as const);
        const answer = { topic, seed: round, edition: `the small pack ${'x'.repeat(300)}`, response: [`choice-${n}`], right, confused };
        valueIn(await store.learning.keepAnswer(learner, answer, (card, at) => scheduled(card, right, at)));
      }
  await store.close();
  return file;
};

let whole: Buffer;
beforeAll(async () => {
  whole = readFileSync(await learntIn());
});

/** A copy with some pages (the first is 1) overwritten. */
const spoilt = (pages: readonly number[]): string => {
  const bytes = Buffer.from(whole);
  for (const page of pages) bytes.fill(0xa5, (page - 1) * pageSize, page * pageSize);
  const copy = join(freshFolder(), 'atlas.sqlite');
  writeFileSync(copy, bytes);
  return copy;
};

const rootOf = async (table: string): Promise<number> => {
  const connection = await freshConnection(spoilt([]));
  const [found] = await connection.all<{ rootpage: number }>('select rootpage from sqlite_master where name = ?', [table]);
  await connection.close();
  return found?.rootpage ?? Number.NaN;
};

/** Leaf pages of trees without row ids (SQLite's file format: page type 10) on which this text stands. */
const leavesWith = (text: string): number[] => {
  const pages: number[] = [];
  for (let page = 2; page <= whole.length / pageSize; page += 1) {
    const bytes = whole.subarray((page - 1) * pageSize, page * pageSize);
    if (bytes[0] === 10 && bytes.includes(text)) pages.push(page);
  }
  return pages;
};

/** What was learnt, of the pages of a file. */
const recoverLearning = async (file: string) => {
  const scratch = await openScratch();
  const source = openSource(file, null, await layoutsOf(scratch));
  await scratch.close();
  const tables = ['courses', 'learners', 'drill_cards', 'drill_answers'];
  const rows = new Map(tables.map((name) => [name, [...source.table(name).rows.values()].map(({ row }) => row)]));
  const complete = tables.every((name) => source.table(name).complete);
  source.close();
  return { ...learningOf(rows), complete };
};
type RecoveredLearning = Awaited<ReturnType<typeof recoverLearning>>;

/** A store into which it was put back. */
const storeWith = async (recovered: RecoveredLearning) => {
  const file = join(freshFolder(), 'atlas.sqlite');
  const { driver } = await openSqlite(file, { busyMs: 100, readOnly: false });
  const { batch, value } = learningPutBack(recovered, scheduled);
  valueIn(await driver.write(batch ?? { statements: [] }));
  await driver.close();
  return { anew: await freshStore({ file, now: () => noon }), back: value };
};

const recordOf = async (from: Awaited<ReturnType<typeof freshStore>>, learner: LearnerId) => valueIn(await from.learning.record(learner));

describe('what was learnt, out of a damaged file', () => {
  test('[P3] of a sound file everything is read and put back as it was', async () => {
    const recovered = await recoverLearning(spoilt([]));
    expect(recovered).toMatchObject({
      complete: true,
      courses: { length: 1 },
      learners: { length: 2 },
      answers: { length: 6 * topicsEach },
    });
    const { anew, back } = await storeWith(recovered);
    expect(back).toEqual({
      courses: 1,
      learners: 2,
      answers: 6 * topicsEach,
      topics: 2 * topicsEach,
      nameless: [],
      withoutCourse: [],
      answersMissing: 0,
      rescheduled: 0,
    });
    const before = await freshStore({ file: spoilt([]), now: () => noon });
    for (const learner of [wenna, osk]) expect(await recordOf(anew, learner)).toEqual(await recordOf(before, learner));
    expect(valueIn(await anew.learning.learners())).toEqual(valueIn(await before.learning.learners()));
    expect(valueIn(await anew.learning.courses())).toEqual(valueIn(await before.learning.courses()));
  });

  test('[P3] whichever page is overwritten: what is read is as it was, and what is missing is known to be missing', async () => {
    const all = await recoverLearning(spoilt([]));
    const lines = (rows: readonly unknown[]) => rows.map((row) => JSON.stringify(row));
    const known = {
      courses: new Set(lines(all.courses)),
      learners: new Set(lines(all.learners)),
      cards: new Set(lines(all.cards)),
      answers: new Set(lines(all.answers)),
    };
    let lossy = 0;
    for (let page = 2; page <= whole.length / pageSize; page += 1) {
      const read = await recoverLearning(spoilt([page]));
      for (const table of ['courses', 'learners', 'cards', 'answers'] as const) {
        for (const line of lines(read[table])) expect(known[table].has(line), `page ${page}: ${line}`).toBe(true);
        if (read[table].length < all[table].length) {
          expect(read.complete, `page ${page}, ${table}`).toBe(false);
          lossy += 1;
        }
      }
    }
    expect(lossy).toBeGreaterThan(8);
  });

  test('[P3] a page of answers lost: all others are kept, how many are gone is counted, and learning goes on', async () => {
    const leaves = leavesWith('"answered-1"').filter((page) => whole.subarray((page - 1) * pageSize, page * pageSize).includes('osk'));
    const copy = spoilt([leaves[0] ?? Number.NaN]);
    expect(troubleIn(await openStore(copy)).code).toBe('database-damaged');
    const recovered = await recoverLearning(copy);
    expect(recovered.complete).toBe(false);
    const lost = 6 * topicsEach - recovered.answers.length;
    expect(lost).toBeGreaterThan(0);
    expect(lost).toBeLessThan(15);
    const { anew, back } = await storeWith(recovered);
    expect(back).toMatchObject({ answersMissing: lost, rescheduled: 0, topics: 2 * topicsEach });
    const { answers } = await recordOf(anew, osk);
    const one = { topic: asId<TopicId>('looks:gannet+gannet'), seed: 9, edition: 'small', response: ['a'], right: true, confused: null };
    valueIn(await anew.learning.keepAnswer(osk, one, (card, at) => scheduled(card, true, at)));
    expect((await recordOf(anew, osk)).answers).toHaveLength(answers.length + 1);
  });

  test('[P3] cards lost are worked out again from the answers, to the same days', async () => {
    const leaves = leavesWith('"stability"');
    expect(leaves.length).toBeGreaterThan(1);
    const recovered = await recoverLearning(spoilt(leaves.slice(0, 1)));
    expect(recovered.cards.length).toBeLessThan(2 * topicsEach);
    const { anew, back } = await storeWith(recovered);
    expect(back.rescheduled).toBe(2 * topicsEach - recovered.cards.length);
    const before = await freshStore({ file: spoilt([]), now: () => noon });
    for (const learner of [wenna, osk]) expect((await recordOf(anew, learner)).cards).toEqual((await recordOf(before, learner)).cards);
  });

  test('[P3] the courses lost, the learners lost: what they learnt is kept all the same, and who goes on without is named', async () => {
    const withoutCourses = await recoverLearning(spoilt([await rootOf('courses')]));
    const { anew: one, back: first } = await storeWith(withoutCourses);
    expect(first).toMatchObject({
      courses: 0,
      learners: 2,
      answers: 6 * topicsEach,
      withoutCourse: ['Wenna'],
    });
    expect((await recordOf(one, wenna)).learner).toEqual({ id: 'wenna', name: 'Wenna', course: null, level: 'measured' });

    const withoutLearners = await recoverLearning(spoilt([await rootOf('learners')]));
    const { anew: other, back: second } = await storeWith(withoutLearners);
    expect(second).toMatchObject({
      learners: 2,
      answers: 6 * topicsEach,
      nameless: ['learner osk', 'learner wenna'],
    });
    expect((await recordOf(other, wenna)).answers).toHaveLength(3 * topicsEach);
  });
});
