import { type Atlas, type CompiledAtlas, compileAtlas, oddsOf, type Sheet } from '../../reasoner/index.ts';
import { groundOf } from '../../reasoner/odds/ground.ts';
import { asRatio, inWords, median, slopeOf, table } from './clock.ts';
import type { DemoDesk } from './demo-desk.ts';
import { largerAtlas } from './larger-atlas.ts';
import { naiveRanking } from './naive-odds.ts';
import { wildAtlas } from './wild/wild-atlas.ts';
import { wildSheets } from './wild/wild-sheets.ts';

/** Each sheet is asked so often after the first time, less often once that has taken so many milliseconds; the quickest counts. */
const again = { most: 4, patience: 2000 };
/** So many sheets of an atlas made by a seed. */
const count = 28;
/** Once the sheets of a scale have taken so long, in milliseconds, no further one is asked but these few; nor is a larger scale tried. */
const patience = 60_000;
const atLeast = 6;
/** Plain sums cost the square of the atlas: on larger ones than this, times the demo atlas, they are not waited for. */
const mostNaive = 3;

/** One size of one kind of atlas. Milliseconds of cpu time. */
interface Grown {
  readonly atlas: string;
  readonly parts: number;
  readonly models: number;
  readonly names: number;
  readonly sheets: string;
  readonly ground: number;
  /** The first answer of an edition, which makes what each feature can be read as. */
  readonly opening: number;
  readonly empty: number;
  readonly first: number;
  readonly middle: number;
  readonly worst: number;
  /** Of plain sums, where they were tried. */
  readonly naive: number | null;
  readonly heap: number;
}

/** What the odds of a whole sheet cost as the atlas grows: copies of the demo atlas, and one made by a seed, in which every size differs. */
export const oddsAsItGrows = async ({ atlas, sheets }: DemoDesk, scales: readonly number[]): Promise<void> => {
  console.log(
    `\nRanking and next check as the atlas grows, cpu time. “Median” and “worst” are of whole sheets asked again, which finds what the entries of each slot say kept; the quickest of up to ${again.most}. “First” is the median of asking them for the first time.\n`,
  );
  // What runs for the first time in a process costs more: the demo atlas is gone through once before.
  const warm = compileAtlas(atlas);
  for (const sheet of sheets) oddsOf(warm, sheet);
  const copies = series(scales, (times) => [`copies, ${times}×`, times === 1 ? atlas : largerAtlas(atlas, times), sheets]);
  const wild = series(scales, (times) => {
    const made = wildAtlas(atlas, times * atlas.parts.length);
    return [`by a seed, ${times}×`, made, wildSheets(made, count).map(({ sheet }) => sheet)];
  });
  process.stderr.write('\n');
  const head = ['atlas', 'parts', 'models', 'honest names', 'sheets', ...figures.map(([title]) => title), 'naive / ours', 'heap'];
  console.log(table(head, [...copies.map(rowOf), growth(copies), ...wild.map(rowOf), growth(wild)]));
};

type Asked = readonly [what: string, atlas: Atlas, sheets: readonly Sheet[]];

const series = (scales: readonly number[], at: (times: number) => Asked): Grown[] => {
  const rows: Grown[] = [];
  for (const times of scales) {
    const start = performance.now();
    const [what, atlas, sheets] = at(times);
    rows.push(grownTo(what, compileAtlas(atlas), sheets, times <= mostNaive));
    process.stderr.write(`${what} `);
    const took = performance.now() - start;
    if (took > patience && times !== scales.at(-1)) {
      console.log(`Nothing larger than “${what}” was tried: it took ${inWords(took)}.`);
      break;
    }
  }
  return rows;
};

const grownTo = (what: string, atlas: CompiledAtlas, sheets: readonly Sheet[], naively: boolean): Grown => {
  const ground = cpuOf(() => groundOf(atlas));
  const untouched: Sheet = { ...(sheets[0] as Sheet), observations: [], absent: [], unseen: [] };
  const opening = cpuOf(() => oddsOf(atlas, { ...untouched }));
  const empty = quickest(() => oddsOf(atlas, { ...untouched }));
  const until = performance.now() + patience;
  const asked: { readonly first: number; readonly own: number }[] = [];
  let tried = 0;
  for (const sheet of sheets) {
    if (tried >= atLeast && performance.now() > until) break;
    tried += 1;
    let consistent = false;
    const first = cpuOf(() => {
      consistent = oddsOf(atlas, { ...sheet }).kind === 'odds';
    });
    if (consistent) asked.push({ first, own: quickest(() => oddsOf(atlas, { ...sheet })) });
  }
  return {
    atlas: what,
    parts: atlas.data.parts.length,
    models: atlas.data.models.length,
    names: groundOf(atlas).targets.all.length,
    sheets: tried === sheets.length ? `${asked.length}` : `${asked.length}, then out of time`,
    ground,
    opening,
    empty,
    first: median(asked.map(({ first }) => first)),
    middle: median(asked.map(({ own }) => own)),
    worst: Math.max(...asked.map(({ own }) => own)),
    naive: naively ? cpuOf(() => naiveRanking(atlas, untouched)) : null,
    heap: process.memoryUsage().heapUsed / 2 ** 20,
  };
};

const figures = [
  ['made once', 'ground'],
  ['first answer', 'opening'],
  ['nothing seen', 'empty'],
  ['first', 'first'],
  ['median', 'middle'],
  ['worst', 'worst'],
] as const;

const rowOf = (row: Grown): string[] => [
  row.atlas,
  String(row.parts),
  String(row.models),
  String(row.names),
  row.sheets,
  ...figures.map(([, key]) => inWords(row[key])),
  row.naive === null ? '' : asRatio(row.naive / row.empty),
  `${row.heap.toFixed(0)} MiB`,
];

/** By figure, as `n^1.2` of the number of parts. */
const growth = (rows: readonly Grown[]): string[] => {
  const power = (key: (typeof figures)[number][1]): string =>
    `n^${slopeOf(
      rows.map(({ parts }) => parts),
      rows.map((row) => row[key]),
    ).toFixed(2)}`;
  return ['grows as', '', '', '', '', ...figures.map(([, key]) => (rows.length > 1 ? power(key) : '')), '', ''];
};

const quickest = (job: () => unknown): number => {
  const until = performance.now() + again.patience;
  let least = cpuOf(job);
  for (let i = 1; i < again.most && performance.now() < until; i += 1) least = Math.min(least, cpuOf(job));
  return least;
};

const cpuOf = (job: () => unknown): number => {
  const charged = process.cpuUsage();
  job();
  const { user, system } = process.cpuUsage(charged);
  return (user + system) / 1000;
};
