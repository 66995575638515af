import { type Atlas, answerInBrief, compileAtlas } from '../../../reasoner/index.ts';
import { inWords, median, slopeOf, table, timed } from '../clock.ts';
import { wildAtlas } from './wild-atlas.ts';
import { wildSheets } from './wild-sheets.ts';

const count = 28;

/** Verdicts on sheets of an atlas made by a seed, in which every size differs, as it grows; of each kind of sheet, and how those with six entries grow. */
export const wildVerdicts = async (like: Atlas, scales: readonly number[]): Promise<void> => {
  const rows: string[][] = [];
  const [sizes, costs]: [number[], number[]] = [[], []];
  for (const times of scales) {
    const atlas = wildAtlas(like, times * like.parts.length);
    const start = process.cpuUsage();
    const compiled = compileAtlas(atlas);
    compiled.found();
    const { user, system } = process.cpuUsage(start);
    const measured: { readonly kind: string; readonly id: string; readonly cpu: number }[] = [];
    for (const { kind, sheet } of wildSheets(atlas, count))
      measured.push({ kind, id: sheet.id, cpu: (await timed(5, () => answerInBrief(compiled, sheet))).cpu });
    const of = (kind: string) => median(measured.filter((each) => each.kind === kind).map(({ cpu }) => cpu));
    const worst = measured.reduce((p, q) => (q.cpu > p.cpu ? q : p));
    sizes.push(atlas.parts.length);
    costs.push(of('six entries'));
    rows.push([
      String(atlas.parts.length),
      String(atlas.models.length),
      inWords((user + system) / 1000),
      inWords(median(measured.map(({ cpu }) => cpu))),
      inWords(worst.cpu),
      worst.kind,
      ...['six entries', 'plate alone', 'looked through', 'one slot swapped', 'two slots swapped'].map((kind) => inWords(of(kind))),
      `${(process.memoryUsage().heapUsed / 2 ** 20).toFixed(0)} MiB`,
    ]);
    process.stderr.write(`${times}× `);
  }
  process.stderr.write('\n');
  console.log(
    `\nThe verdict on an atlas made by a seed, in which every size differs, ${count} sheets of its own, cpu time; medians of each kind.\n`,
  );
  const head = [
    'parts',
    'models',
    'compiled',
    'all',
    'worst',
    'which',
    'six entries',
    'plate',
    'thirty',
    'one swapped',
    'two swapped',
    'heap',
  ];
  console.log(table(head, rows));
  if (sizes.length > 1) console.log(`\nA verdict with six entries grows as n^${slopeOf(sizes, costs).toFixed(2)} (cpu time).`);
};
