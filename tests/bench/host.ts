import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { atlasFile } from '../../electron/desk/data-folder.ts';
import { openAtlas } from '../../electron/desk/open-house.ts';
import { openStaff } from '../../electron/desk/staff/staff.ts';
import { serve } from '../../electron/hosts/loopback/serve.ts';
import type { Sheet } from '../../reasoner/index.ts';
import type { AskedFor, Asking } from './asking.ts';
import { inWords, median, table } from './clock.ts';
import { explainWide } from './wide-sheet.ts';

/** The bench as it was built: its programs lie beside it. */
const built = path.dirname(fileURLToPath(import.meta.url));
const demoPack = fileURLToPath(new URL('../../seed-data/demo-pack', import.meta.url));

/** How long the loop of this thread was held up, while something went on: milliseconds over what its timer was set for. */
const heldUp = async (job: () => Promise<unknown>): Promise<{ readonly median: number; readonly p95: number; readonly most: number }> => {
  const resolution = 1;
  const delay = monitorEventLoopDelay({ resolution });
  delay.enable();
  // Nothing is counted before the timer has fired once.
  await new Promise((resolve) => setTimeout(resolve, 20));
  await job();
  // The last delay is counted when the timer next fires.
  await new Promise((resolve) => setTimeout(resolve, 20));
  delay.disable();
  const over = (nanoseconds: number) => Math.max(0, nanoseconds / 1e6 - resolution);
  return { median: over(delay.percentile(50)), p95: over(delay.percentile(95)), most: over(delay.max) };
};

/** The thread of the loopback host while an explanation of 20,000 reasons is computed, its 20,000 sentences cross, and short calls go on; beside the same thread idle, and reasoning itself. */
export const hostsOwnThread = async (sheet: Sheet): Promise<void> => {
  const folder = await mkdtemp(path.join(tmpdir(), 'kinplate-bench-host-'));
  await mkdir(path.join(folder, 'data'));
  const atlas = await openAtlas(atlasFile(path.join(folder, 'data')));
  if (!atlas.ok) throw new Error(atlas.trouble.sentence);
  const loaded = await atlas.value.packs.load(demoPack);
  if (!loaded.ok) throw new Error(loaded.trouble.sentence);
  await atlas.value.close();
  const opened = await openStaff({
    data: path.join(folder, 'data'),
    packs: path.join(folder, 'packs'),
    program: { file: path.join(built, 'wide-worker.js') },
    tell: () => {},
    logBug: (place, error) => console.error(place, error),
  });
  if (!opened.ok) throw new Error(opened.trouble.sentence);
  const staff = opened.value;
  const host = await serve({ staff, rendered: new Map(), pageDesk: new Uint8Array(), port: 0, logBug: console.error });
  const idle = await heldUp(() => new Promise((resolve) => setTimeout(resolve, 3000)));
  let asked: AskedFor | null = null;
  const during = await heldUp(
    () =>
      new Promise<void>((resolve, reject) => {
        const window = new Worker(path.join(built, 'asking.js'), { workerData: { address: host.address(), sheet } satisfies Asking });
        window.once('error', reject);
        window.once('message', (found: AskedFor) => {
          asked = found;
          resolve();
        });
      }),
  );
  await host.close();
  await staff.close();
  await rm(folder, { recursive: true });
  const itself = await heldUp(async () => explainWide(2000));
  const row = (what: string, { median: half, p95, most }: typeof idle) => [what, inWords(half), inWords(p95), inWords(most)];
  console.log('\nThe host’s own thread: how long its loop is held up.\n');
  console.log(
    table(
      ['while', 'median', '95th percentile', 'most'],
      [row('nothing is asked', idle), row('20,000 reasons are explained', during), row('2,000 are, on that thread itself', itself)],
    ),
  );
  const { long, short } = asked as unknown as AskedFor;
  console.log(
    `\nThe explanation took ${inWords(long.milliseconds)} and ${(long.bytes / 2 ** 20).toFixed(1)} MiB; meanwhile ${short.length} searches, median ${inWords(median(short))}, longest ${inWords(Math.max(...short))}. To be held: at most 16.7 ms at the 95th percentile.`,
  );
};
