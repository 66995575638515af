import { type Atlas, type CompiledAtlas, compileAtlas, oddsOf, type Sheet, startingAssumptions } from '../../reasoner/index.ts';
import { groundOf } from '../../reasoner/odds/ground.ts';
import { type SlotLikelihood, slotGround, slotLikelihood } from '../../reasoner/odds/slot-likelihood.ts';
import { asRatio, inWords, median, type Timing, table, timed } from './clock.ts';
import { answered, type DemoDesk } from './demo-desk.ts';
import { largerAtlas } from './larger-atlas.ts';

/** A frame at sixty a second, in milliseconds. */
const frame = 1000 / 60;
/** So many entries of each sheet are made one after the other, the odds asked for after each. */
const entries = 6;
/** A scale that took longer than this, in milliseconds, ends the series. */
const patience = 60_000;

/** A sheet as it grows: nothing entered, one entry, two. */
const growing = (sheet: Sheet): Sheet[] =>
  Array.from({ length: Math.min(entries, sheet.observations.length) + 1 }, (_, i) => ({
    ...sheet,
    observations: sheet.observations.slice(0, i),
  }));

/** A sheet the desk has not been asked about: it answers each once. */
export const anew = (sheet: Sheet): Sheet => {
  asked += 1;
  return { ...sheet, title: `${sheet.title} ${asked}` };
};
let asked = 0;

/** Ranking and next check after each entry: as the window asks, by the reasoner alone, and beside the naive sums; then as the atlas grows. */
export const oddsAfterEachEntry = async ({ desk, atlas, sheets }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const compiled = compileAtlas(atlas);
  const consistent = sheets.filter((sheet) => oddsOf(compiled, sheet).kind === 'odds');
  const rows = Array.from({ length: entries + 1 }, () => ({
    desk: [] as Timing[],
    readings: [] as Timing[],
    own: [] as Timing[],
    naive: [] as Timing[],
  }));
  for (const [which, sheet] of consistent.entries()) {
    for (const [i, grown] of growing(sheet).entries()) {
      const row = rows[i] as (typeof rows)[number];
      row.desk.push(await timed(5, async () => answered(await desk['odds.of']({ sheet: anew(grown) } as never))));
      const { next } = answered(await desk['odds.of']({ sheet: grown } as never));
      if (next !== null) {
        const feature = next.check.feature;
        row.readings.push(await timed(3, async () => answered(await desk['odds.check']({ sheet: grown, feature } as never))));
      }
      row.own.push(await timed(5, () => oddsOf(compiled, { ...grown })));
      // The naive sums take their time: every eighth sheet is put to them.
      if (which % 8 === 0) row.naive.push(await timed(1, () => naiveRanking(compiled, grown)));
    }
  }
  const wall = (times: readonly Timing[]) => times.map((each) => each.median);
  const cpu = (times: readonly Timing[]) => times.map((each) => each.cpu);
  const within = (times: readonly number[]) => `${times.filter((ms) => ms <= frame).length} of ${times.length}`;
  console.log(
    '\nRanking and next check after each entry on the demo atlas, medians over the sample sheets (naive sums: every eighth). The naive sums rank names alone, without any check. “cpu” is what the process was charged for.\n',
  );
  console.log(
    table(
      [
        'entries',
        'as the window asks',
        'cpu',
        'worst',
        'worst cpu',
        'within a frame',
        'its readings, after',
        'reasoner',
        'cpu',
        'naive',
        'naive / reasoner',
      ],
      rows.map(({ desk: window, readings, own, naive }, i) => [
        String(i),
        inWords(median(wall(window))),
        inWords(median(cpu(window))),
        inWords(Math.max(...wall(window))),
        inWords(Math.max(...cpu(window))),
        within(wall(window)),
        inWords(median(wall(readings))),
        inWords(median(wall(own))),
        inWords(median(cpu(own))),
        inWords(median(wall(naive))),
        asRatio(median(cpu(naive)) / median(cpu(own))),
      ]),
    ),
  );
  const all = rows.flatMap(({ desk: window }) => window);
  console.log(`\nWithin one frame (16.7 ms), as the window asks: ${within(wall(all))} by the clock, ${within(cpu(all))} by cpu time.`);
  await asItGrows(atlas, consistent, scales);
};

/** One size of the atlas. Milliseconds of cpu time. */
interface Grown {
  readonly times: number;
  readonly models: number;
  readonly names: number;
  readonly ground: number;
  /** The first answer of an edition, which makes what each feature can be read as. */
  readonly first: number;
  readonly empty: number;
  readonly middle: number;
  readonly worst: number;
  /** Of plain sums, where they were tried. */
  readonly naive: number | null;
  readonly heap: number;
}

/** Plain sums cost the square of the atlas: on larger ones than this, times the demo atlas, they are not waited for. */
const mostNaive = 3;

const asItGrows = async (atlas: Atlas, sheets: readonly Sheet[], scales: readonly number[]): Promise<void> => {
  const rows: Grown[] = [];
  const notTried: string[] = [];
  let lastStep = 0;
  for (const times of scales) {
    if (lastStep > patience) {
      notTried.push(`${times}× was not tried: the step before took ${inWords(lastStep)}.`);
      continue;
    }
    const start = performance.now();
    const larger = compileAtlas(largerAtlas(atlas, times));
    const charged = process.cpuUsage();
    const { targets } = groundOf(larger);
    const ground = cpuSince(charged);
    const untouched: Sheet = { ...(sheets[0] as Sheet), observations: [], absent: [] };
    const before = process.cpuUsage();
    oddsOf(larger, { ...untouched });
    const first = cpuSince(before);
    const empty = await timed(3, () => oddsOf(larger, { ...untouched }));
    const full: number[] = [];
    for (const sheet of sheets) full.push((await timed(times > 10 ? 1 : 3, () => oddsOf(larger, { ...sheet }))).cpu);
    const naive = times > mostNaive ? null : (await timed(1, () => naiveRanking(larger, untouched))).cpu;
    rows.push({
      times,
      models: larger.data.models.length,
      names: targets.all.length,
      ground,
      first,
      empty: empty.cpu,
      middle: median(full),
      worst: Math.max(...full),
      naive,
      heap: process.memoryUsage().heapUsed / 2 ** 20,
    });
    lastStep = performance.now() - start;
    process.stderr.write(`${times}× `);
  }
  process.stderr.write('\n');
  console.log(
    '\nThe odds as the atlas grows (copies of the demo pack), cpu time: what is made once for an edition, and one ranking with its next check.\n',
  );
  const columns = [
    ['made once', 'ground'],
    ['first answer', 'first'],
    ['nothing seen', 'empty'],
    ['median sheet', 'middle'],
    ['worst sheet', 'worst'],
    ['naive, nothing seen', 'naive'],
  ] as const;
  console.log(
    table(
      ['atlas', 'models', 'honest names', ...columns.map(([title]) => title), 'naive / ours', 'heap'],
      [
        ...rows.map((row) => [
          `${row.times}×`,
          String(row.models),
          String(row.names),
          ...columns.map(([, key]) => (row[key] === null ? 'not tried' : inWords(row[key]))),
          row.naive === null ? '' : asRatio(row.naive / row.empty),
          `${row.heap.toFixed(0)} MiB`,
        ]),
        ['grows as', '', '', ...columns.map(([, key]) => power(rows, key)), '', ''],
      ],
    ),
  );
  if (notTried.length > 0) console.log(notTried.join('\n'));
};

const cpuSince = (charged: NodeJS.CpuUsage): number => {
  const { user, system } = process.cpuUsage(charged);
  return (user + system) / 1000;
};

/** How cost grows with the size of the atlas: the slope of a straight line through the logarithms of both (least squares), as `n^1.2`. */
const power = (rows: readonly Grown[], key: 'ground' | 'first' | 'empty' | 'middle' | 'worst' | 'naive'): string => {
  const points = rows.flatMap((row) => (row[key] === null ? [] : [[Math.log(row.times), Math.log(row[key])] as const]));
  if (points.length < 2) return '';
  const mean = (axis: 0 | 1) => points.reduce((sum, point) => sum + point[axis], 0) / points.length;
  const [x, y] = [mean(0), mean(1)];
  const slope = points.reduce((sum, [a, b]) => sum + (a - x) * (b - y), 0) / points.reduce((sum, [a]) => sum + (a - x) ** 2, 0);
  return `n^${slope.toFixed(2)}`;
};

/**
 * The same names' chances by plain sums: for every model and every box of names a product over slots, each a sum over all parts of the slot.
 * Nothing is shared between models or set aside, and no check is weighed.
 */
const naiveRanking = (atlas: CompiledAtlas, sheet: Sheet): Float64Array => {
  const { built, targets } = groundOf(atlas);
  const seen = sheet.observations.filter(({ sure }) => sure.kind !== 'told');
  const slots = atlas.slots.map((slot) =>
    slotLikelihood(
      atlas,
      slotGround(built, slot, sheet.absent.includes(slot.data.id)),
      seen.filter((observation) => observation.slot === slot.data.id),
      startingAssumptions,
    ),
  );
  const sets = targets.demands.map((demands) => demands.map((parts) => new Set(parts)));
  const chances = new Float64Array(targets.all.length);
  let all = 0;
  built.models.forEach((model, at) => {
    const seats = slots.map((_slot, slot) => built.seatOf[slot]?.[at] as number);
    const { stranger } = startingAssumptions;
    const before = model === null ? stranger : (1 - stranger) / (built.models.length - 1);
    all += slots.reduce((product, { total }, slot) => product * (total[seats[slot] as number] as number), before);
    for (const [box, { demands }] of targets.boxes.entries()) {
      let product = before;
      slots.forEach((slot, number) => {
        const asked = demands[number] as number;
        const allowed = asked < 0 ? null : (sets[number]?.[asked] as ReadonlySet<number>);
        let sum = asked < 0 ? (slot.before.unlisted[seats[number] as number] as number) * slot.ofUnlisted : 0;
        slot.slot.parts.forEach((_part, part) => {
          if (allowed === null || (!slot.absent && allowed.has(part))) sum += chanceOf(slot, seats[number] as number, part);
        });
        product *= sum;
      });
      for (let i = targets.weights.from[box] as number; i < (targets.weights.from[box + 1] as number); i += 1) {
        const target = targets.weights.targets[i] as number;
        chances[target] = (chances[target] as number) + (targets.weights.weights[i] as number) * product;
      }
    }
  });
  return chances.map((chance) => chance / all);
};

const chanceOf = ({ slot, seats, before, ofPart }: SlotLikelihood, number: number, part: number): number => {
  const seat = seats[number];
  const fits = seat?.fits.includes(slot.matingOf[part] as number) ? (before.fits[number] as number) : 0;
  const own = seat?.listed.includes(part) ? (before.own[number] as number) : 0;
  return (own + fits + (before.any[number] as number)) * (ofPart[part] as number);
};
