import { type Apart, type CompiledAtlas, compileAtlas, type SubjectRef, smallestSets, tellApart } from '../../reasoner/index.ts';
import { Dice } from '../oracle/dice.ts';
import { asRatio, inWords, median, slopeOf, table, timed } from './clock.ts';
import { answered, type DemoDesk } from './demo-desk.ts';
import { largerAtlas } from './larger-atlas.ts';

/** Groups of each size are drawn by a fixed seed; so many. */
const groups = 8;

/** Subjects told apart: as the window asks, the smallest sets beside plain exhaustive search, and all of it as the atlas grows. */
export const tellingApart = async ({ desk, atlas }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const compiled = compileAtlas(atlas);
  const dice = new Dice(5);
  const rows: string[][] = [];
  for (const kind of ['family', 'model'] as const) {
    for (const size of [2, 3, 4, 5]) {
      const drawn = Array.from({ length: groups }, () => drawGroup(compiled, kind, size, dice));
      const times: { asked: number; own: number; sets: number; plain: number; checks: number; smallest: number }[] = [];
      for (const subjects of drawn) {
        const apart = apartOf(compiled, subjects);
        const { pairs, covers } = tableOf(apart);
        const [ours, plain] = [smallestSets(pairs, covers), plainSearch(pairs, covers)];
        if (ours.size !== plain.size || ours.count !== plain.count)
          throw new Error(
            `${JSON.stringify(subjects)}: ${plain.count} sets of ${plain.size} by plain search, ours ${ours.count} of ${ours.size}`,
          );
        times.push({
          asked: (await timed(3, async () => answered(await desk['apart.of']({ subjects, scope: {} } as never)))).median,
          own: (await timed(3, () => tellApart(compiled, subjects))).median,
          sets: (await timed(5, () => smallestSets(pairs, covers))).median,
          plain: (await timed(3, () => plainSearch(pairs, covers))).median,
          checks: covers.length,
          smallest: ours.size,
        });
      }
      const of = (what: keyof (typeof times)[number]) => median(times.map((one) => one[what]));
      rows.push([
        `${size} ${kind === 'family' ? 'families' : 'models'}`,
        String(of('checks')),
        `${Math.min(...times.map(({ smallest }) => smallest))} to ${Math.max(...times.map(({ smallest }) => smallest))}`,
        inWords(of('asked')),
        inWords(of('own')),
        inWords(of('sets')),
        inWords(of('plain')),
        asRatio(of('plain') / of('sets')),
      ]);
    }
  }
  console.log(`\nTold apart on the demo atlas, medians over ${groups} groups each. Plain search finds as many sets of the same size.\n`);
  console.log(
    table(['subjects', 'checks', 'smallest set', 'as the window asks', 'reasoner', 'smallest sets', 'plain search', 'plain / ours'], rows),
  );
  await asChecksGrow();
  await asTheAtlasGrows({ atlas }, scales);
};

const apartOf = (atlas: CompiledAtlas, subjects: readonly SubjectRef[]): Apart => {
  const apart = tellApart(atlas, subjects);
  if (apart.kind !== 'apart') throw new Error(JSON.stringify(apart));
  return apart;
};

const drawGroup = ({ data: atlas }: CompiledAtlas, kind: 'family' | 'model', size: number, dice: Dice): SubjectRef[] => {
  const left = (kind === 'family' ? atlas.families : atlas.models).map(({ id }) => id);
  return Array.from({ length: size }, () => ({ kind, id: left.splice(dice.whole(0, left.length - 1), 1)[0] }) as SubjectRef);
};

/** Which of the pairs that can be separated each check separates. */
const tableOf = ({ pairs, rows }: Apart): { readonly pairs: number; readonly covers: readonly (readonly number[])[] } => {
  const separable = pairs.flatMap((_, pair) => (rows.some(({ separates }) => separates[pair] === 'holds') ? [pair] : []));
  const covers = rows.map(({ separates }) => separable.flatMap((pair, i) => (separates[pair] === 'holds' ? [i] : [])));
  return { pairs: separable.length, covers: covers.filter((cover) => cover.length > 0) };
};

/** Every set of one check, then of two, and so on, until some separate every pair; how many of that size do. */
const plainSearch = (pairs: number, covers: readonly (readonly number[])[]): { readonly size: number; readonly count: number } => {
  const masks = covers.map((cover) => cover.reduce((mask, pair) => mask | (1 << pair), 0));
  const all = (1 << pairs) - 1;
  const count = (from: number, left: number, seen: number): number => {
    if (left === 0) return seen === all ? 1 : 0;
    let found = 0;
    for (let next = from; next <= masks.length - left; next += 1) found += count(next + 1, left - 1, seen | (masks[next] as number));
    return found;
  };
  for (let size = 0; ; size += 1) {
    const found = count(0, size, 0);
    if (found > 0) return { size, count: found };
  }
};

/** Random tables in which a check seldom separates a pair, so that several are needed. */
const asChecksGrow = async (): Promise<void> => {
  const counts = [10, 20, 30, 40, 60, 80];
  const measured: { ours: number; plain: number; size: number }[] = [];
  for (const checks of counts) {
    const dice = new Dice(checks);
    const covers = Array.from({ length: checks }, (_, check) =>
      Array.from({ length: 10 }, (_, pair) => pair).filter((pair) => pair === check % 10 || dice.often(8)),
    );
    const [ours, plain] = [smallestSets(10, covers), plainSearch(10, covers)];
    if (ours.size !== plain.size || ours.count !== plain.count) throw new Error(`random table of ${checks} checks`);
    measured.push({
      size: ours.size,
      ours: (await timed(5, () => smallestSets(10, covers))).median,
      plain: (await timed(1, () => plainSearch(10, covers))).median,
    });
  }
  console.log('\nSmallest sets of random checks that separate five subjects.\n');
  console.log(
    table(
      ['checks', 'smallest set', 'ours', 'plain search', 'plain / ours'],
      measured.map(({ size, ours, plain }, i) => [String(counts[i]), String(size), inWords(ours), inWords(plain), asRatio(plain / ours)]),
    ),
  );
  const slope = (of: (one: (typeof measured)[number]) => number) => slopeOf(counts, measured.map(of)).toFixed(2);
  console.log(`Cost grows with the checks to the power: ours ${slope(({ ours }) => ours)}, plain search ${slope(({ plain }) => plain)}.`);
};

const asTheAtlasGrows = async ({ atlas }: Pick<DemoDesk, 'atlas'>, scales: readonly number[]): Promise<void> => {
  const subjects: SubjectRef[] = atlas.models.slice(0, 5).map(({ id }) => ({ kind: 'model', id }));
  const medians: number[] = [];
  for (const times of scales) {
    const compiled = compileAtlas(largerAtlas(atlas, times));
    medians.push((await timed(5, () => apartOf(compiled, subjects))).median);
  }
  const list = scales.map((times, i) => `${times}× ${inWords(medians[i] as number)}`).join(', ');
  const power = scales.length > 1 ? `; to the power ${slopeOf(scales, medians).toFixed(2)} of its size` : '';
  console.log(`\nThe same five models told apart as the atlas grows: ${list}${power}.`);
};
