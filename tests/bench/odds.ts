import { type Atlas, type CompiledAtlas, compileAtlas, oddsOf, type Sheet, startingAssumptions } from '../../reasoner/index.ts';
import { groundOf } from '../../reasoner/odds/posterior.ts';
import { type SlotLikelihood, slotLikelihood } from '../../reasoner/odds/slot-likelihood.ts';
import { asRatio, inWords, median, table, timed } from './clock.ts';
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

/** Ranking and next check after each entry: as the window asks, by the reasoner alone, and beside the naive sums; then as the atlas grows. */
export const oddsAfterEachEntry = async ({ desk, atlas, sheets }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const compiled = compileAtlas(atlas);
  const consistent = sheets.filter((sheet) => oddsOf(compiled, sheet).kind === 'odds');
  const rows = Array.from({ length: entries + 1 }, () => ({ desk: [] as number[], own: [] as number[], naive: [] as number[] }));
  for (const [which, sheet] of consistent.entries()) {
    for (const [i, grown] of growing(sheet).entries()) {
      const row = rows[i] as (typeof rows)[number];
      // A sheet is weighed once: each run gets one of its own.
      row.desk.push((await timed(3, async () => answered(await desk['odds.of']({ sheet: { ...grown } } as never)))).median);
      row.own.push((await timed(3, () => oddsOf(compiled, { ...grown }))).median);
      // The naive sums take their time: every eighth sheet is put to them.
      if (which % 8 === 0) row.naive.push((await timed(1, () => naiveRanking(compiled, grown))).median);
    }
  }
  console.log(
    '\nRanking and next check after each entry on the demo atlas, medians over the sample sheets (naive sums: every eighth). The naive sums rank names alone, without any check.\n',
  );
  console.log(
    table(
      ['entries', 'as the window asks', 'reasoner', 'worst', 'within a frame', 'naive, names alone', 'naive / reasoner'],
      rows.map(({ desk: asked, own, naive }, i) => [
        String(i),
        inWords(median(asked)),
        inWords(median(own)),
        inWords(Math.max(...own)),
        `${own.filter((ms) => ms <= frame).length} of ${own.length}`,
        inWords(median(naive)),
        asRatio(median(naive) / median(own)),
      ]),
    ),
  );
  await asItGrows(atlas, consistent, scales);
};

const asItGrows = async (atlas: Atlas, sheets: readonly Sheet[], scales: readonly number[]): Promise<void> => {
  const rows: string[][] = [];
  let lastStep = 0;
  for (const times of scales) {
    if (lastStep > patience) {
      rows.push([`${times}×`, `not tried: the step before took ${inWords(lastStep)}`]);
      continue;
    }
    const start = performance.now();
    const compiled = compileAtlas(largerAtlas(atlas, times));
    const from = performance.now();
    const { targets } = groundOf(compiled);
    const ground = performance.now() - from;
    const empty = await timed(1, () => oddsOf(compiled, { ...(sheets[0] as Sheet), observations: [], absent: [] }));
    const full: number[] = [];
    for (const sheet of sheets) full.push((await timed(1, () => oddsOf(compiled, { ...sheet }))).median);
    rows.push([
      `${times}×`,
      String(compiled.atlas.models.length),
      String(targets.all.length),
      inWords(ground),
      inWords(empty.median),
      inWords(median(full)),
      inWords(Math.max(...full)),
      `${(process.memoryUsage().heapUsed / 2 ** 20).toFixed(0)} MiB`,
    ]);
    lastStep = performance.now() - start;
    process.stderr.write(`${times}× `);
  }
  process.stderr.write('\n');
  console.log(
    '\nThe odds as the atlas grows (copies of the demo pack): what is made once for an edition, and one ranking with its next check.\n',
  );
  console.log(table(['atlas', 'models', 'honest names', 'made once', 'nothing seen', 'median sheet', 'worst sheet', 'heap'], rows));
};

/**
 * The same names' chances by plain sums: for every model and every box of names a product over slots, each a sum over all parts of the slot.
 * Nothing is shared between models or set aside, and no check is weighed.
 */
const naiveRanking = (atlas: CompiledAtlas, sheet: Sheet): Float64Array => {
  const { built, targets } = groundOf(atlas);
  const seen = sheet.observations.filter(({ sure }) => sure.kind !== 'told');
  const slots = atlas.slots.map((slot, number) =>
    slotLikelihood(
      atlas,
      slot,
      built.seats[number] ?? [],
      seen.filter((observation) => observation.slot === slot.slot.id),
      sheet.absent.includes(slot.slot.id),
      startingAssumptions,
    ),
  );
  const sets = targets.demands.map((demands) => demands.map((parts) => new Set(parts)));
  const chances = new Float64Array(targets.all.length);
  let all = 0;
  built.models.forEach((_, model) => {
    const seats = slots.map((_slot, slot) => built.seatOf[slot]?.[model] as number);
    all += slots.reduce((product, { total }, slot) => product * (total[seats[slot] as number] as number), 1);
    for (const [box, { demands }] of targets.boxes.entries()) {
      let product = 1;
      slots.forEach((slot, number) => {
        const asked = demands[number] as number;
        const allowed = asked < 0 ? null : (sets[number]?.[asked] as ReadonlySet<number>);
        let sum = asked < 0 ? (slot.before.unlisted[seats[number] as number] as number) : 0;
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
  const fits = seat?.fits.includes(slot.matingOf[part] as number) ? (before.swappedIn[number] as number) : 0;
  const own = seat?.listed.includes(part) ? (before.own[number] as number) : 0;
  return (own + fits) * (ofPart[part] as number);
};
