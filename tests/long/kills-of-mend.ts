// npm run long -- kills-of-mend [times] [seed]: mends damaged atlases in a program that is killed (SIGKILL) at moments by seed, runs it again to the end, and
// holds what is there against what an undisturbed mending gives. 200 times, unless another number is given.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { built } from '../crash/child.ts';
import { type Killed, killMending, makeKilled } from '../damage/kills-of-mend.ts';

const [times = 200, seed = 1] = process.argv.slice(2).map(Number);
const scratch = mkdtempSync(join(tmpdir(), 'kinplate-kills-'));
const program = await built('mend-folder');
const after = new Map<string, number>();
const faults: string[] = [];
let kills = 0;
let set: Killed | null = null;
try {
  for (let n = 0; n < times; n += 1) {
    // Another atlas, damaged elsewhere, for every fifty.
    if (n % 50 === 0) rmSync(join(scratch, 'set'), { recursive: true, force: true });
    if (n % 50 === 0) set = await makeKilled(program, join(scratch, 'set'), seed + n);
    const kill = await killMending(program, set as Killed, seed * 1000 + n);
    kills += kill.kills;
    after.set(kill.after, (after.get(kill.after) ?? 0) + 1);
    if (kill.fault !== null) faults.push(`seed ${seed * 1000 + n}, killed ${kill.kills} times, last after “${kill.after}”: ${kill.fault}`);
    if ((n + 1) % 10 === 0) console.log(`… ${n + 1} mendings, killed ${kills} times, faults ${faults.length}`);
  }
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
console.log(
  `${times} mendings killed ${kills} times; last killed after: ${[...after].map(([step, many]) => `${step} ${many}`).join(', ')}`,
);
console.log(faults.length === 0 ? 'Nothing was lost.' : faults.join('\n'));
process.exitCode = faults.length === 0 ? 0 : 1;
