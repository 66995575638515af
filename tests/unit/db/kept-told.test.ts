import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { versionOf } from '../../../db/index.ts';
import { asId, type Sheet, type SheetId } from '../../../reasoner/index.ts';
import { keepSheet } from './keep-sheet.ts';
import { filledStore, freshConnection, freshFolder, troubleIn, valueIn } from './kit.ts';

const shop = async () => {
  const clock = { now: '2026-03-04T12:00:00.000Z' };
  const store = await filledStore({ now: () => new Date(clock.now) });
  const sample = valueIn(await store.sheets.open(asId<SheetId>('found-01')));
  const unit = (id: string, rest: Partial<Sheet> = {}): Sheet => ({ ...sample, id: asId<SheetId>(id), title: id, ...rest });
  return { store, clock, unit };
};

describe('what cases were told last', () => {
  test('[P7] is the last entry of each, with who saved it and what it was told', async () => {
    const { store, clock, unit } = await shop();
    valueIn(await keepSheet(store, unit('a'), 'Marit'));
    valueIn(await keepSheet(store, unit('b'), 'Osk'));
    clock.now = '2026-03-06T12:00:00.000Z';
    valueIn(await keepSheet(store, unit('a', { observations: [] }), 'Ines'));
    const told = valueIn(await store.cases.lastTold());
    expect(valueIn(await store.cases.countTold())).toBe(told.length);
    expect(
      told.map(({ sheet, number, entry, who, savedAt, saved, left }) => ({
        sheet,
        number,
        entry,
        who,
        savedAt,
        seen: saved.observations.length,
        left,
      })),
    ).toEqual([
      { sheet: 'a', number: 'A-2026-0001', entry: 2, who: 'Ines', savedAt: '2026-03-06T12:00:00.000Z', seen: 0, left: null },
      {
        sheet: 'b',
        number: 'A-2026-0002',
        entry: 1,
        who: 'Osk',
        savedAt: '2026-03-04T12:00:00.000Z',
        seen: unit('b').observations.length,
        left: null,
      },
    ]);
    expect(told[0]?.verdict).toEqual(valueIn(await store.cases.open(asId('a'), null)).history[1]?.verdict);
  });

  test('[P7] a case from before entries were kept was told nothing, and is not counted', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const store = await filledStore({ file });
    const sample = valueIn(await store.sheets.open(asId<SheetId>('found-01')));
    for (const id of ['a', 'b']) valueIn(await keepSheet(store, { ...sample, id: asId<SheetId>(id) }));
    // As the migration leaves it that makes cases of sheets.
    const onDisk = await freshConnection(file);
    await onDisk.run(`delete from case_entries where sheet = 'a'`);
    expect(valueIn(await store.cases.list({}))).toHaveLength(2);
    expect(valueIn(await store.cases.lastTold()).map(({ sheet }) => sheet)).toEqual(['b']);
    expect(valueIn(await store.cases.countTold())).toBe(1);
  });

  test('[P7] left as told is kept with its reason, and stands for that entry alone', async () => {
    const { store, clock, unit } = await shop();
    const a = asId<SheetId>('a');
    valueIn(await keepSheet(store, unit('a'), 'Marit'));
    const otherwise = versionOf('what would be said');
    const leaving = { entry: 1, otherwise, reason: 'The customer has the unit.', who: 'Osk' };
    const file = valueIn(await store.cases.leave(a, leaving));
    expect(file.left).toEqual([{ at: '2026-03-04T12:00:00.000Z', who: 'Osk', reason: 'The customer has the unit.', entry: 1 }]);
    expect(file.history, 'no entry is made of it').toHaveLength(1);
    const left = async () => valueIn(await store.cases.lastTold()).map((one) => one.left);
    expect(await left()).toEqual([otherwise]);
    valueIn(await store.cases.leave(a, { ...leaving, otherwise: versionOf('what else would be said') }));
    expect(await left(), 'the last one holds').toEqual([versionOf('what else would be said')]);
    clock.now = '2026-03-06T12:00:00.000Z';
    valueIn(await keepSheet(store, unit('a', { observations: [] })));
    expect(await left(), 'saved since, it is another entry').toEqual([null]);
    expect(valueIn(await store.cases.open(a, '2026-03-05T00:00:00.000Z')).left).toHaveLength(2);
    expect(valueIn(await store.cases.open(a, null)).left).toHaveLength(2);
  });

  test('[H5] a case that was saved since it was judged is not left as told', async () => {
    const { store, unit } = await shop();
    valueIn(await keepSheet(store, unit('a')));
    valueIn(await keepSheet(store, unit('a', { observations: [] })));
    const leaving = { entry: 1, otherwise: versionOf('x'), reason: 'x', who: '' };
    expect(troubleIn(await store.cases.leave(asId('a'), leaving))).toMatchObject({
      code: 'changed-since',
      sentence: expect.stringContaining('was saved since it was judged here'),
    });
    expect(troubleIn(await store.cases.leave(asId('nowhere'), leaving))).toMatchObject({ code: 'not-found' });
    expect(valueIn(await store.cases.open(asId('a'), null)).left).toEqual([]);
  });
});
