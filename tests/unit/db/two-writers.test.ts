import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { type CaseShelf, caseShelf } from '../../../db/cases/case-shelf.ts';
import { type PhotoShelf, photoShelf } from '../../../db/cases/photo-shelf.ts';
import type { Card, Course, CourseId, LearnerId } from '../../../db/drills/learning.ts';
import { type LearningShelf, learningShelf } from '../../../db/drills/learning-shelf.ts';
import type { Driver } from '../../../db/driver/driver.ts';
import { sqliteDriver } from '../../../db/driver/sqlite-driver.ts';
import { versionOf } from '../../../db/driver/version.ts';
import { type SheetShelf, sheetShelf } from '../../../db/sheets/sheet-shelf.ts';
import { doorTo } from '../../../db/store/door.ts';
import { asId, type CaseVerdict, type Sheet, type SheetId } from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { httpDriver, httpStore } from './http-store.ts';
import { filledStore, freshConnection, freshFolder, noon, troubleIn, valueIn } from './kit.ts';
import { jpeg, png, webp } from './photos/pictures.ts';

interface Writer {
  readonly driver: Driver;
  readonly sheets: SheetShelf;
  readonly cases: CaseShelf;
  readonly photos: PhotoShelf;
  readonly learning: LearningShelf;
}

/** Each writer has a door of its own, as two programs have. */
const writerOver = (driver: Driver): Writer => {
  const door = doorTo(driver, () => noon);
  return { driver, sheets: sheetShelf(door, {}), cases: caseShelf(door), photos: photoShelf(door), learning: learningShelf(door) };
};

const filledFile = async (): Promise<string> => {
  const file = join(freshFolder(), 'atlas.sqlite');
  const store = await filledStore({ file });
  await store.close();
  return file;
};

const overOneFile = async (): Promise<[Writer, Writer]> => {
  const file = await filledFile();
  const open = async () => {
    const connection = await freshConnection(file, 60_000);
    await connection.script('pragma journal_mode = wal; pragma foreign_keys = on;');
    return writerOver(sqliteDriver(connection));
  };
  return [await open(), await open()];
};

const overHttp = async (): Promise<[Writer, Writer]> => {
  const store = await httpStore(await filledFile());
  onTestFinished(() => store.close());
  return [writerOver(httpDriver(store.port)), writerOver(httpDriver(store.port))];
};

const id = asId<SheetId>('mine');
const verdict: CaseVerdict = { kind: 'contradiction', edition: 'small 2026-03-02', sentences: ['Two blade counts.'] };
const judged = { verdict, who: 'Marit' };
const card: Card = {
  due: '2026-03-05',
  stability: 1,
  difficulty: 1,
  elapsed_days: 0,
  scheduled_days: 1,
  learning_steps: 0,
  reps: 1,
  lapses: 0,
  state: 1,
};
const course: Course = { id: asId<CourseId>('c'), name: 'First year', families: [asId('petrel')], kinds: null, newPerDay: 5 };
const picture = (bytes: Buffer) => ({ name: 'a.jpg', bytes, thumbnail: png, caption: '', about: null });

describe.each([
  ['two programs on one file', overOneFile],
  ['two programs on a store over HTTP', overHttp],
])('[H5] %s', (_, open) => {
  const sheetOf = async ({ sheets }: Writer): Promise<Sheet> => ({ ...valueIn(await sheets.open(asId('found-01'))), id });

  test('[H5] a sheet saved over one that somebody else has saved since is refused, and saved over the one that is there', async () => {
    const [one, other] = await open();
    const sheet = await sheetOf(one);
    const second = { ...sheet, title: 'second' };
    const third = { ...sheet, title: 'third' };
    valueIn(await one.sheets.save(sheet, judged, null));
    expect(troubleIn(await other.sheets.save(second, judged, null))).toMatchObject({
      code: 'changed-since',
      sentence: expect.stringContaining('made elsewhere'),
    });
    valueIn(await other.sheets.save(second, judged, versionOf(sheet)));
    const refused = troubleIn(await one.sheets.save(third, judged, versionOf(sheet)));
    expect(refused).toEqual({
      code: 'changed-since',
      place: 'sheet mine',
      sentence:
        'The sheet "mine" was changed elsewhere since it was opened here, so this was not saved over it. Look at both, then decide.',
    });
    expect(valueIn(await one.sheets.open(id)).title).toBe('second');
    valueIn(await one.sheets.save(third, judged, versionOf(second)));
    expect(valueIn(await other.cases.open(id, null)).history.map(({ sheet: { title } }) => title)).toEqual([
      sheet.title,
      'second',
      'third',
    ]);
    expect(troubleIn(await other.sheets.remove(id, versionOf(second))).code).toBe('changed-since');
    valueIn(await other.sheets.remove(id, versionOf(third)));
    expect(troubleIn(await one.sheets.save(sheet, judged, versionOf(third))).sentence).toContain('was removed elsewhere');
    expect(troubleIn(await one.sheets.remove(id)).code).toBe('not-found');
    valueIn(await one.sheets.save(sheet, judged));
  });

  test('[H5] a sample is what its own copy is made against', async () => {
    const [one, other] = await open();
    const sample = valueIn(await one.sheets.open(asId('found-01')));
    valueIn(await one.sheets.save({ ...sample, title: 'mine' }, judged, versionOf(sample)));
    expect(troubleIn(await other.sheets.save({ ...sample, title: 'yours' }, judged, versionOf(sample))).code).toBe('changed-since');
    expect(troubleIn(await other.sheets.remove(asId('plan-01'))).code).toMatch(/sheet-is-sample|not-found/);
  });

  test('[H5] so it is with what is written of a case, and with a course', async () => {
    const [one, other] = await open();
    valueIn(await one.sheets.save(await sheetOf(one), judged));
    const first = { customer: '', lookedBy: 'Marit', notes: '' };
    valueIn(await one.cases.describe(id, { ...first, customer: 'Pilot station' }, versionOf(first)));
    expect(troubleIn(await other.cases.describe(id, { ...first, notes: 'oil' }, versionOf(first)))).toMatchObject({
      code: 'changed-since',
      sentence: expect.stringContaining('What is written of the case of the sheet "mine" was changed elsewhere'),
    });
    expect(valueIn(await other.cases.open(id, null))).toMatchObject({ customer: 'Pilot station', notes: '' });
    valueIn(await one.learning.saveCourse(course, null));
    valueIn(await other.learning.saveCourse({ ...course, newPerDay: 6 }, versionOf(course)));
    expect(troubleIn(await one.learning.saveCourse({ ...course, newPerDay: 7 }, versionOf(course)))).toMatchObject({
      code: 'changed-since',
      sentence: expect.stringContaining('The course "First year" was changed elsewhere'),
    });
    valueIn(await one.learning.saveCourse({ ...course, families: null }, versionOf({ ...course, newPerDay: 6 })));
    expect(valueIn(await other.learning.courses())).toEqual([{ ...course, families: null }]);
    valueIn(await other.learning.removeCourse(course.id));
    expect(troubleIn(await one.learning.saveCourse(course, versionOf({ ...course, families: null }))).sentence).toContain(
      'was removed elsewhere',
    );
    expect(troubleIn(await one.learning.removeCourse(course.id)).code).toBe('not-found');
  });

  test('[H5] of what two write at once, by turns a seed decides, all that was acknowledged is there once and nothing else', async () => {
    const writers = await open();
    const sheet = await sheetOf(writers[0]);
    const ids = [0, 1, 2].map((n) => asId<SheetId>(`s${n}`));
    const learner = asId<LearnerId>('jory');
    valueIn(await writers[0].learning.saveLearner({ id: learner, name: 'Jory', course: null }));
    const kept = { sheets: [] as string[], details: [] as string[], answers: [] as number[], photos: new Set<string>() };
    let refused = 0;
    const run = async (writer: Writer, seed: number): Promise<void> => {
      const dice = new Dice(seed);
      for (let step = 0; step < 40; step += 1) {
        const name = dice.one(ids);
        const title = `${seed}.${step}`;
        const opened = await writer.sheets.open(name);
        const against = opened.ok ? versionOf(opened.value) : null;
        const what = dice.whole(0, 3);
        const outcome =
          what === 0 || !opened.ok
            ? await writer.sheets.save({ ...sheet, id: name, title }, judged, against)
            : what === 1
              ? await writer.cases.describe(name, { customer: title, lookedBy: '', notes: '' })
              : what === 2
                ? await writer.learning.keepAnswer(
                    learner,
                    { topic: asId('name:petrel'), seed: seed * 1000 + step, edition: '1', response: [], right: true, confused: null },
                    (before) => ({ ...card, reps: (before?.reps ?? 0) + 1 }),
                  )
                : await writer.photos.add(name, picture(dice.one([jpeg, png, webp])));
        if (!outcome.ok) {
          expect(outcome.trouble.code).toBe('changed-since');
          refused += 1;
        } else if (what === 0 || !opened.ok) kept.sheets.push(`${name} ${title}`);
        else if (what === 1) kept.details.push(`${name} ${title}`);
        else if (what === 2) kept.answers.push(seed * 1000 + step);
      }
    };
    await Promise.all([run(writers[0], 1), run(writers[1], 2)]);
    const [{ driver, cases, learning }] = writers;
    const histories = await Promise.all(ids.map(async (name) => valueIn(await cases.open(name, null))));
    expect(histories.flatMap(({ sheet: name, history }) => history.map((entry) => `${name} ${entry.sheet.title}`)).sort()).toEqual(
      [...kept.sheets].sort(),
    );
    const words = await driver.all<{ sheet: string; customer: string }>(`select sheet, customer from case_details where n > 1`);
    expect(words.map((row) => `${row.sheet} ${row.customer}`).sort()).toEqual([...kept.details].sort());
    const record = valueIn(await learning.record(learner));
    expect(record.answers.map(({ seed }) => seed).sort()).toEqual([...kept.answers].sort());
    expect([...record.cards.values()].map(({ reps }) => reps)).toEqual([kept.answers.length]);
    expect(new Set(histories.map(({ number }) => number)).size).toBe(ids.length);
    expect(await driver.all('select * from pragma_foreign_key_check')).toEqual([]);
    expect(kept.sheets.length).toBeGreaterThan(10);
  });
});
