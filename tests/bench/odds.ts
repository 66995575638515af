import { compileAtlas, oddsOf, type Sheet } from '../../reasoner/index.ts';
import { asRatio, inWords, median, type Timing, table, timed } from './clock.ts';
import { answered, type DemoDesk } from './demo-desk.ts';
import { naiveRanking } from './naive-odds.ts';

/** A frame at sixty a second, in milliseconds. */
const frame = 1000 / 60;
/** So many entries of each sheet are made one after the other, the odds asked for after each. */
const entries = 6;

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

/** Ranking and next check after each entry: as the window asks, by the reasoner alone, and beside the naive sums. */
export const oddsAfterEachEntry = async ({ desk, atlas, sheets }: DemoDesk): Promise<void> => {
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
};
