import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { doorTo } from '../../../db/driver/door.ts';
import type { Driver } from '../../../db/driver/driver.ts';
import { sqliteDriver } from '../../../db/driver/sqlite-driver.ts';
import { versionOf } from '../../../db/driver/version.ts';
import type { PhotoId } from '../../../db/shop/case.ts';
import { type CaseShelf, caseShelf } from '../../../db/shop/case-shelf.ts';
import type { Card, Course, CourseId, LearnerId } from '../../../db/shop/learning.ts';
import { type LearningShelf, learningShelf } from '../../../db/shop/learning-shelf.ts';
import { type PhotoShelf, photoShelf } from '../../../db/shop/photo-shelf.ts';
import { type SheetShelf, sheetShelf } from '../../../db/shop/sheet-shelf.ts';
import { asId, type CaseVerdict, type ObservationId, type Sheet, type SheetId, type TopicId } from '../../../reasoner/index.ts';
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
    const { whole, saved } = valueIn(await other.sheets.opened(id));
    expect(saved).toEqual({ at: noon.toISOString(), who: 'Marit', number: 'A-2026-0001' });
    valueIn(await one.sheets.save(second, judged, versionOf(third)));
    expect(troubleIn(await other.sheets.remove(id, whole)).code).toBe('changed-since');
    valueIn(await one.sheets.save(third, judged, versionOf(second)));
    valueIn(await other.sheets.remove(id, whole));
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
    valueIn(await one.cases.describe(id, { ...first, customer: 'Pilot station' }, versionOf(first), 'Ines'));
    expect(troubleIn(await other.cases.describe(id, { ...first, notes: 'oil' }, versionOf(first)))).toMatchObject({
      code: 'changed-since',
      sentence: expect.stringContaining('What is written of the case of the sheet "mine" was changed elsewhere'),
    });
    expect(valueIn(await other.cases.open(id, null))).toMatchObject({
      customer: 'Pilot station',
      notes: '',
      describedBy: 'Ines',
      describedAt: noon.toISOString(),
    });
    valueIn(await one.learning.saveCourse(course, null));
    valueIn(await other.learning.saveCourse({ ...course, newPerDay: 6 }, versionOf(course)));
    expect(troubleIn(await one.learning.saveCourse({ ...course, newPerDay: 7 }, versionOf(course)))).toMatchObject({
      code: 'changed-since',
      sentence: expect.stringContaining('The course "First year" was changed elsewhere'),
    });
    valueIn(await one.learning.saveCourse({ ...course, families: null }, versionOf({ ...course, newPerDay: 6 })));
    expect(valueIn(await other.learning.courses())).toEqual([
      { ...course, families: null, version: versionOf({ ...course, families: null }) },
    ]);
    expect(troubleIn(await other.learning.removeCourse(course.id, versionOf(course))).code).toBe('changed-since');
    const renamed = async () => valueIn(await other.learning.saveCourse({ ...course, name: 'Second year' }));
    const asRead = versionOf({ ...course, families: null });
    expect(troubleIn(await heldUp(one.driver, renamed).learning.removeCourse(course.id, asRead)).code).toBe('changed-since');
    valueIn(await other.learning.saveCourse({ ...course, families: null }));
    valueIn(await other.learning.removeCourse(course.id, versionOf({ ...course, families: null })));
    expect(troubleIn(await one.learning.saveCourse(course, versionOf({ ...course, families: null }))).sentence).toContain(
      'was removed elsewhere',
    );
    expect(troubleIn(await one.learning.removeCourse(course.id)).code).toBe('not-found');
  });

  /** A writer that is held up, once, between what it has read and what it writes. */
  const heldUp = (driver: Driver, between: () => Promise<unknown>): Writer => {
    let left = true;
    return writerOver({
      ...driver,
      write: async (batch) => {
        if (left) {
          left = false;
          await between();
        }
        return driver.write(batch);
      },
    });
  };

  test('[H5] what comes between the reading and the writing of a save is seen', async () => {
    const [{ driver, sheets }, other] = await open();
    const sheet = await sheetOf(other);
    valueIn(await sheets.save(sheet, judged));
    const between = (work: () => Promise<unknown>) =>
      heldUp(driver, work).sheets.save({ ...sheet, title: 'held up' }, judged, versionOf(sheet));
    const titles = async () => valueIn(await other.cases.open(id, null)).history.map((entry) => entry.sheet.title);

    expect(troubleIn(await between(async () => valueIn(await other.sheets.save({ ...sheet, title: 'quick' }, judged)))).code).toBe(
      'changed-since',
    );
    expect(await titles()).toEqual([sheet.title, 'quick']);
    valueIn(await sheets.save(sheet, judged));
    expect(troubleIn(await between(async () => valueIn(await other.sheets.remove(id)))).code).toBe('changed-since');
    expect(troubleIn(await other.sheets.open(id)).code).toBe('not-found');

    valueIn(await sheets.save(sheet, judged));
    const replaced = async () => {
      valueIn(await other.sheets.remove(id));
      valueIn(await other.sheets.save({ ...sheet, title: 'anew' }, judged));
    };
    expect(troubleIn(await between(replaced)).code, 'in a case of as many entries').toBe('changed-since');
    expect(await titles()).toEqual(['anew']);
    valueIn(await sheets.remove(id));

    valueIn(await sheets.save(sheet, judged));
    const otherwise = { ...judged, verdict: { ...verdict, sentences: ['A joint that will not fit.'] } };
    valueIn(await between(async () => valueIn(await other.sheets.save(sheet, otherwise))));
    expect(await titles(), 'the same sheet told otherwise is an entry too, and neither is lost').toEqual([
      sheet.title,
      sheet.title,
      'held up',
    ]);

    const newer = { sql: `update packs set edition = '2027', hash = 'of another'`, params: [] };
    const late = await heldUp(driver, () => driver.write({ statements: [newer] })).sheets.save({ ...sheet, title: 'late' }, judged);
    expect(troubleIn(late).code).toBe('atlas-changed');
    expect((await titles()).at(-1)).toBe('held up');
  });

  test('[H5] so it is with what is said of a photograph, and with taking it out; added again, it keeps what was said', async () => {
    const [one, other] = await open();
    valueIn(await one.sheets.save(await sheetOf(one), judged));
    const [added] = valueIn(await one.photos.add(id, picture(jpeg)));
    const photo = added?.id as PhotoId;
    const [said] = valueIn(await one.photos.describe(id, photo, 'nose', null, added?.version));
    expect(said?.version).toBe(versionOf({ caption: 'nose', about: null }));
    expect(
      troubleIn(await other.photos.describe(id, photo, '', { kind: 'slot', slot: asId('compressor-wheel') }, added?.version)),
    ).toMatchObject({
      code: 'changed-since',
      place: `photograph ${photo}`,
      sentence: expect.stringContaining('What is said of the photograph was changed elsewhere'),
    });
    expect(troubleIn(await other.photos.remove(id, photo, added?.version)).code).toBe('changed-since');
    const again = valueIn(await other.photos.add(id, picture(jpeg)));
    expect(again).toEqual([said]);
    const [both] = valueIn(
      await other.photos.add(id, { ...picture(jpeg), caption: 'tail', about: { kind: 'slot', slot: asId('compressor-wheel') } }),
    );
    expect(both).toMatchObject({ caption: 'nose', about: { kind: 'slot', slot: 'compressor-wheel' } });
    const [kept] = valueIn(await other.photos.add(id, { ...picture(jpeg), about: { kind: 'slot', slot: asId('bearing-housing') } }));
    expect(kept).toEqual(both);
    const meanwhile = (caption: string) => async () => valueIn(await other.photos.describe(id, photo, caption, null));
    expect(troubleIn(await heldUp(one.driver, meanwhile('tail')).photos.describe(id, photo, '', null, both?.version)).code).toBe(
      'changed-since',
    );
    const now = versionOf({ caption: 'tail', about: null });
    expect(troubleIn(await heldUp(one.driver, meanwhile('fins')).photos.remove(id, photo, now)).code).toBe('changed-since');
    expect(valueIn(await other.photos.remove(id, photo, versionOf({ caption: 'fins', about: null })))).toEqual([]);
  });

  test('[H5] a sheet whose case was written on, or got a photograph, since it was looked at is not removed', async () => {
    const [one, other] = await open();
    valueIn(await one.sheets.save(await sheetOf(one), judged));
    const look = async () => valueIn(await one.sheets.opened(id)).whole;
    const words = { customer: '', lookedBy: 'Marit', notes: '' };
    const told: (() => Promise<unknown>)[] = [
      () => other.cases.describe(id, { ...words, notes: 'The owner calls on Friday.' }, versionOf(words)),
      () => other.photos.add(id, picture(jpeg)),
      async () => other.photos.describe(id, valueIn(await other.cases.open(id, null)).photos[0]?.id as PhotoId, 'nose', null),
    ];
    for (const change of told) {
      const before = await look();
      await change();
      expect(troubleIn(await one.sheets.remove(id, before))).toMatchObject({
        code: 'changed-since',
        sentence: expect.stringContaining('or what is kept with it, was changed elsewhere'),
      });
    }
    const last = await look();
    const meanwhile = async () => valueIn(await other.cases.describe(id, { ...words, notes: 'Sold.' }));
    expect(troubleIn(await heldUp(one.driver, meanwhile).sheets.remove(id, last)).code).toBe('changed-since');
    valueIn(await one.sheets.remove(id, await look()));
    expect(troubleIn(await one.sheets.opened(id)).code).toBe('not-found');
  });

  test('[H5] what is saved again as it is there already is no second state, and is not asked about', async () => {
    const [one, other] = await open();
    const sheet = await sheetOf(one);
    valueIn(await one.sheets.save(sheet, judged, null));
    expect(valueIn(await other.sheets.save(sheet, judged, null)).version).toBe(versionOf(sheet));
    const words = { customer: 'Pilot station', lookedBy: 'Marit', notes: '' };
    const before = versionOf({ ...words, customer: '' });
    valueIn(await one.cases.describe(id, words, before));
    expect(valueIn(await other.cases.describe(id, words, before)).version).toBe(versionOf(words));
    valueIn(await one.learning.saveCourse(course, null));
    expect(valueIn(await other.learning.saveCourse(course, null))).toBe(versionOf(course));
    expect(valueIn(await one.cases.open(id, null)).history).toHaveLength(1);
  });

  test('[H5] what comes between the reading and the writing of a photograph is seen', async () => {
    const [{ driver, sheets, photos }, other] = await open();
    const sheet = await sheetOf(other);
    const save = async () => valueIn(await sheets.save(sheet, judged));
    const remove = async () => valueIn(await other.sheets.remove(id));
    await save();
    const shows = { ...picture(jpeg), about: { kind: 'observation' as const, observation: sheet.observations[0]?.id as ObservationId } };
    expect(troubleIn(await heldUp(driver, remove).photos.add(id, picture(jpeg)))).toMatchObject({ code: 'not-found', place: 'sheet mine' });
    await save();
    const without = async () => valueIn(await other.sheets.save({ ...sheet, observations: sheet.observations.slice(1) }, judged));
    expect(troubleIn(await heldUp(driver, without).photos.add(id, shows))).toMatchObject({ code: 'not-found', place: 'about' });
    const [added] = valueIn(await photos.add(id, picture(jpeg)));
    const photo = added?.id as PhotoId;
    const takenOut = async () => valueIn(await other.photos.remove(id, photo));
    expect(troubleIn(await heldUp(driver, takenOut).photos.describe(id, photo, 'words', null))).toMatchObject({
      code: 'not-found',
      place: `photograph ${photo}`,
    });
    expect(troubleIn(await photos.remove(id, photo)).code).toBe('not-found');
    expect(await driver.all('select id from photos')).toEqual([]);
  });

  test('[H5] what comes between the reading and the writing of a decision, of its leaving as told, or of a case out of a file is seen', async () => {
    const [{ driver, sheets, cases }, other] = await open();
    const sheet = await sheetOf(other);
    const save = async () => valueIn(await other.sheets.save(sheet, judged));
    const remove = async () => valueIn(await other.sheets.remove(id));
    await save();
    const word = (decision: string) => ({ by: 'shop' as const, person: 'Osk', day: '2026-03-04', decision, ground: 'seen' });
    const theirs = async () => valueIn(await other.cases.say(id, word('It is a copy.'), 'Osk'));
    expect(troubleIn(await heldUp(driver, theirs).cases.say(id, word('It is none.'), 'Marit', null)).code).toBe('changed-since');
    const decided = async () => valueIn(await other.cases.open(id, null)).words.map((one) => one.word?.decision);
    expect(await decided()).toEqual(['It is a copy.']);
    const doubt = async () => valueIn(await other.cases.say(id, word('It may be one.'), 'Osk'));
    valueIn(await heldUp(driver, doubt).cases.say(id, word('It is none.'), 'Marit'));
    expect(await decided(), 'who says against what it is said gets it said last').toEqual([
      'It is a copy.',
      'It may be one.',
      'It is none.',
    ]);

    const leaving = { entry: 1, who: 'Marit', reason: 'The seller was told.', otherwise: 'a'.repeat(64) };
    const left = async () => valueIn(await other.cases.leave(id, { ...leaving, reason: 'It is sold.' }));
    const reasons = valueIn(await heldUp(driver, left).cases.leave(id, leaving)).left.map(({ reason }) => reason);
    expect(reasons).toEqual(['It is sold.', 'The seller was told.']);
    const savedAgain = async () => valueIn(await other.sheets.save({ ...sheet, title: 'again' }, judged));
    expect(troubleIn(await heldUp(driver, savedAgain).cases.leave(id, leaving)).code).toBe('changed-since');
    expect(valueIn(await cases.open(id, null)).left).toHaveLength(2);

    const words = { customer: 'Pilot station', lookedBy: '', notes: 'Oil.' };
    const described = async () => valueIn(await other.cases.describe(id, { ...words, notes: 'Oil at the seal.' }));
    expect(valueIn(await heldUp(driver, described).cases.describe(id, words)).notes).toBe('Oil.');

    const { bytes } = valueIn(await cases.write(id));
    await remove();
    const takeIn = (writer: Writer) => writer.cases.takeIn(bytes, 'case.zip', { as: null, who: '' });
    expect(troubleIn(await takeIn(heldUp(driver, save))).code).toBe('case-is-here');
    expect(valueIn(await cases.open(id, null)).history).toHaveLength(1);
    await remove();
    expect(valueIn(await sheets.list()).filter(({ origin }) => origin === 'own')).toEqual([]);
    expect(valueIn(await takeIn(heldUp(driver, async () => undefined))).sheet).toBe(id);
  });

  test('[H5] what comes between the reading and the writing of an answer or a learner is seen', async () => {
    const [{ driver, learning }, other] = await open();
    const learner = { id: asId<LearnerId>('jory'), name: 'Jory', course: course.id };
    const answer = { topic: asId<TopicId>('name:petrel'), seed: 1, edition: '1', response: [], right: true, confused: null };
    valueIn(await learning.saveCourse(course));
    const courseGone = async () => valueIn(await other.learning.removeCourse(course.id));
    expect(troubleIn(await heldUp(driver, courseGone).learning.saveLearner(learner))).toMatchObject({
      code: 'not-found',
      place: 'course c',
    });
    valueIn(await learning.saveLearner({ ...learner, course: null }));
    const again = async () => valueIn(await other.learning.keepAnswer(learner.id, answer, () => card));
    expect(troubleIn(await heldUp(driver, again).learning.keepAnswer(learner.id, answer, () => card)).code).toBe('drill-answered');
    const learnerGone = async () => valueIn(await other.learning.removeLearner(learner.id));
    expect(troubleIn(await heldUp(driver, learnerGone).learning.keepAnswer(learner.id, { ...answer, seed: 2 }, () => card))).toMatchObject({
      code: 'not-found',
      place: 'learner jory',
    });
  });

  test('[H5] of what two write at once, by turns a seed decides, all that was acknowledged is there once and nothing else', async () => {
    const writers = await open();
    const sheet = await sheetOf(writers[0]);
    const ids = [0, 1, 2].map((n) => asId<SheetId>(`s${n}`));
    const learner = asId<LearnerId>('jory');
    valueIn(await writers[0].learning.saveLearner({ id: learner, name: 'Jory', course: null }));
    const kept = { sheets: [] as string[], details: [] as string[], answers: [] as number[], photos: new Set<string>() };
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
