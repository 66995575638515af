import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { test as base, expect } from '../e2e/fixtures.ts';
import { guidePage } from './page.ts';
import { mostBytes, pictures } from './pictures.ts';
import { smallPng } from './smallPng.ts';

const docs = fileURLToPath(new URL('../../docs', import.meta.url));
const into = path.join(docs, 'guide');

/** A data folder nothing was ever kept in. */
const test = base.extend({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads a fixture's needs from this pattern
  data: async ({}, use) => {
    const folder = mkdtempSync(path.join(tmpdir(), 'kinplate-guide-'));
    await use(folder);
    rmSync(folder, { recursive: true, force: true });
  },
});
test.use({ viewport: { width: 1100, height: 760 }, colorScheme: 'light', reducedMotion: 'reduce' });

test('the pictures of the guide are taken anew over the invented atlas, and its page is written', async ({ page }) => {
  // The day in every picture is the same.
  await page.clock.setFixedTime(new Date('2026-11-30T09:12:00Z'));
  await page.reload();
  rmSync(into, { recursive: true, force: true });
  mkdirSync(into, { recursive: true });
  for (const { file, show } of pictures) {
    await test.step(file, async () => {
      await show(page);
      await page.evaluate(() => document.fonts.ready.then(() => undefined));
      const picture = smallPng(await page.screenshot({ caret: 'hide', animations: 'disabled' }));
      expect.soft(picture.length, `${file} is small`).toBeLessThanOrEqual(mostBytes);
      writeFileSync(path.join(into, file), picture);
    });
  }
  writeFileSync(path.join(docs, 'guide.md'), guidePage());
});
