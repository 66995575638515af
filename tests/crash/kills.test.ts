import { expect, test } from 'vitest';
import { built } from './child.ts';
import { noCounts, shopDays } from './days.ts';

test('[P5] killed over and over while sheets, photographs, backups, restores and packs come and go: nothing that was said to be done is lost', async () => {
  const program = await built('shop-days');
  const counts = noCounts();
  await Promise.all([shopDays(program, 1, 6, counts), shopDays(program, 2, 6, counts)]);
  expect(counts.lost).toEqual([]);
  expect(counts).toMatchObject({ kills: 12 });
  expect(counts.acknowledged).toBeGreaterThan(50);
  expect(counts.backups).toBeGreaterThan(3);
});
