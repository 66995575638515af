import path from 'node:path';
import { axeCleanInOneWindow, violationsByDayAndNight } from './axe-clean.ts';
import { expect, reading, test } from './fixtures.ts';
import { featureBox, openSheet, tabTo, verdictSettled } from './keyboard.ts';
import { cutOnPaper, paleOnPaper, widerThanTheirRoom } from './on-paper.ts';
import { sample, screens } from './screens.ts';

const fileNameOf = (words: string): string => words.replace(/[^a-z0-9]+/gi, '-').replace(/^-|-$/g, '');

/** Where it is set, every screen is gone over at all sizes, and printed into that folder: `npm run long -- screens`. */
const allInto = process.env.KINPLATE_SCREENS;

/** 1280 by 800 at 150 % and at 200 % come last. */
const sizes = [
  [1600, 1000],
  [1280, 800],
  [1024, 700],
  [853, 533],
  [640, 400],
] as const;

reading.describe('at 1280 by 800', () => {
  reading.use({ viewport: { width: 1280, height: 800 } });
  for (const screen of screens.filter(({ heldIn }) => heldIn === undefined)) {
    const story = screen.saves ? test : reading;
    story(`[V1] ${screen.name}: no accessibility violation by day or by night, and no scrolling of the whole`, async ({ page }, info) => {
      reading.skip(allInto !== undefined);
      await screen.show(page);
      await axeCleanInOneWindow(page, screen.name, info);
    });
  }
});

reading.describe('at every size, and on paper', () => {
  reading.skip(allInto === undefined, 'npm run long -- screens');
  reading.use({ viewport: { width: 1600, height: 1000 } });
  for (const screen of screens) {
    const story = screen.saves ? test : reading;
    story(`[V1] ${screen.name}, at every size and on paper`, async ({ page }) => {
      await screen.show(page);
      for (const [width, height] of sizes) {
        await page.setViewportSize({ width, height });
        const at = `${screen.name} at ${width} by ${height}`;
        expect.soft(await widerThanTheirRoom(page), `${at}: what would have to be scrolled sideways`).toEqual([]);
        expect.soft(await violationsByDayAndNight(page), at).toEqual([]);
        for (const colorScheme of ['dark', 'light'] as const) {
          await page.emulateMedia({ colorScheme });
          await page.screenshot({ path: path.join(allInto ?? '', `${fileNameOf(at)}-${colorScheme}.png`) });
        }
      }
      await page.setViewportSize({ width: 1280, height: 800 });
      await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
      expect.soft(await paleOnPaper(page), `${screen.name}, printed by night: what is too pale on white`).toEqual([]);
      expect.soft(await cutOnPaper(page), `${screen.name}, printed: what is cut off`).toEqual([]);
      await page.emulateMedia({ media: null, colorScheme: 'dark' });
      const pdf = await page.pdf({
        format: 'A4',
        preferCSSPageSize: true,
        path: path.join(allInto ?? '', `${fileNameOf(screen.name)}.pdf`),
      });
      expect.soft(pdf.length).toBeGreaterThan(1000);
    });
  }
});

reading('[V1] the switch outranks the system, and is remembered', async ({ page }) => {
  const ground = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  await page.emulateMedia({ colorScheme: 'light' });
  const paper = await ground();
  await page.getByRole('combobox', { name: 'Colours' }).selectOption('night');
  const slate = await ground();
  expect(slate).not.toBe(paper);
  await page.reload();
  await expect(page.getByRole('combobox', { name: 'Colours' })).toHaveValue('dark');
  expect(await ground()).toBe(slate);
});

reading(
  '[W1] the verdict prints on A4: what was seen, the reasons, both ticket texts and the cautions, nothing of the window',
  async ({ page }, info) => {
    await openSheet(page, sample);
    await page.emulateMedia({ media: 'print' });
    const verdict = page.getByRole('region', { name: 'Verdict' });
    for (const kept of [
      page.getByRole('textbox', { name: 'Title of the sheet' }),
      page.locator('[data-entry]').first(),
      verdict.locator('h2.headline'),
      verdict.locator('.conflicts li').first(),
      verdict.locator('.ticket-text.is-may'),
      verdict.locator('.ticket-text.is-must-not'),
      verdict.locator('.cautions'),
    ]) {
      await expect(kept).toBeVisible();
    }
    for (const left of [page.locator('.bar'), page.locator('.slot-add').first(), page.locator('.jump')]) await expect(left).toBeHidden();
    expect(await cutOnPaper(page), 'nothing is left out for want of a window').toEqual([]);
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    expect(await paleOnPaper(page), 'by night it prints dark ink as well').toEqual([]);
    const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: true });
    const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
    expect(pages).toBeGreaterThanOrEqual(1);
    expect(pages).toBeLessThanOrEqual(3);
    await info.attach('verdict.pdf', { body: pdf, contentType: 'application/pdf' });
  },
);

reading(
  '[V4] F1 opens help at what belongs to the screen, and the screen comes back with all that was begun on it',
  async ({ page }, info) => {
    await page.setViewportSize({ width: 1024, height: 700 });
    const help = page.getByRole('dialog', { name: 'Help' });
    const opensAt = async (screen: string, head: string, key: 'F1' | '?' = 'F1') => {
      await page.keyboard.press(key);
      const here = help.getByRole('region', { name: `On this screen: ${screen}` });
      await expect(here.getByRole('heading', { level: 2 })).toBeFocused();
      await expect(here.getByRole('heading', { name: `What is done here: ${head}`, exact: true })).toBeVisible();
      return here;
    };
    const leave = async () => {
      await page.keyboard.press('Escape');
      await expect(help).toHaveCount(0);
    };
    const begin = (hash: string) => page.evaluate((to) => (window.location.hash = to), hash);

    await verdictSettled(page);
    await featureBox(page, 'turbine wheel').focus();
    await page.keyboard.type('exd');
    const here = await opensAt('Unit', 'Say what a unit is');
    await expect(here.getByRole('row').nth(2), 'the screen’s own keys come first').toContainText('from slot to slot');
    await axeCleanInOneWindow(page, 'help', info);
    await leave();
    await expect(featureBox(page, 'turbine wheel')).toBeFocused();
    // Where one writes, ? is written.
    await page.keyboard.press('?');
    await expect(featureBox(page, 'turbine wheel')).toHaveValue('exd?');
    await tabTo(page, page.getByRole('checkbox', { name: /^absent: turbine wheel/ }));
    await opensAt('Unit', 'Say what a unit is', '?');
    await leave();
    await expect(page.getByRole('checkbox', { name: /^absent: turbine wheel/ })).toBeFocused();

    // Over a question that waits for its answer, and gone with Back as with Escape.
    await page.keyboard.press('F2');
    const number = page.getByRole('dialog', { name: 'Part number' });
    await number.getByRole('searchbox').fill('OAR 57750/2');
    await page.keyboard.press('F1');
    await expect(help).toBeVisible();
    await page.goBack();
    await expect(help).toHaveCount(0);
    await expect(number.getByRole('searchbox')).toHaveValue('OAR 57750/2');
    await page.keyboard.press('Escape');

    for (const [hash, screen, head] of [
      ['#/table', 'Bring a spreadsheet', 'Bring a spreadsheet'],
      ['#/edit/makers', 'Edit the atlas', 'Add a maker, how it builds names, how it makes numbers'],
      ['#/nowhere', 'No such screen', 'What Kinplate answers'],
      ['#/history', 'History', 'Look at the history, and undo a change'],
    ] as const) {
      await begin(hash);
      await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
      await opensAt(screen, head);
      await leave();
    }

    // The bar keeps to one line, with what is done with a sheet in it too.
    for (const hash of ['#/build', '#/report']) {
      await begin(hash);
      await expect(page.getByRole('toolbar', { name: 'Sheet' })).toBeVisible();
      expect((await page.getByRole('banner').boundingBox())?.height, hash).toBeLessThan(45);
      await page.goBack();
    }

    // Nothing of help is left between one screen and the one before it.
    await page.goBack();
    await expect(page.getByRole('heading', { level: 1, name: 'There is no such screen' })).toBeVisible();

    // Along the headings, to where a recipe begins, and back to the recipe.
    await begin('#/stock');
    await page.getByRole('link', { name: 'Help', exact: true }).press('Enter');
    await tabTo(page, help.getByRole('navigation').getByRole('link', { name: 'Sign a pack, and read it in another shop' }), true);
    await page.keyboard.press('Enter');
    const recipe = help.getByRole('region', { name: 'Sign a pack, and read it in another shop' });
    await expect(recipe.getByRole('heading')).toBeFocused();
    await recipe.getByRole('link', { name: 'Packs' }).press('Enter');
    await expect(help).toHaveCount(0);
    await expect(page.getByRole('region', { name: 'Keys' })).toBeVisible();
    await page.goBack();
    await expect(recipe.getByRole('heading')).toBeFocused();
    await page.goBack();
    await expect(page.getByRole('heading', { level: 1, name: 'Stock' })).toBeVisible();

    // Opened by its address there is nothing to go back to, and it prints whole and alone.
    await begin('#/help/keyboard');
    await expect(help.getByRole('heading', { name: 'Keys', exact: true })).toBeFocused();
    await page.reload();
    await expect(help.getByRole('row', { name: /^F8 the next cell to mend/ })).toBeVisible();
    const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: true });
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBeGreaterThan(5);
    await page.emulateMedia({ media: 'print' });
    await expect(page.getByRole('main')).toBeHidden();
    await expect(help.getByRole('navigation')).toBeHidden();
    await page.emulateMedia({ media: 'screen' });
    await leave();
    await expect(page).toHaveURL(/#\/unit$/);
  },
);

reading('[V1] on a narrow window the columns follow each other and nothing is cut off', async ({ page }) => {
  await page.setViewportSize({ width: 760, height: 900 });
  await openSheet(page, sample);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBe(0);
  await expect(page.locator('h2.headline')).toBeVisible();
  // 1280 by 800 at 150 %: a head that stood would leave the slots no room, and a large target is no wider than the column.
  await page.setViewportSize({ width: 853, height: 533 });
  expect(await page.locator('.slots').evaluate((slots) => slots.scrollHeight - slots.clientHeight), 'the column scrolls as one').toBe(0);
  await page.getByRole('checkbox', { name: 'Large targets' }).check();
  expect(await widerThanTheirRoom(page)).toEqual([]);
});
