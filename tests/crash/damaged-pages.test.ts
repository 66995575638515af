import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Counts, copying, countsText, damageRun, lostIn, newCounts, seeded } from '../damage/damage-run.ts';
import { fillShop, shipped } from '../damage/shop.ts';
import { type StandingShop, standingShop } from '../damage/standing-shop.ts';

/*
 * A small part of `npm run long -- damaged-pages`, which takes every page of an atlas of 1,500, 5,000 pairs, and 300 pages of one above 64 MiB: here the atlas has
 * some 500 pages, of which every tenth is hit, with 40 pairs by seed, and 4 pages of one above 64 MiB.
 */
const scratch = mkdtempSync(join(tmpdir(), 'kinplate-damage-'));
const setting = copying(shipped, join(scratch, 'made'));
let whole: Buffer;
let shop: StandingShop;
beforeAll(async () => {
  for (const folder of ['made', 'filled', 'large']) mkdirSync(join(scratch, folder));
  whole = readFileSync((await fillShop(join(scratch, 'filled'), { sheets: 40, photos: 6, photoBytes: 30_000, topics: 24 })).file);
  shop = standingShop(whole);
});
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const runs = async (of: StandingShop, bytes: Buffer, hits: readonly (readonly number[])[], seed: number): Promise<Counts> => {
  const counts = newCounts();
  for (const [index, pages] of hits.entries()) await damageRun(of, bytes, pages, seed + index, setting, join(scratch, 'run'), counts);
  return counts;
};

const expectNothingLost = (counts: Counts): void => {
  expect({ lost: lostIn(counts), wrong: counts.wrong }, countsText(counts)).toEqual({ lost: 0, wrong: 0 });
  // The pages that were hit did hold something, or this would say nothing.
  expect(counts.of.sheet.readable).toBeGreaterThan(0);
};

describe('pages overwritten', () => {
  test('[P3] each tenth page of a filled atlas: nothing is lost that stands whole anywhere, nothing is put back that was never saved', async () => {
    const hits = Array.from({ length: shop.file.pageCount }, (_, n) => [n + 1]).filter(([page = 0]) => page % 10 === 1);
    expectNothingLost(await runs(shop, whole, hits, 100));
  });

  test('[P3] two pages at once, by seed', async () => {
    const random = seeded(11);
    const page = (): number => 1 + Math.floor(random() * shop.file.pageCount);
    expectNothingLost(
      await runs(
        shop,
        whole,
        Array.from({ length: 40 }, () => [page(), page()]),
        200,
      ),
    );
  });

  test('[P3] an atlas above 64 MiB, which an ordinary opening does not check', async () => {
    const large = readFileSync((await fillShop(join(scratch, 'large'), { sheets: 12, photos: 9, photoBytes: 7_700_000, topics: 4 })).file);
    expect(large.length).toBeGreaterThan(64 * 2 ** 20);
    const of = standingShop(large);
    const random = seeded(13);
    const trees = [...of.file.treePages];
    const hits = Array.from({ length: 4 }, (_, n) => [
      n % 2 === 0 ? (trees[Math.floor(random() * trees.length)] ?? 1) : 1 + Math.floor(random() * of.file.pageCount),
    ]);
    expectNothingLost(await runs(of, large, hits, 300));
  });
});
