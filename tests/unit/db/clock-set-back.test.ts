import { describe, expect, test } from 'vitest';
import type { LearnerId } from '../../../db/answers.ts';
import type { Store } from '../../../db/index.ts';
import type { Sheet, SheetId } from '../../../reasoner/index.ts';
import { keepSheet } from './keep-sheet.ts';
import { filledStore, valueIn } from './kit.ts';
import { jpeg, png } from './photos/pictures.ts';

/** What a clock says, one after another: it is set back by two hours after the second. */
const [early, late, back, after] = [
  '2026-03-04T10:00:00.000Z',
  '2026-03-04T11:00:00.000Z',
  '2026-03-04T09:00:00.000Z',
  '2026-03-04T09:30:00.000Z',
] as const;

const shop = async () => {
  let now: string = early;
  const store: Store = await filledStore({ now: () => new Date(now) });
  const sheet = valueIn(await store.sheets.open('found-01' as SheetId));
  const at = (time: string) => {
    now = time;
  };
  const save = async (id: string, title: string, time: string) => {
    at(time);
    valueIn(await keepSheet(store, { ...sheet, id: id as SheetId, title } satisfies Sheet));
  };
  return { store, at, save };
};
const own = async (store: Store) => valueIn(await store.sheets.list()).filter(({ origin }) => origin === 'own');

describe('a clock that is set back', () => {
  test('[P1] sheets and cases saved last stand first, with the time they say', async () => {
    const { store, save } = await shop();
    await save('a', 'one', early);
    await save('b', 'two', late);
    await save('c', 'three', back);
    expect((await own(store)).map(({ id, savedAt }) => [id, savedAt])).toEqual([
      ['c', back],
      ['b', late],
      ['a', early],
    ]);
    await save('a', 'one again', after);
    expect((await own(store)).map(({ id }) => id)).toEqual(['a', 'c', 'b']);
    expect(valueIn(await store.cases.list({})).map(({ sheet }) => sheet)).toEqual(['a', 'c', 'b']);
    // A sheet saved twice running stays first.
    await save('a', 'one once more', back);
    expect((await own(store)).map(({ id }) => id)).toEqual(['a', 'c', 'b']);
    valueIn(await store.sheets.remove('a' as SheetId));
    await save('d', 'four', early);
    expect((await own(store)).map(({ id }) => id)).toEqual(['d', 'c', 'b']);
  });

  test('[P1] a history is told in the order it was entered, and as of a time nothing falls out of its middle', async () => {
    const { store, save } = await shop();
    for (const [title, time] of [
      ['one', early],
      ['two', late],
      ['three', back],
    ] as const)
      await save('a', title, time);
    const titles = async (asOf: string | null) =>
      valueIn(await store.cases.open('a' as SheetId, asOf)).history.map(({ sheet }) => sheet.title);
    expect(await titles(null)).toEqual(['one', 'two', 'three']);
    expect(await titles('2026-03-04T10:30:00.000Z')).toEqual(['one', 'two', 'three']);
    await save('b', 'first', early);
    await save('b', 'second', late);
    expect(valueIn(await store.cases.open('b' as SheetId, early)).history.map(({ sheet }) => sheet.title)).toEqual(['first']);
  });

  test('[P2] photographs stand as they were added; learners as they came', async () => {
    const { store, at, save } = await shop();
    await save('a', 'one', early);
    const end = jpeg.length - 2;
    for (const [i, time] of [late, back, early, after].entries()) {
      at(time);
      const bytes = Buffer.concat([jpeg.subarray(0, end), Buffer.alloc(i + 1), jpeg.subarray(end)]);
      const about = { name: 'p', bytes, thumbnail: png, caption: `${i}`, about: null };
      valueIn(await store.photos.add('a' as SheetId, about));
      valueIn(await store.learning.saveLearner({ id: `l${3 - i}` as LearnerId, name: `${i}`, course: null }));
    }
    const { photos } = valueIn(await store.cases.open('a' as SheetId, null));
    expect(photos.map(({ caption, addedAt }) => [caption, addedAt])).toEqual([
      ['0', late],
      ['1', back],
      ['2', early],
      ['3', after],
    ]);
    expect(valueIn(await store.learning.learners()).map(({ name }) => name)).toEqual(['0', '1', '2', '3']);
    // Removed and added again, a photograph is the last one.
    const [first] = photos;
    if (first === undefined) throw new Error('no photograph');
    valueIn(await store.photos.remove('a' as SheetId, first.id));
    const bytes = Buffer.concat([jpeg.subarray(0, end), Buffer.alloc(1), jpeg.subarray(end)]);
    const again = valueIn(await store.photos.add('a' as SheetId, { name: 'p', bytes, thumbnail: png, caption: 'again', about: null }));
    expect(again.map(({ caption }) => caption)).toEqual(['1', '2', '3', 'again']);
  });
});
