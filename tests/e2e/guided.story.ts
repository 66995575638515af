import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { test as base, expect } from './fixtures.ts';
import { featureBox, tabTo, verdictSettled, walkTo } from './keyboard.ts';

/** A data folder nothing was ever kept in. */
const test = base.extend({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads a fixture's needs from this pattern
  data: async ({}, use) => {
    const folder = mkdtempSync(path.join(tmpdir(), 'kinplate-guided-'));
    await use(folder);
    rmSync(folder, { recursive: true, force: true });
  },
});
test.use({ viewport: { width: 1024, height: 700 }, permissions: ['clipboard-read', 'clipboard-write'] });

const panelOf = (page: Page) => page.getByRole('complementary', { name: 'Guided first case' });

/** What is pointed at stands in the window, and the panel does not cover it. */
const isInSight = async (page: Page): Promise<void> => {
  await expect(page.locator('[data-guided]')).toHaveCount(1);
  await expect(page.locator('[data-guided]')).toBeInViewport();
  const [pointed, panel] = [await page.locator('[data-guided]').boundingBox(), await panelOf(page).boundingBox()];
  if (pointed === null || panel === null) throw new Error('one of the two has no place on the page');
  expect(pointed.y, 'the panel covers what it points at').toBeGreaterThanOrEqual(panel.y + panel.height);
};

test('[V5] a newcomer is led by keyboard from the first start to the copied words for the ticket; it can be left and taken up, and writes nothing itself', async ({
  page,
}, info) => {
  const panel = panelOf(page);
  const says = (text: string | RegExp) => expect(panel.getByRole('status')).toContainText(text);
  /** F4 leads to what the step points at, whatever has the focus. */
  const go = async (): Promise<void> => {
    await isInSight(page);
    await page.keyboard.press('F4');
    await expect(page.locator('[data-guided]:focus, [data-guided] :focus')).toHaveCount(1);
  };

  await test.step('it is offered once the invented atlas is begun', async () => {
    await tabTo(page, page.getByRole('button', { name: 'Look round in the invented atlas' }));
    await page.keyboard.press('Enter');
    await says('New here?');
    await tabTo(page, panel.getByRole('button', { name: 'Begin the first case' }));
    await page.keyboard.press('Enter');
    await says('pick the maker');
    await expect(page.locator('[data-guided]'), 'what the first step points at has the focus').toBeFocused();
    await expect(page.locator('[data-entry]')).toHaveCount(0);
    await axeClean(page, 'the guided first case', info);
  });

  await test.step('the claim', async () => {
    await go();
    await page.keyboard.type('Merrowby');
    await says('Petrel 13 Cartridge');
    await go();
    await page.keyboard.type('Petrel 13 Cartridge');
    await page.keyboard.press('Enter');
    await expect(featureBox(page, 'compressor housing')).toBeFocused();
  });

  await test.step('the entries: each is noticed by itself', async () => {
    const enter = async (feature: string, does: string, value: () => Promise<void>, slot: string): Promise<void> => {
      await says(feature);
      await go();
      await expect(featureBox(page, slot)).toBeFocused();
      await page.keyboard.type(feature);
      await page.keyboard.press('Enter');
      await says(does);
      await isInSight(page);
      await value();
      await page.keyboard.press('Enter');
    };
    await enter('cast name', 'MERROWBY', () => page.keyboard.type('MERROWBY'), 'compressor housing');
    // A slip is noticed as well, and can be mended.
    await enter('full blade count', 'write 7', () => page.keyboard.type('6'), 'compressor wheel');
    await says('says otherwise');
    await go();
    await page.keyboard.press('Delete');
    await enter('full blade count', 'write 7', () => page.keyboard.type('7'), 'compressor wheel');
    await enter('splitter blade count', 'write 7', () => page.keyboard.type('7'), 'compressor wheel');
  });

  await test.step('left, and taken up again from help on another screen and in a smaller window', async () => {
    await tabTo(page, panel.getByRole('button', { name: 'Leave the first case' }), true);
    await page.keyboard.press('Enter');
    await expect(panel).toHaveCount(0);
    await expect(page.locator('[data-guided]')).toHaveCount(0);
    await page.setViewportSize({ width: 853, height: 533 });
    await page.evaluate(() => (window.location.hash = '#/stock'));
    await expect(page.getByRole('heading', { level: 1, name: 'Stock' })).toBeVisible();
    await page.keyboard.press('F1');
    await tabTo(page, page.getByRole('button', { name: 'The guided first case' }));
    await page.keyboard.press('Enter');
    await says('water ports');
    await page.reload();
    await says('water ports');
  });

  await test.step('the rest of the entries, on the core', async () => {
    const begin = async (feature: string, slot: string): Promise<void> => {
      await says(feature);
      await go();
      await expect(featureBox(page, slot)).toBeFocused();
      await page.keyboard.type(feature);
      await page.keyboard.press('Enter');
      await expect(page.getByRole('form', { name: `${feature}: enter` })).toBeVisible();
      await go();
    };
    await begin('water ports', 'bearing housing');
    await says('pick not there');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await begin('cast name', 'bearing housing');
    await says('no letters with Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Space');
    await page.keyboard.press('Enter');
    await begin('blade count', 'turbine wheel');
    await page.keyboard.type('11');
    await page.keyboard.press('Enter');
    await says('In the line of the nameplate');
    await walkTo(page, 'nameplate');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Space');
  });

  await test.step('the answer is read, and its words are copied', async () => {
    await says('press Copy');
    // What an earlier story copied may still be there.
    await page.evaluate(() => navigator.clipboard.writeText('nothing of this'));
    // A system that lets no page write on its clipboard, and none do so at a press either: the copy key does.
    await page.evaluate(() => {
      navigator.clipboard.writeText = () => Promise.reject(new Error('not allowed'));
      document.execCommand = () => false;
    });
    await go();
    await page.keyboard.press('Enter');
    await expect(page.getByText('press Ctrl+C to copy them')).toBeVisible();
    await says('press Copy');
    // Words that no longer stand there are not what it copies.
    const clipboard = () => page.evaluate(() => navigator.clipboard.readText());
    const offered = page.getByRole('textbox', { name: 'Offered as' });
    await offered.fill('Shearwater 9');
    await expect(page.getByText('press Ctrl+C to copy them')).toHaveCount(0);
    await offered.press('Control+c');
    expect(await clipboard()).toBe('nothing of this');
    await offered.fill('Petrel 13 Cartridge');
    await says('press Copy');
    await verdictSettled(page);
    await page.keyboard.press('F9');
    await expect(page.getByText('press Ctrl+C to copy them')).toBeVisible();
    await page.keyboard.press('Control+c');
    await says('That was the case.');
    const words = await clipboard();
    expect(words).toContain('This unit must not be described as Merrowby Petrel 13 Cartridge.');
    await expect(page.locator('[data-entry]')).toHaveCount(6);
    await tabTo(page, panel.getByRole('button', { name: 'Close the first case' }), true);
    await page.keyboard.press('Enter');
    await expect(panel).toHaveCount(0);
  });
});
