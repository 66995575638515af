import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Bridge, CallName } from '../../../electron/bridge/contract.ts';
import { well } from '../../../electron/bridge/reply.ts';
import { openDesk } from '../../../electron/desk/open-desk.ts';
import { saveJudged } from '../../../electron/desk/save-judged.ts';
import { asId, compileAtlas, judgeCase, type SheetId } from '../../../reasoner/index.ts';
import { CasesRun, type CasesStand, type NotMade } from '../../../renderer/told/casesRun.ts';
import { sayCasesTold } from '../../../renderer/told/sayCasesTold.ts';
import { filledStore, smallPack, valueIn } from '../db/kit.ts';

const models = JSON.parse(readFileSync(join(smallPack, 'models.json'), 'utf8')) as { readonly id: string }[];
const called = (name: string): NotMade => ({
  edits: [{ list: 'models', put: { ...models.find(({ id }) => id === 'petrel-13'), name } }],
});

/** Runs over a real desk with some cases, and all that is asked of it, in order. `held`: calls that wait until they are let go. */
const runOver = async (cases: number) => {
  const store = await filledStore();
  const sheet = valueIn(await store.sheets.open(asId<SheetId>('found-01')));
  const verdict = judgeCase(compileAtlas(await store.atlas.read()), sheet);
  for (let n = 0; n < cases; n += 1) valueIn(await saveJudged(store, async () => well(verdict), { ...sheet, id: asId(`own-${n}`) }, ''));
  const desk = openDesk(store);
  const asked: { readonly name: CallName; readonly args: { readonly token?: string; readonly of?: NotMade } }[] = [];
  const waiting: { readonly name: CallName; go(): void }[] = [];
  const held = new Set<CallName>();
  const ask = (async (name: CallName, args: object) => {
    asked.push({ name, args });
    const answer = () => (desk[name] as (of: unknown) => Promise<unknown>)(args);
    // How far it is, is asked at once and told late: by then it may be nobody's any more.
    const told = name === 'changes.retelling' ? await answer() : null;
    if (held.has(name)) await new Promise<void>((go) => waiting.push({ name, go }));
    return told ?? answer();
  }) as unknown as Bridge['ask'];
  const run = new CasesRun({ ask }, () => new Promise((turn) => setImmediate(turn)));
  const stops = () => asked.flatMap(({ name, args }) => (name === 'changes.stopRetelling' ? [args.token] : []));
  const begun = () => asked.filter(({ name }) => name === 'changes.retell').map(({ args }) => args.of);
  return { run, held, waiting, stops, begun };
};
const heardIn = (heard: CasesStand[]) => (stands: CasesStand) => void heard.push(stands);

test('[H3] a run tells how far it is and what came of it, and then nothing more', async () => {
  const { run, stops } = await runOver(2);
  const heard: CasesStand[] = [];
  await run.start(called('Petrel 14 Cartridge'), heardIn(heard));
  expect(heard[0]).toEqual({ state: 'running', judged: 0, of: 0 });
  expect(heard.at(-1)).toMatchObject({ state: 'done', current: true, result: { differ: 2, complete: true } });
  const many = heard.length;
  run.drop();
  run.stop();
  expect([heard.length, stops()]).toEqual([many, []]);
});

test('[H3] a run of older edits is let go of and stopped, and never told as that of the newer ones', async () => {
  const { run, held, waiting, stops, begun } = await runOver(40);
  held.add('changes.retelling');
  const [older, newer]: [CasesStand[], CasesStand[]] = [[], []];
  const first = run.start(called('Petrel 14 Cartridge'), heardIn(older));
  await expect.poll(() => waiting.length).toBe(1);
  const second = run.start(called('Petrel 13 Cartridge'), heardIn(newer));
  expect(older.at(-1)).toEqual({ state: 'none' });
  expect(stops()).toHaveLength(1);
  held.clear();
  for (const { go } of waiting) go();
  await Promise.all([first, second]);
  expect(older.map(({ state }) => state)).toEqual(['running', 'none']);
  expect(newer.at(-1)).toMatchObject({ state: 'done', result: { differ: 0, same: 40 } });
  expect(begun()).toEqual([called('Petrel 14 Cartridge'), called('Petrel 13 Cartridge')]);
});

test('[H3] while one is being begun, of those asked for meanwhile only the last is begun, and the first is stopped as soon as it is there', async () => {
  const { run, held, waiting, stops, begun } = await runOver(1);
  held.add('changes.retell');
  const heard: CasesStand[][] = [[], [], []];
  const start = (name: string, at: number) => run.start(called(name), heardIn(heard[at] as CasesStand[]));
  const first = start('A', 0);
  await expect.poll(() => waiting.length).toBe(1);
  const runs = [first, start('B', 1), start('Petrel 14 Cartridge', 2)];
  held.clear();
  waiting[0]?.go();
  await Promise.all(runs);
  expect(begun()).toEqual([called('A'), called('Petrel 14 Cartridge')]);
  expect(stops()).toHaveLength(1);
  expect(heard.map((each) => each.at(-1)?.state)).toEqual(['none', 'none', 'done']);
});

test('[H3] stopped before its token is here, it is stopped once it is; a trouble is told as one', async () => {
  const { run, held, waiting, stops } = await runOver(3);
  held.add('changes.retell');
  const heard: CasesStand[] = [];
  const running = run.start(called('Petrel 14 Cartridge'), heardIn(heard));
  await expect.poll(() => waiting.length).toBe(1);
  run.stop();
  held.clear();
  waiting[0]?.go();
  await running;
  expect(stops()).toHaveLength(1);
  expect(heard.at(-1)).toMatchObject({ state: 'done', result: { complete: false, judged: 1, of: 3 } });

  await run.start({ edits: [{ list: 'models', drop: 'nobody' }] }, heardIn(heard));
  expect(heard.at(-1)).toMatchObject({ state: 'trouble', trouble: { code: 'edit-invalid' } });
});

test('[H3] what came of it is said in counts that add up', () => {
  const all = { differ: 2, same: 9, neither: 1, judged: 12, of: 12, complete: true };
  expect(sayCasesTold(all)).toBe('2 of 12 saved cases would be judged otherwise, 9 the same. 1 case can be judged neither now nor then.');
  const one = { ...all, neither: 0, judged: 1, of: 1 };
  expect(sayCasesTold({ ...one, differ: 0, same: 1 })).toBe('The one saved case would be judged as it is now.');
  expect(sayCasesTold({ ...one, differ: 1, same: 0 })).toBe('The one saved case would be judged otherwise.');
  expect(sayCasesTold({ ...all, differ: 3, same: 0, neither: 0, judged: 3, complete: false })).toBe(
    '3 of 3 saved cases would be judged otherwise. Stopped before all 12 were judged.',
  );
});
