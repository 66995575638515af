import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { KeptAtlas } from '../../electron/desk/kept-atlas.ts';
import { openDesk } from '../../electron/desk/open-desk.ts';
import { openAtlas } from '../../electron/desk/open-house.ts';
import type { Atlas, Fact, Part, Sheet } from '../../reasoner/index.ts';
import { inWords, median, table } from './clock.ts';
import { answered, type DemoDesk } from './demo-desk.ts';
import { largerAtlas } from './larger-atlas.ts';
import { anew } from './odds.ts';
import { storeWith } from './store-with.ts';

/** So many parts are edited, one after the other. */
const times = 7;
/** An edit that took longer than this, ms, is not made again for a better figure. */
const patience = 3000;

/** Of one edit, cpu time of all threads, ms. */
interface Took {
  /** The call that saves it, with everything the store keeps of the atlas. */
  readonly saved: number;
  /** A worker that reads and reasons has the atlas as it is now. */
  readonly upToDate: number;
  readonly firstVerdict: number;
  readonly nextVerdict: number;
}

/** One size of one part changed, through the desk's own call, as the atlas grows; and what follows of it in a worker over a store of its own. */
export const editsAsTheAtlasGrows = async ({ atlas, sheets }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const rows: string[][] = [];
  for (const scale of scales) {
    const folder = await mkdtemp(path.join(tmpdir(), 'kinplate-bench-edit-'));
    const file = path.join(folder, 'atlas.sqlite');
    const larger = largerAtlas(atlas, scale);
    const [loaded, store] = await costOf(() => storeWith(larger, file, path.join(folder, 'pack')));
    const back = answered(await openAtlas(file, true));
    const [desk, kept] = [openDesk(store), new KeptAtlas(back)];
    const reasoning = openDesk(back, kept);
    const [sheet] = sheets as [Sheet];
    const judge = async () => answered(await reasoning['verdict.of']({ sheet: anew(sheet) } as never));
    await judge();
    const took: Took[] = [];
    for (const part of partsToEdit(larger)) {
      const { head } = answered(await desk['changes.entry']({ list: 'parts', id: part.id }));
      const edit = { list: 'parts', put: largerBy(part, 0.01) };
      const [saved] = await costOf(async () =>
        answered(await desk['changes.make']({ edits: [edit], who: '', why: '', source: '', head } as never)),
      );
      const [upToDate] = await costOf(() => kept.now());
      const [firstVerdict] = await costOf(judge);
      const [nextVerdict] = await costOf(judge);
      took.push({ saved, upToDate, firstVerdict, nextVerdict });
      if (saved + upToDate > patience) break;
    }
    await store.close();
    await back.close();
    await rm(folder, { recursive: true });
    const of = (what: keyof Took) => inWords(median(took.map((each) => each[what])));
    rows.push([
      `${scale}×`,
      String(larger.parts.length),
      inWords(loaded),
      of('saved'),
      inWords((took[0] as Took).saved),
      of('upToDate'),
      of('firstVerdict'),
      of('nextVerdict'),
    ]);
    process.stderr.write(`${scale}× `);
  }
  process.stderr.write('\n');
  console.log(`\nOne size of one part changed, cpu time, medians of up to ${times} edits.\n`);
  console.log(table(['atlas', 'parts', 'pack loaded', 'saved', 'the first', 'a worker up to date', 'first verdict', 'the next'], rows));
};

/** Parts of slots in turn, from all over the atlas, that have a size. */
const partsToEdit = ({ slots, parts }: Atlas): readonly Part[] =>
  Array.from({ length: times }, (_, n) => {
    const slot = slots[n % slots.length]?.id;
    const sized = parts.filter((part) => part.slot === slot && sizeOf(part) !== undefined);
    return sized[Math.floor((sized.length * (n + 1)) / (times + 1))];
  }).filter((part) => part !== undefined);

type Size = Extract<Fact, { kind: 'measure' }>;
const sizeOf = ({ facts }: Part): readonly [id: string, fact: Size] | undefined =>
  (Object.entries(facts) as [string, Fact][]).find((each): each is [string, Size] => each[1].kind === 'measure');

const largerBy = (part: Part, by: number): Part => {
  const [id, { nominal, lower, upper }] = sizeOf(part) as readonly [string, Size];
  const fact: Fact = { kind: 'measure', nominal: Math.round((nominal + by) * 1000) / 1000, lower, upper };
  return { ...part, facts: { ...part.facts, [id]: fact } };
};

const costOf = async <T>(job: () => Promise<T>): Promise<readonly [ms: number, value: T]> => {
  const start = process.cpuUsage();
  const value = await job();
  const { user, system } = process.cpuUsage(start);
  return [(user + system) / 1000, value];
};
