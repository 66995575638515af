import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { openStore } from '../../db/index.ts';
import { type CompiledAtlas, compileAtlas, fitOf, type JointId, type PartId, type SlotId } from '../../reasoner/index.ts';
import { asRatio, inWords, median, table } from './clock.ts';
import { answered, type DemoDesk } from './demo-desk.ts';
import { largerAtlas } from './larger-atlas.ts';
import { storeWith } from './store-with.ts';

/** So many parts of each slot are asked for, from all over it. */
const partsOfSlot = 3;
const pairs = 9;

/**
 * Everything a part fits, as the atlas grows: asked of the fits that are kept, beside every pair judged anew, first in memory with nothing but the
 * count of them, then as the store would answer without any kept. One is timed right after the other, nine times over; a ratio is the median of nine.
 */
export const fitsAsTheAtlasGrows = async ({ atlas }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const rows: string[][] = [];
  for (const times of scales) {
    const folder = await mkdtemp(path.join(tmpdir(), 'kinplate-bench-fits-'));
    const file = path.join(folder, 'atlas.db');
    const started = performance.now();
    const store = await storeWith(largerAtlas(atlas, times), file, path.join(folder, 'pack'));
    const loaded = performance.now() - started;
    // As it was read: limits are worked out anew of a size with an ISO code.
    const larger = await store.atlas.read();
    const bare = answered(await openStore(file, { readOnly: true }));
    const compiled = compileAtlas(larger);
    const judge = async () => (joint: JointId, a: PartId, b: PartId) => fitOf(compiled, joint, a, b);
    const measured: { kept: number; memory: number; store: number; byMemory: number; byStore: number; partners: number }[] = [];
    for (const { id } of larger.slots) {
      const parts = larger.parts.filter((part) => part.slot === id);
      const step = Math.max(1, Math.floor(parts.length / partsOfSlot));
      for (const part of parts.filter((_, i) => i % step === 0).slice(0, partsOfSlot)) {
        const ask = async () => answered(await store.graph.fits(part.id, never));
        const anew = async () => answered(await bare.graph.fits(part.id, judge));
        const [one, other] = [await ask(), await anew()];
        if (JSON.stringify(one) !== JSON.stringify(other))
          throw new Error(`${part.id} at ${times}×: kept fits are others than those judged anew`);
        judgeAll(compiled, part.id);
        const seen: { kept: number; memory: number; store: number }[] = [];
        for (let n = 0; n < pairs; n += 1)
          seen.push({ kept: await clocked(ask), memory: await clocked(() => judgeAll(compiled, part.id)), store: await clocked(anew) });
        measured.push({
          kept: median(seen.map(({ kept }) => kept)),
          memory: median(seen.map(({ memory }) => memory)),
          store: median(seen.map((each) => each.store)),
          byMemory: median(seen.map(({ kept, memory }) => memory / kept)),
          byStore: median(seen.map((each) => each.store / each.kept)),
          partners: one.partners.length,
        });
      }
    }
    const of = (what: keyof (typeof measured)[number]) => median(measured.map((each) => each[what]));
    const least = (what: 'byMemory' | 'byStore') => asRatio(Math.min(...measured.map((each) => each[what])));
    rows.push([
      `${times}×`,
      String(larger.parts.length),
      inWords(loaded),
      String(of('partners')),
      inWords(of('kept')),
      inWords(of('memory')),
      inWords(of('store')),
      asRatio(of('byMemory')),
      least('byMemory'),
      asRatio(of('byStore')),
      least('byStore'),
    ]);
    await bare.close();
    await store.close();
    await rm(folder, { recursive: true });
    process.stderr.write(`${times}× `);
  }
  process.stderr.write('\n');
  console.log(
    `\nWhat one part fits, ${partsOfSlot} parts of each slot, medians: kept, and judged anew; pairs timed in turn, ratios the median of ${pairs}.\n`,
  );
  console.log(
    table(
      [
        'atlas',
        'parts',
        'loaded in',
        'partners',
        'kept',
        'judged in memory',
        'judged by the store',
        'memory / kept',
        'least',
        'store / kept',
        'least',
      ],
      rows,
    ),
  );
};

const never = async (): Promise<never> => {
  throw new Error('kept fits are not judged again');
};

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as (how: { readonly type: 'minor' }) => void;

/** What the job before has left behind is cleared away first. */
const clocked = async (job: () => unknown): Promise<number> => {
  collect({ type: 'minor' });
  const start = performance.now();
  await job();
  return performance.now() - start;
};

const judgeAll = (atlas: CompiledAtlas, part: PartId): number => {
  const number = atlas.slotNumber.get(atlas.parts.get(part)?.slot as SlotId);
  let fits = 0;
  for (const { data: joint, a, b } of atlas.joints) {
    if (a !== number && b !== number) continue;
    for (const other of atlas.slots[a === number ? b : a]?.parts ?? [])
      if (fitOf(atlas, joint.id, part, other.id).verdict !== 'will not fit') fits += 1;
  }
  return fits;
};
