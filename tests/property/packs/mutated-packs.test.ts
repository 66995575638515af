import { expect, test } from 'vitest';
import { smallPack } from '../../unit/db/packs.ts';
import { mutatedPack, packIn } from './mutated-packs.ts';

test('[P4] a pack with bytes, cells, rows, columns and values changed is sound or has faults, each said once, in its line, with no sign a terminal would obey', async () => {
  const whole = packIn(smallPack);
  const done = [];
  for (let seed = 1; seed <= 400; seed += 1) done.push(await mutatedPack(whole, seed));
  expect(done.filter(({ wrong }) => wrong.length > 0)).toEqual([]);
  // Both are met often enough to say something of both.
  expect(done.filter(({ sound }) => sound).length).toBeGreaterThan(40);
  expect(done.filter(({ faults }) => faults > 1).length).toBeGreaterThan(40);
  expect(done.some(({ warnings }) => warnings > 3)).toBe(true);
});
