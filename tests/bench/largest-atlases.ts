import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Built beside the bench. */
const program = fileURLToPath(new URL('./largest.js', import.meta.url));

/** Whoever takes longer than this, in milliseconds, is stopped. */
const patience = 1_800_000;

/**
 * The largest atlases, a thousand times the demo atlas unless told otherwise: each kind in a process of its own with twelve gigabytes
 * (`largest.ts`). What fails is said, and the rest goes on.
 */
export const largestAtlases = (scales: readonly number[]): void => {
  const times = Math.max(...scales);
  for (const kind of ['copies', 'wild']) {
    console.log(`\n${times}× the parts of the demo atlas, ${kind}:`);
    const { status, signal } = spawnSync(process.execPath, ['--max-old-space-size=12000', program, kind, String(times)], {
      stdio: 'inherit',
      timeout: patience,
    });
    if (status !== 0) console.log(`ended by ${signal ?? `code ${status}`}: the step after the last line`);
  }
};
