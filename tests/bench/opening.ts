import { mkdtemp, readdir, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { openAtlas } from '../../electron/desk/open-house.ts';
import { inWords, median, table } from './clock.ts';
import { answered, type DemoDesk } from './demo-desk.ts';
import { largerAtlas } from './larger-atlas.ts';
import { storeWith } from './store-with.ts';

const times = 5;

interface Took {
  readonly ms: number;
  /** Of all threads: SQLite works on another. */
  readonly cpu: number;
  /** What stays in memory of it. */
  readonly mebibytes: number;
}

/** Opening an atlas as it grows: all of it read out of the tables, kept beside the file, and opened from there. A store is opened anew for each. */
export const openingAsTheAtlasGrows = async ({ atlas }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const rows: string[][] = [];
  for (const scale of scales) {
    const folder = await mkdtemp(path.join(tmpdir(), 'kinplate-bench-opening-'));
    const file = path.join(folder, 'atlas.sqlite');
    await (await storeWith(largerAtlas(atlas, scale), file, path.join(folder, 'pack'))).close();
    const fresh = [await opened(file)];
    for (let n = 1; n < times; n += 1) fresh.push(await opened(file));
    const store = answered(await openAtlas(file, true));
    const read = await store.atlas.read();
    const start = process.cpuUsage();
    let [began, longest] = [performance.now(), 0];
    const pause = async (): Promise<void> => {
      longest = Math.max(longest, performance.now() - began);
      await new Promise(setImmediate);
      began = performance.now();
    };
    if (!(await store.atlas.keep(read, pause))) throw new Error('what was read could not be kept');
    const keeping = cpuSince(start);
    await store.close();
    const [name = ''] = (await readdir(folder)).filter((each) => each.startsWith('kept-reading-'));
    const { size } = await stat(path.join(folder, name));
    const kept: Took[] = [];
    for (let n = 0; n < times; n += 1) kept.push(await opened(file));
    const of = (took: readonly Took[], what: keyof Took) => median(took.map((each) => each[what]));
    rows.push([
      `${scale}×`,
      String(read.parts.length),
      inWords(of(fresh, 'ms')),
      inWords(of(fresh, 'cpu')),
      inWords(of(kept, 'ms')),
      inWords(of(kept, 'cpu')),
      `${(of(fresh, 'cpu') / of(kept, 'cpu')).toFixed(1)}×`,
      inWords(keeping),
      inWords(longest),
      `${(size / 2 ** 20).toFixed(1)} MiB`,
      `${of(fresh, 'mebibytes').toFixed(0)} MiB`,
      `${of(kept, 'mebibytes').toFixed(0)} MiB`,
    ]);
    await rm(folder, { recursive: true });
    process.stderr.write(`${scale}× `);
  }
  process.stderr.write('\n');
  console.log(`\nOpening an atlas, medians of ${times}: the store opened and all of it read, out of the tables and as it was kept.\n`);
  console.log(
    table(
      [
        'atlas',
        'parts',
        'tables',
        'cpu',
        'kept',
        'cpu',
        'tables / kept',
        'keeping, cpu',
        'longest hold',
        'file',
        'memory, tables',
        'memory, kept',
      ],
      rows,
    ),
  );
};

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

const opened = async (file: string): Promise<Took> => {
  collect();
  const before = process.memoryUsage().heapUsed;
  const [start, began] = [process.cpuUsage(), performance.now()];
  const store = answered(await openAtlas(file, true));
  const atlas = await store.atlas.read();
  const [ms, cpu] = [performance.now() - began, cpuSince(start)];
  await store.close();
  collect();
  const mebibytes = (process.memoryUsage().heapUsed - before) / 2 ** 20;
  // It is there until here.
  return { ms, cpu, mebibytes: atlas.parts.length === 0 ? 0 : mebibytes };
};

const cpuSince = (start: NodeJS.CpuUsage): number => {
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
};
