import { expect, test } from 'vitest';
import { Lane } from '../../../renderer/bridge/Lane.ts';

test('[W1] one question is on its way at a time, and of those that wait only the newest is asked', async () => {
  const lane = new Lane();
  const ran: string[] = [];
  let release = () => {};
  const held = new Promise<void>((resolve) => {
    release = resolve;
  });
  lane.run(async () => {
    ran.push('first');
    await held;
  });
  const done = new Promise<void>((resolve) => {
    for (const name of ['second', 'third', 'fourth']) {
      lane.run(async () => {
        ran.push(name);
        resolve();
      });
    }
  });
  expect(ran).toEqual(['first']);
  release();
  await done;
  expect(ran).toEqual(['first', 'fourth']);
});
