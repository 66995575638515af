import { answerAtOnce } from '../../electron/desk/verdict-at-once.ts';
import { type Atlas, answerInBrief, type CompiledAtlas, compileAtlas, type Sheet } from '../../reasoner/index.ts';
import { inWords } from './clock.ts';
import { openDemoDesk } from './demo-desk.ts';
import { largerAtlas } from './larger-atlas.ts';
import { wildAtlas } from './wild/wild-atlas.ts';
import { wildSheets } from './wild/wild-sheets.ts';

/*
 * One very large atlas made, compiled, its joints met, and verdicts given on some sheets, in a process of its own: `largest.js copies|wild TIMES`. A line is printed for
 * each step that was reached, so that the one that failed is known by its name.
 */
const main = async (): Promise<void> => {
  const [kind, times] = process.argv.slice(2);
  const demo = await openDemoDesk();
  await demo.close();
  const made = step('made', () => larger(demo.atlas, kind as string, Number(times)));
  const sheets =
    kind === 'wild' ? wildSheets(made, 7).map((each) => ({ name: each.kind, sheet: each.sheet })) : demo.sheets.slice(0, 5).map(named);
  const compiled = step('compiled', () => compileAtlas(made));
  step('its joints', () => compiled.found());
  for (const { name, sheet } of sheets) verdictOn(compiled, name, sheet);
};

const named = (sheet: Sheet) => ({ name: sheet.id as string, sheet });

const larger = (atlas: Atlas, kind: string, times: number): Atlas => {
  if (kind === 'wild') return wildAtlas(atlas, times * atlas.parts.length);
  return largerAtlas(atlas, times);
};

/** The first verdict of a sheet and the second, and the bytes the window is told. */
const verdictOn = (compiled: CompiledAtlas, name: string, sheet: Sheet): void => {
  step(`verdict, ${name}`, () => answerInBrief(compiled, sheet));
  const again = step(`verdict again, ${name}`, () => answerInBrief(compiled, sheet));
  console.log(`reply, ${name}: ${Buffer.byteLength(JSON.stringify(answerAtOnce(again.brief)))} bytes`);
};

const step = <T>(name: string, job: () => T): T => {
  const start = process.cpuUsage();
  const done = job();
  const { user, system } = process.cpuUsage(start);
  const { heapUsed, rss } = process.memoryUsage();
  console.log(`${name}: ${inWords((user + system) / 1000)} of cpu, heap ${mebibytes(heapUsed)}, resident ${mebibytes(rss)}`);
  return done;
};

const mebibytes = (bytes: number): string => `${(bytes / 2 ** 20).toFixed(0)} MiB`;

await main();
process.exit(0);
