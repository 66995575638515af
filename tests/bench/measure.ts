import { answer, answerInBrief, type CompiledAtlas, compileAtlas, type Sheet, type Verdict } from '../../reasoner/index.ts';
import { aboveTheFloor } from './above-the-floor.ts';
import { tellingApart } from './apart.ts';
import { besidePeers } from './beside-peers.ts';
import { completions } from './builds.ts';
import { checksAsAPackGrows } from './check.ts';
import { inWords, median, slopeOf, type Timing, table, timed } from './clock.ts';
import { whatACounterSees } from './counter/counter.ts';
import { type DemoDesk, openDemoDesk } from './demo-desk.ts';
import { editsAsTheAtlasGrows } from './edit.ts';
import { fitsAsTheAtlasGrows } from './fits.ts';
import { hostsOwnThread } from './host.ts';
import { wallKeys } from './key.ts';
import { largerAtlas } from './larger-atlas.ts';
import { largestAtlases } from './largest-atlases.ts';
import { anew, oddsAfterEachEntry } from './odds.ts';
import { oddsAsItGrows } from './odds-as-it-grows.ts';
import { openingAsTheAtlasGrows } from './opening.ts';
import { repliesAsTheAtlasGrows } from './replies.ts';
import { besidePlainSql } from './sql/sql-statuses.ts';
import { treesAsTheyGrow } from './trees.ts';
import { wholeUnits } from './whole-units.ts';
import { wildVerdicts } from './wild/wild-verdicts.ts';

/** A frame at sixty a second, in milliseconds. */
const frame = 1000 / 60;
/** A scale that took longer than this, in milliseconds, ends the series. */
const patience = 60_000;

const main = async (): Promise<void> => {
  const scales = (process.env.KINPLATE_BENCH_SCALES ?? '1,3,10,30,100,300,1000').split(',').map(Number);
  const demo = await openDemoDesk();
  const upTo = (most: number) => scales.filter((times) => times <= most);
  const peers = process.env.KINPLATE_BENCH_PEERS !== 'no';
  const parts: Readonly<Record<string, () => Promise<void>>> = {
    fits: () => fitsAsTheAtlasGrows(demo, upTo(100)),
    edit: () => editsAsTheAtlasGrows(demo, upTo(100)),
    counter: () => whatACounterSees(demo, upTo(100)),
    opening: () => openingAsTheAtlasGrows(demo, upTo(100)),
    check: () => checksAsAPackGrows(demo, upTo(10)),
    verdict: () => everySheet(demo),
    reply: () => repliesAsTheAtlasGrows(demo, upTo(30)),
    whole: () => wholeUnits(demo),
    tree: () => treesAsTheyGrow(demo, upTo(100)),
    apart: () => tellingApart(demo, upTo(30)),
    key: () => wallKeys(demo, upTo(10)),
    completions: async () => (peers ? completions(demo) : undefined),
    peers: async () => (peers ? besidePeers(demo) : undefined),
    floor: () => aboveTheFloor(demo, upTo(100)),
    sql: () => besidePlainSql(demo, upTo(100)),
    odds: () => oddsAfterEachEntry(demo),
    'odds-grown': () => oddsAsItGrows(demo, upTo(100)),
    host: () => hostsOwnThread(demo.sheets[0] as Sheet),
    million: () => towardsAMillion(demo, scales),
    largest: async () => largestAtlases(scales),
    wild: () => wildVerdicts(demo.atlas, scales),
  };
  try {
    const asked = process.env.KINPLATE_BENCH_PARTS?.split(',') ?? Object.keys(parts).filter((name) => name !== 'largest');
    for (const name of asked) {
      const part = parts[name];
      if (part === undefined) throw new Error(`the bench has no part “${name}”: ${Object.keys(parts).join(', ')}`);
      await part();
    }
  } finally {
    await demo.close();
  }
};

/** The call the window makes after every entry, on every found sample: every status, all conflicts and swap sets of the claimed name, sentences and ticket. */
const everySheet = async ({ desk, sheets }: DemoDesk): Promise<void> => {
  const rows: { id: string; own: Timing }[] = [];
  for (const sheet of sheets.filter(({ kind }) => kind === 'found')) {
    rows.push({ id: sheet.id, own: await timed(25, () => desk['verdict.of']({ sheet: anew(sheet) } as never)) });
  }
  const worst = rows.reduce((most, row) => (row.own.median > most.own.median ? row : most));
  console.log(
    `\nA verdict through the desk, ${rows.length} found units: median ${inWords(median(rows.map(({ own }) => own.median)))}, worst ${inWords(worst.own.median)} (${worst.id}); ${rows.filter(({ own }) => own.median <= frame).length} of ${rows.length} within one frame (16.7 ms).`,
  );
};

/** How cost grows with the atlas: copies of the demo pack, each a little larger than the last. */
const towardsAMillion = async ({ atlas, sheets }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const found = sheets.filter((sheet) => !contradicts(compileAtlas(atlas), sheet));
  const rows: string[][] = [];
  const [sizes, costs]: [number[], number[]] = [[], []];
  let lastStep = 0;
  for (const times of scales) {
    if (lastStep > patience) {
      rows.push([`${times}×`, String(times * atlas.parts.length), '', `not tried: the step before took ${inWords(lastStep)}`]);
      continue;
    }
    const larger = largerAtlas(atlas, times);
    const start = performance.now();
    const compiled = compileAtlas(larger);
    compiled.found();
    const compile = performance.now() - start;
    const medians: { sheet: string; ms: number; cpu: number }[] = [];
    for (const sheet of found) {
      const { median: ms, cpu } = await timed(5, () => answerInBrief(compiled, sheet));
      medians.push({ sheet: sheet.id, ms, cpu });
    }
    const worst = medians.reduce((p, q) => (q.cpu > p.cpu ? q : p));
    const middle = median(medians.map(({ cpu }) => cpu));
    sizes.push(larger.parts.length);
    costs.push(middle);
    const heap = process.memoryUsage().heapUsed / 2 ** 20;
    rows.push([
      `${times}×`,
      String(larger.parts.length),
      String(larger.models.length),
      inWords(compile),
      inWords(median(medians.map(({ ms }) => ms))),
      inWords(middle),
      inWords(worst.ms),
      inWords(worst.cpu),
      worst.sheet,
      `${heap.toFixed(0)} MiB`,
    ]);
    lastStep = performance.now() - start;
    process.stderr.write(`${times}× `);
  }
  process.stderr.write('\n');
  console.log('\nThe verdict as the atlas grows (copies of the demo pack), over the sample sheets.\n');
  console.log(table(['atlas', 'parts', 'models', 'compiled in', 'median sheet', 'cpu', 'worst sheet', 'cpu', 'which', 'heap'], rows));
  if (sizes.length > 1)
    console.log(`\nThe median sheet grows as n^${slopeOf(sizes, costs).toFixed(2)} (cpu time, n the parts of the atlas).`);
};

const contradicts = (compiled: CompiledAtlas, sheet: Sheet): boolean =>
  (answer(compiled, sheet, { explain: 'none' }) as Verdict).kind !== 'verdict';

await main();
// The peers keep workers alive.
process.exit(0);
