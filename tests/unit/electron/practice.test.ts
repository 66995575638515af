import { beforeEach, expect, test } from 'vitest';
import type { Store } from '../../../db/index.ts';
import { idleTime, practise } from '../../../electron/desk/staff/practice.ts';
import { answer, type CompiledAtlas, compileAtlas } from '../../../reasoner/index.ts';
import { demoPack, expandCode, freshStore, valueIn, vocabularyPack } from '../db/kit.ts';

let store: Store;
let atlas: CompiledAtlas;
beforeEach(async () => {
  store = await freshStore({ expandCode });
  for (const pack of [vocabularyPack, demoPack]) valueIn(await store.packs.load(pack));
  atlas = compileAtlas(await store.atlas.read());
});

/** A clock that is so much later each time it is read, ms. */
const clock = (step: number) => {
  let now = 0;
  return () => {
    now += step;
    return now;
  };
};

test('[B1] a turn comes when nothing is asked, after a rest where something was; a worker that ends waits for neither', async () => {
  let busy = false;
  const ending = new AbortController();
  const { begun, turn } = idleTime({ busy: () => busy, rest: 1_000_000_000, over: ending.signal });
  expect(await turn()).toBe(true);
  busy = true;
  const [beginning, next] = [begun(), turn()];
  expect(await Promise.race([beginning, next, new Promise((done) => setTimeout(() => done('nobody yet'), 20))])).toBe('nobody yet');
  ending.abort();
  expect(await next).toBe(false);
  await beginning;
  expect(await turn()).toBe(false);
});

test('[B1] a worker that practises asks before each answer whether somebody else comes first, and ends where nobody needs it', async () => {
  let asked = 0;
  const turn = async () => {
    asked += 1;
    return asked <= 5;
  };
  expect(await practise(store.sheets, atlas, { turn, now: clock(0) })).toBe(5);
  expect(asked).toBe(6);
});

test('[B1] it stops when it has spent what it may, and takes a dozen sheets at most', async () => {
  const turn = async () => true;
  expect(await practise(store.sheets, atlas, { turn, now: clock(100) })).toBe(6);
  let opened = 0;
  const sheets: Pick<Store['sheets'], 'list' | 'open'> = {
    list: () => store.sheets.list(),
    open: (id) => {
      opened += 1;
      return store.sheets.open(id);
    },
  };
  expect(await practise(sheets, atlas, { turn, now: clock(0) })).toBeGreaterThan(20);
  expect(opened).toBe(12);
});

test('[B1] [B2] what was practised changes no answer', async () => {
  await practise(store.sheets, atlas, { turn: async () => true, now: clock(0) });
  const anew = compileAtlas(await store.atlas.read());
  const found = valueIn(await store.sheets.list()).filter(({ kind }) => kind === 'found');
  for (const { id } of found.slice(-3)) {
    const sheet = valueIn(await store.sheets.open(id));
    expect(answer(atlas, sheet)).toEqual(answer(anew, sheet));
  }
});
