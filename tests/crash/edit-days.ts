import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { checkAtlas } from '../../db/index.ts';
import { Dice } from '../oracle/dice.ts';
import { smallPack } from '../unit/db/packs.ts';
import { start } from './child.ts';
import { act, doneIn, editions, openFor, textOf } from './edit-acts.ts';

export interface EditCounts {
  kills: number;
  /** Things that were said to be done, and are there. */
  done: number;
  /** Begun, not said to be done, and there whole all the same. */
  unsaid: number;
  readonly lost: string[];
}

/**
 * A program that edits, undoes and loads is killed at random moments until it has come to its end; after each kill the atlas is one that the same things, done without a kill,
 * came to: with all that were said to be done, and nothing half done.
 */
export const editDays = async (program: string, seed: number, things: number, most: number, counts: EditCounts): Promise<void> => {
  const folder = mkdtempSync(join(tmpdir(), 'kinplate-edits-'));
  try {
    const packs = editions(folder);
    const expected: string[] = [''];
    const undisturbed = await openFor(join(folder, 'undisturbed.sqlite'));
    await undisturbed.packs.load(smallPack);
    expected.push(await textOf(undisturbed));
    for (let n = 1; n < things; n += 1) {
      await act(undisturbed, n, seed, packs);
      expected.push(await textOf(undisturbed));
    }
    await undisturbed.close();

    const file = join(folder, 'atlas.sqlite');
    const first = await openFor(file);
    await first.packs.load(smallPack);
    await first.close();
    const dice = new Dice(seed);
    for (let round = 0; round < most; round += 1) {
      const running = start(program, [file, String(seed), String(things), ...packs]);
      await running.line('opened');
      await Promise.race([running.ended, new Promise((wake) => setTimeout(wake, dice.whole(0, 400)))]);
      const over = running.lines.includes('ended');
      running.child.kill('SIGKILL');
      await running.ended;
      if (over) break;
      counts.kills += 1;
      const said = running.lines.filter((line) => line.startsWith('done ')).map((line) => Number(line.slice(5)));
      counts.done += said.length;
      const faults = await checkAtlas(file);
      const store = await openFor(file);
      try {
        const done = await doneIn(store);
        const last = said.at(-1);
        if (last !== undefined && done > last + 1) counts.unsaid += 1;
        const whole = (await textOf(store)) === expected[done];
        if (!faults.ok || faults.value.length > 0 || !whole || (last !== undefined && done < last + 1))
          counts.lost.push(`seed ${seed}, round ${round}: ${done} things done, said ${last}; ${whole ? 'whole' : 'not what they come to'}`);
      } finally {
        await store.close();
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};
