import { answer, type CompiledAtlas, compileAtlas, type Sheet, type Verdict } from '../../reasoner/index.ts';
import { SilentPeer } from '../oracle/ask-z3.ts';
import { tellingApart } from './apart.ts';
import { completions } from './builds.ts';
import { checksAsAPackGrows } from './check.ts';
import { asRatio, inWords, median, slopeOf, type Timing, table, timed } from './clock.ts';
import { type DemoDesk, openDemoDesk } from './demo-desk.ts';
import { editsAsTheAtlasGrows } from './edit.ts';
import { fitsAsTheAtlasGrows } from './fits.ts';
import { hostsOwnThread } from './host.ts';
import { wallKeys } from './key.ts';
import { largerAtlas } from './larger-atlas.ts';
import { anew, oddsAfterEachEntry } from './odds.ts';
import { openingAsTheAtlasGrows } from './opening.ts';
import { clingoSays, questionFor, reasonerSays, z3Says } from './peers.ts';
import { repliesAsTheAtlasGrows } from './replies.ts';
import { besidePlainSql } from './sql/sql-statuses.ts';
import { treesAsTheyGrow } from './trees.ts';
import { wholeUnits } from './whole-units.ts';
import { wildVerdicts } from './wild/wild-verdicts.ts';

/** A frame at sixty a second, in milliseconds. */
const frame = 1000 / 60;
/** Everything, as the peers enumerate it. */
const everything = { effort: { conflicts: 100_000, questions: 1_000_000 } } as const;

/** A scale that took longer than this, in milliseconds, ends the series. */
const patience = 60_000;

interface Row {
  readonly sheet: Sheet;
  readonly desk: Timing;
  readonly all: Timing;
  readonly clingo: Timing;
  /** None where Z3 gave up. */
  readonly z3: Timing | null;
}

const main = async (): Promise<void> => {
  const scales = (process.env.KINPLATE_BENCH_SCALES ?? '1,3,10,30,100,300,1000').split(',').map(Number);
  const demo = await openDemoDesk();
  const upTo = (most: number) => scales.filter((times) => times <= most);
  const peers = process.env.KINPLATE_BENCH_PEERS !== 'no';
  const parts: Readonly<Record<string, () => Promise<void>>> = {
    fits: () => fitsAsTheAtlasGrows(demo, upTo(100)),
    edit: () => editsAsTheAtlasGrows(demo, upTo(100)),
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
    sql: () => besidePlainSql(demo, upTo(100)),
    odds: () => oddsAfterEachEntry(demo, upTo(100)),
    host: () => hostsOwnThread(demo.sheets[0] as Sheet),
    million: () => towardsAMillion(demo, scales),
    wild: () => wildVerdicts(demo.atlas, scales),
  };
  try {
    const asked = process.env.KINPLATE_BENCH_PARTS?.split(',') ?? Object.keys(parts);
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

/**
 * One question to all: the status of every name, and every minimal conflict and swap set of the claimed one. The desk's own column is the
 * call the window makes, sentences, ticket and all. Beside the peers parts are taken as they are made: a row for every way one may have been machined
 * would keep a solver busy with its input.
 */
const besidePeers = async ({ desk, atlas: whole, sheets }: DemoDesk): Promise<void> => {
  const atlas = { ...whole, operations: [] };
  const compiled = compileAtlas(atlas);
  const rows: Row[] = [];
  for (const sheet of sheets.slice(0, Number(process.env.KINPLATE_BENCH_SHEETS ?? 4))) {
    const verdict = answer(compiled, sheet, everything);
    if (verdict.kind !== 'verdict') continue;
    const question = questionFor(atlas, compiled, sheet, verdict);
    const said = reasonerSays(question, verdict);
    rows.push({
      sheet,
      desk: await timed(15, () => desk['verdict.of']({ sheet: anew(sheet) } as never)),
      all: await timed(5, () => answer(compiled, sheet, everything)),
      clingo: await timed(3, async () => sameAs(said, await clingoSays(question), 'clingo', sheet)),
      z3: await timed(1, async () => sameAs(said, await z3Says(question), 'Z3', sheet)).catch(noTiming(sheet)),
    });
    process.stderr.write(`${sheet.id} `);
  }
  process.stderr.write('\n');
  const times = (peer: Timing, own: Timing) => asRatio(peer.median / own.median);
  console.log(
    `\nA verdict on the demo atlas (${atlas.parts.length} parts, ${atlas.models.length} models), medians. Who gave an answer gave the same.\n`,
  );
  console.log(
    table(
      ['sheet', 'desk', 'reasoner', 'clingo', 'Z3', 'clingo / ours', 'Z3 / ours'],
      rows.map(({ sheet, desk: own, all, clingo, z3 }) => [
        sheet.id,
        inWords(own.median),
        inWords(all.median),
        inWords(clingo.median),
        z3 === null ? 'gave up' : inWords(z3.median),
        times(clingo, all),
        z3 === null ? '' : times(z3, all),
      ]),
    ),
  );
  const within = (of: (row: Row) => Timing) => `${rows.filter((row) => of(row).median <= frame).length} of ${rows.length}`;
  const ratio = (of: (row: Row) => Timing | null) =>
    asRatio(
      median(
        rows.flatMap((row) => {
          const peer = of(row);
          return peer === null ? [] : [peer.median / row.all.median];
        }),
      ),
    );
  console.log(`\nWithin one frame (16.7 ms): ${within((row) => row.desk)} through the desk, ${within((row) => row.all)} in the reasoner.`);
  console.log(`Median ratio: clingo ${ratio((row) => row.clingo)}, Z3 ${ratio((row) => row.z3)}.`);
};

const sameAs = (said: readonly string[], peer: readonly string[], name: string, sheet: Sheet): void => {
  const at = said.findIndex((line, i) => line !== peer[i]);
  if (at >= 0 || said.length !== peer.length) throw new Error(`${name} on ${sheet.id}:\n${peer[at]}\nbut the reasoner:\n${said[at]}`);
};

/** A peer that gives up is a line in the log and a gap in the table; a wrong answer still ends the bench. */
const noTiming =
  (sheet: Sheet) =>
  (error: unknown): null => {
    if (!(error instanceof SilentPeer)) throw error;
    process.stderr.write(`(${sheet.id}: ${error.message}) `);
    return null;
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
      const { median: ms, cpu } = await timed(5, () => answer(compiled, sheet));
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
