// npm run long -- damaged-pages [share] [seed] [round]: pages of filled atlases are overwritten, each is mended, and what could be read of it is held against what
// is there again. Every page of one of up to 2,000 in turn, 5,000 pairs of them, and 300 pages of one above 64 MiB; a share (0.1) of each is taken by seed.
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { copying, countsText, damageRun, lostIn, newCounts, seeded } from '../damage/damage-run.ts';
import { fillShop, shipped } from '../damage/shop.ts';
import { standingShop } from '../damage/standing-shop.ts';

const [share = 1, seed = 1] = process.argv.slice(2, 4).map(Number);
/** One round alone, by the beginning of its name. */
const only = process.argv[4] ?? '';
const folder = mkdtempSync(join(tmpdir(), 'kinplate-damaged-pages-'));
mkdirSync(join(folder, 'made'));
const setting = copying(shipped, join(folder, 'made'));
const random = seeded(seed);
let bad = 0;

const round = async (
  name: string,
  whole: Buffer,
  choose: (shop: ReturnType<typeof standingShop>) => readonly (readonly number[])[],
): Promise<void> => {
  if (!name.startsWith(only)) return;
  const shop = standingShop(whole);
  const counts = newCounts();
  const hits = choose(shop).filter(() => share >= 1 || random() < share);
  console.log(
    `\n${name}: ${shop.file.pageCount} pages of ${shop.file.pageSize} bytes, ${shop.things.length} things, ${hits.length} runs, each page overwritten with noise or zeros`,
  );
  for (const [index, pages] of hits.entries()) {
    await damageRun(shop, whole, pages, seed * 1_000_003 + index, setting, join(folder, 'run'), counts);
    if (counts.runs % 100 === 0) console.log(`… ${counts.runs} runs, lost though readable ${lostIn(counts)}, wrong ${counts.wrong}`);
  }
  console.log(countsText(counts));
  bad += lostIn(counts) + counts.wrong;
};

try {
  mkdirSync(join(folder, 'filled'));
  const filled = await fillShop(join(folder, 'filled'), { sheets: 110, photos: 45, photoBytes: 90_000, story: 1800, topics: 60 });
  const whole = readFileSync(filled.file);
  const pageOf = (count: number): number => 1 + Math.floor(random() * count);
  await round('every page', whole, ({ file }) => Array.from({ length: file.pageCount }, (_, n) => [n + 1]));
  await round('pairs of pages', whole, ({ file }) => Array.from({ length: 5000 }, () => [pageOf(file.pageCount), pageOf(file.pageCount)]));
  mkdirSync(join(folder, 'large'));
  const large = await fillShop(join(folder, 'large'), { sheets: 30, photos: 10, photoBytes: 7_000_000, story: 900, topics: 20 });
  // Half of them among pages of trees, of which there are few here: nearly all of this file is photographs.
  await round('above 64 MiB', readFileSync(large.file), ({ file }) => {
    const trees = [...file.treePages];
    return Array.from({ length: 300 }, (_, n) => [
      n % 2 === 0 ? (trees[Math.floor(random() * trees.length)] ?? 1) : pageOf(file.pageCount),
    ]);
  });
} finally {
  rmSync(folder, { recursive: true, force: true });
}
console.log(bad === 0 ? '\nNothing was lost that could be read, and nothing was put back that was never saved.' : `\n${bad} faults.`);
process.exitCode = bad === 0 ? 0 : 1;
