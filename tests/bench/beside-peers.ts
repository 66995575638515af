import { answer, compileAtlas, type Sheet } from '../../reasoner/index.ts';
import { type KeptZ3, keptZ3, SilentPeer } from '../oracle/ask-z3.ts';
import type { Question } from '../oracle/reading.ts';
import type { Pairs } from './clingo-peer.ts';
import { asRatio, inWords, median, type Timing, table, timed } from './clock.ts';
import type { DemoDesk } from './demo-desk.ts';
import { anew } from './odds.ts';
import { clingoSays, type PeerQuestion, questionFor, reasonerSays, z3Says } from './peers.ts';

/** A frame at sixty a second, in milliseconds. */
const frame = 1000 / 60;
/** Everything, as the peers enumerate it. */
const everything = { effort: { conflicts: 100_000, questions: 1_000_000 } } as const;

interface Row {
  readonly sheet: Sheet;
  readonly desk: Timing;
  readonly all: Timing;
  readonly failing: Timing;
  readonly compatible: Timing;
  /** Milliseconds in which clingo solved, told of the compatible pairs: all calls together, reading and grounding left out. */
  readonly solving: number;
  /** None where Z3 gave up. */
  readonly z3: Timing | null;
  readonly kept: Timing | null;
}

/**
 * One question to all: the status of every name, and every minimal conflict and swap set of the claimed one. The desk's own column is the
 * call the window makes, sentences, ticket and all. Beside the peers parts are taken as they are made: a row for every way one may have been machined
 * would keep a solver busy with its input. clingo is told how parts meet in both ways; Z3 begins anew and is kept, its atlas loaded before.
 */
export const besidePeers = async ({ desk, atlas: whole, sheets }: DemoDesk): Promise<void> => {
  const atlas = { ...whole, operations: [] };
  const compiled = compileAtlas(atlas);
  const solvers = new Kept();
  const rows: Row[] = [];
  for (const sheet of sheets.slice(0, Number(process.env.KINPLATE_BENCH_SHEETS ?? 4))) {
    const verdict = answer(compiled, sheet, everything);
    if (verdict.kind !== 'verdict') continue;
    const question = questionFor(atlas, compiled, sheet, verdict);
    const said = reasonerSays(question, verdict);
    const clingo = (pairs: Pairs) => timed(3, async () => sameAs(said, await clingoSays(question, pairs), 'clingo', sheet));
    const solver = await solvers.of(question.question);
    rows.push({
      sheet,
      desk: await timed(15, () => desk['verdict.of']({ sheet: anew(sheet) } as never)),
      all: await timed(5, () => answer(compiled, sheet, everything)),
      failing: await clingo('failing'),
      compatible: await clingo('compatible'),
      solving: await solvingAlone(question),
      z3: await timed(1, async () => sameAs(said, await z3Says(question), 'Z3', sheet)).catch(noTiming(sheet)),
      kept: await timed(3, async () => sameAs(said, await z3Says(question, solver), 'Z3, kept', sheet)).catch(noTiming(sheet)),
    });
    process.stderr.write(`${sheet.id} `);
  }
  solvers.release();
  process.stderr.write('\n');
  console.log(
    `\nA verdict on the demo atlas (${atlas.parts.length} parts, ${atlas.models.length} models), medians by the clock. Who gave an answer gave the same.\n`,
  );
  const said = (timing: Timing | null) => (timing === null ? 'gave up' : inWords(timing.median));
  console.log(
    table(
      ['sheet', 'desk', 'reasoner', 'clingo, failing', 'clingo, compatible', 'its solving', 'Z3', 'Z3, kept'],
      rows.map(({ sheet, desk: own, all, failing, compatible, solving, z3, kept }) => [
        sheet.id,
        ...[own, all, failing, compatible].map(said),
        inWords(solving),
        said(z3),
        said(kept),
      ]),
    ),
  );
  const within = (of: (row: Row) => Timing) => `${rows.filter((row) => of(row).median <= frame).length} of ${rows.length}`;
  console.log(`\nWithin one frame (16.7 ms): ${within((row) => row.desk)} through the desk, ${within((row) => row.all)} in the reasoner.`);
  const ratios = (of: (row: Row) => number | undefined) => {
    const each = rows.flatMap((row) => (of(row) === undefined ? [] : [(of(row) as number) / row.all.median]));
    return each.length === 0 ? 'no answer' : `${asRatio(median(each))} at the median, ${asRatio(Math.min(...each))} at least`;
  };
  console.log('\nBeside our reasoner, which says the same:');
  console.log(`clingo, failing pairs: ${ratios((row) => row.failing.median)}`);
  console.log(`clingo, compatible pairs: ${ratios((row) => row.compatible.median)}; its solving alone ${ratios((row) => row.solving)}`);
  console.log(`Z3 begun anew: ${ratios((row) => row.z3?.median)}; kept ${ratios((row) => row.kept?.median)}`);
};

/** Solvers by what they were made for: a plate whose number is not listed is a part more, so that sheet gets one of its own. */
class Kept {
  readonly #solvers = new Map<string, KeptZ3>();

  async of(question: Question): Promise<KeptZ3> {
    const key = [...question.parts.values()].map(({ length }) => length).join();
    const solver = this.#solvers.get(key) ?? (await keptZ3(question));
    this.#solvers.set(key, solver);
    return solver;
  }

  release(): void {
    for (const solver of this.#solvers.values()) solver.release();
  }
}

const solvingAlone = async (question: PeerQuestion): Promise<number> => {
  const runs: number[] = [];
  for (let run = 0; run < 3; run += 1) {
    let seconds = 0;
    await clingoSays(question, 'compatible', ({ solving }) => {
      seconds += solving;
    });
    runs.push(seconds * 1000);
  }
  return median(runs);
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
