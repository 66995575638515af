import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Edit } from '../../../db/index.ts';
import type { CallResult } from '../../../electron/bridge/contract.ts';
import type { Desk } from '../../../electron/bridge/desk.ts';
import { well } from '../../../electron/bridge/reply.ts';
import { openDesk } from '../../../electron/desk/open-desk.ts';
import { saveJudged } from '../../../electron/desk/save-judged.ts';
import { asId, compileAtlas, judgeCase, type SheetId } from '../../../reasoner/index.ts';
import { filledStore, smallPack, troubleIn, valueIn } from '../db/kit.ts';

const models = JSON.parse(readFileSync(join(smallPack, 'models.json'), 'utf8')) as { readonly id: string }[];
/** The model is called otherwise. */
const renamed = (id: string, name: string): Edit => ({ list: 'models', put: { ...models.find((one) => one.id === id), name } });

const deskWith = async (many: number) => {
  const store = await filledStore();
  const sheet = valueIn(await store.sheets.open(asId<SheetId>('found-01')));
  const verdict = judgeCase(compileAtlas(await store.atlas.read()), sheet);
  for (let n = 0; n < many; n += 1)
    valueIn(await saveJudged(store, async () => well(verdict), { ...sheet, id: asId(`own-${String(n).padStart(3, '0')}`) }, ''));
  return { store, desk: openDesk(store) };
};
const begin = async (desk: Desk, edits: Edit[]) => valueIn(await desk['changes.retell']({ of: { edits } })).token;
const stateOf = async (desk: Desk, token: string) => valueIn(await desk['changes.retelling']({ token }));
const ended = async (desk: Desk, token: string): Promise<Extract<CallResult<'changes.retelling'>, { state: 'done' }>> => {
  for (;;) {
    const state = await stateOf(desk, token);
    if (state.state === 'done') return state;
    await new Promise((turn) => setImmediate(turn));
  }
};

test('[H3] what is judged of edits of two windows does not mix', async () => {
  const { desk } = await deskWith(2);
  const [one, other] = [
    await begin(desk, [renamed('petrel-13', 'Petrel 14 Cartridge')]),
    await begin(desk, [renamed('tern-4', 'Tern of old')]),
  ];
  const [first, second] = [await ended(desk, one), await ended(desk, other)];
  expect([first.result.differ, second.result.differ]).toEqual([2, 0]);
  expect([first.result.same, second.result.same]).toEqual([0, 2]);
});

test('[H3] once the atlas is another, what was judged says that it speaks of the one before', async () => {
  const { store, desk } = await deskWith(1);
  const token = await begin(desk, [renamed('petrel-13', 'Petrel 14 Cartridge')]);
  expect((await ended(desk, token)).current).toBe(true);
  const head = valueIn(await store.changes.head());
  valueIn(await store.changes.make([renamed('tern-4', 'Tern of old')], { who: '', why: '', source: '', head }));
  expect(await stateOf(desk, token)).toMatchObject({ state: 'done', current: false, result: { differ: 1 } });
  expect((await ended(desk, await begin(desk, [renamed('petrel-13', 'Petrel 14 Cartridge')]))).current).toBe(true);
});

test('[H3] stopped, it has what was judged until then; of faults, and of a token nobody has, there is trouble', async () => {
  const { desk } = await deskWith(2);
  const token = await begin(desk, [renamed('petrel-13', 'Petrel 14 Cartridge')]);
  // Before its first turn: nothing but what is already due runs between two awaits.
  valueIn(await desk['changes.stopRetelling']({ token }));
  expect((await ended(desk, token)).result).toMatchObject({ complete: false, judged: 1, of: 2 });
  expect(troubleIn(await desk['changes.retell']({ of: { edits: [{ list: 'models', drop: 'nobody' }] } }))).toMatchObject({
    code: 'edit-invalid',
    sentence: expect.stringContaining('The change has faults'),
  });
  expect(troubleIn(await desk['changes.retell']({ of: { undo: 99 } })).code).toBe('not-found');
  expect(troubleIn(await desk['changes.retelling']({ token: '00000000-0000-4000-8000-000000000000' })).code).toBe('not-found');
});

test('[H3] of very many cases the first are told, and how many there are', async () => {
  const { desk } = await deskWith(203);
  const { result } = await ended(desk, await begin(desk, [renamed('petrel-13', 'Petrel 14 Cartridge')]));
  expect([result.cases.length, result.differ, result.judged]).toEqual([200, 203, 203]);
});
