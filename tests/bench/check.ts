import { emptyAtlas } from '../../db/atlas/pack.ts';
import { canonicalText } from '../../db/packs/canonical.ts';
import { checkFiles } from '../../db/packs/check-pack.ts';
import { readFiles } from '../../db/packs/read.ts';
import { filesOf } from '../../db/packs/read-files.ts';
import { askedForPacks } from '../../electron/desk/open-house.ts';
import { asRatio, inWords, slopeOf, table, timed } from './clock.ts';
import type { DemoDesk } from './demo-desk.ts';
import { largerAtlas } from './larger-atlas.ts';
import { packOf } from './pack-of.ts';

const runs = 9;

/** What it costs to look for all that is suspicious of a pack, beside reading it with all its faults: the demo pack in memory, and as it grows. */
export const checksAsAPackGrows = async ({ atlas }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const rows: string[][] = [];
  const [sizes, costs]: [number[], number[]] = [[], []];
  for (const times of scales) {
    const pack = packOf(largerAtlas(atlas, times));
    const files = filesOf('demo', canonicalText(pack));
    const read = await timed(runs, () => readFiles(files, { ...askedForPacks, beside: async () => emptyAtlas }, async () => emptyAtlas));
    const checked = await timed(runs, () => checkFiles(files, emptyAtlas, askedForPacks));
    const { faults, warnings } = await checkFiles(files, emptyAtlas, askedForPacks);
    sizes.push(times);
    costs.push(checked.cpu);
    rows.push([
      `${times}×`,
      String(pack.parts.length),
      inWords(read.cpu),
      inWords(checked.cpu),
      asRatio(checked.cpu / read.cpu),
      String(faults.length),
      String(warnings.length),
    ]);
  }
  console.log('\nA pack checked, beside the same pack read (cpu time)\n');
  console.log(table(['atlas', 'parts', 'read', 'checked', 'checked / read', 'faults', 'warnings'], rows));
  if (sizes.length > 1) console.log(`grows as n^${slopeOf(sizes, costs).toFixed(1)}`);
};
