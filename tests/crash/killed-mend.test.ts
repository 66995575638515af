import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Killed, killMending, makeKilled } from '../damage/kills-of-mend.ts';
import { built } from './child.ts';

let program: string;
let killed: Killed;
const scratch = mkdtempSync(join(tmpdir(), 'kinplate-kills-'));
beforeAll(async () => {
  program = await built('mend-folder');
  killed = await makeKilled(program, scratch, 7);
});
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

// `npm run long -- kills-of-mend` does it 200 times.
test.each([1, 2, 3, 4, 5, 6])(
  '[P3] killed while it mends, at moments of seed %i: the next run finishes it and nothing is lost',
  async (seed) => {
    expect((await killMending(program, killed, seed)).fault).toBeNull();
  },
);
