import { answerAtOnce } from '../../electron/desk/verdict-at-once.ts';
import { answerInBrief, compileAtlas, type Sheet } from '../../reasoner/index.ts';
import { median, slopeOf, table } from './clock.ts';
import type { DemoDesk } from './demo-desk.ts';
import { largerAtlas } from './larger-atlas.ts';

/** From how many parts on a reply may have so many bytes. */
const bounds = [
  [0, 20_000],
  [20_000, 30_000],
  [200_000, 50_000],
] as const;

/** The bytes of what the window is told after every entry, over the sample sheets from blank to whole, and as the atlas grows; of the largest atlases over some of them. */
export const repliesAsTheAtlasGrows = async ({ atlas, sheets }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const making = sheets
    .filter(({ kind }) => kind === 'found')
    .flatMap((sheet) =>
      [...sheet.observations.keys(), sheet.observations.length].map(
        (n): Sheet => ({ ...sheet, observations: sheet.observations.slice(0, n) }),
      ),
    );
  const rows: string[][] = [];
  const worst: number[] = [];
  for (const times of scales) {
    const compiled = compileAtlas(largerAtlas(atlas, times));
    const every = times < 10 ? 1 : times < 30 ? 4 : times < 100 ? 12 : 40;
    const bytes: number[] = [];
    let whole = 0;
    for (const sheet of making.filter((_, i) => i % every === 0)) {
      const answered = answerInBrief(compiled, sheet);
      bytes.push(bytesOf(answerAtOnce(answered.brief)));
      whole = Math.max(whole, bytesOf(answered.whole()));
    }
    const { length } = compiled.data.parts;
    const bound = bounds.findLast(([from]) => length >= from)?.[1] ?? 0;
    worst.push(Math.max(...bytes));
    rows.push([
      `${times}×`,
      String(length),
      String(bytes.length),
      String(Math.round(median(bytes))),
      String(Math.max(...bytes)),
      String(bound),
      Math.max(...bytes) <= bound ? 'yes' : 'no',
      String(whole),
    ]);
    process.stderr.write(`${times}× `);
  }
  process.stderr.write('\n');
  console.log('\nBytes of the reply to the window after an entry, and of the whole verdict it is told of.\n');
  console.log(table(['atlas', 'parts', 'sheets', 'median', 'worst', 'at most', 'within', 'whole, worst'], rows));
  if (scales.length > 1) console.log(`the worst grows as n^${slopeOf(scales, worst).toFixed(2)}`);
};

const bytesOf = (value: unknown): number => Buffer.byteLength(JSON.stringify(value));
