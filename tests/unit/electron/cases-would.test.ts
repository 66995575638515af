import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import type { Edit } from '../../../db/index.ts';
import type { NotMade } from '../../../electron/bridge/change-calls.ts';
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
  return { store, desk: openDesk(store, undefined, undefined, dirname(smallPack)) };
};
const beginOf = async (desk: Desk, of: NotMade) => valueIn(await desk['changes.retell']({ of })).token;
const begin = (desk: Desk, edits: Edit[]) => beginOf(desk, { edits });
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

test('[H3] what cases would be told is told before a pack is taken out, put in from the program or brought in another edition, and before that is undone', async () => {
  const { store, desk } = await deskWith(1);
  const [one] = (await ended(desk, await beginOf(desk, { takeOut: 'small' }))).result.cases;
  expect([one?.how, one?.how === 'judged no more' && one.faults.length > 0]).toEqual(['judged no more', true]);
  expect(troubleIn(await desk['changes.retell']({ of: { takeOut: 'nobody' } })).code).toBe('not-found');
  expect(troubleIn(await desk['changes.retell']({ of: { putIn: 'nobody' } })).code).toBe('not-found');
  expect((await ended(desk, await beginOf(desk, { putIn: 'small' }))).result, 'it is there already').toMatchObject({ same: 1, differ: 0 });

  // Another edition of the same pack, handed over file by file; in it the model is called otherwise.
  let token: string | null = null;
  for (const name of readdirSync(smallPack, { recursive: true, encoding: 'utf8' })) {
    if (!/\.\w+$/.test(name)) continue;
    const text = readFileSync(join(smallPack, name), 'utf8');
    const data = Buffer.from(
      name === 'models.json' ? text.replace('Petrel 13 Cartridge', 'Petrel 14 Cartridge') : text.replace('2026-03-02', '2026-05-01'),
    ).toString('base64');
    ({ token } = valueIn(await desk['packs.handIn']({ token, path: `small/${name}`, data })));
  }
  const bring = { token: token as unknown as string, signerIsFine: false, holds: {} };
  const would = await ended(desk, await beginOf(desk, { bring }));
  expect([would.current, would.result.cases.map(({ how }) => how)]).toEqual([true, ['told otherwise']]);
  const [there] = would.result.cases;
  valueIn(await desk['packs.bring'](bring));
  const done = await ended(desk, await beginOf(desk, { edits: [renamed('petrel-13', 'Petrel 13 Cartridge')] }));
  const [back] = done.result.cases;
  expect(back?.how === 'told otherwise' && there?.how === 'told otherwise' && [back.is, back.would]).toEqual(
    there?.how === 'told otherwise' && [there.would, there.is],
  );
  expect(troubleIn(await desk['changes.retell']({ of: { bring } })).code, 'it was brought in').toBe('not-found');

  valueIn(await store.packs.remove('small'));
  const [latest] = valueIn(await store.changes.list(null, 1, null));
  for (const of of [{ undo: latest?.change ?? 0 }, { putIn: 'small' }])
    expect((await ended(desk, await beginOf(desk, of))).result.cases.map(({ how }) => how)).toEqual(['judged again']);
});
