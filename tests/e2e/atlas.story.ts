import { readFileSync } from 'node:fs';
import { axeCleanInOneWindow } from './axe-clean.ts';
import { expect, reading } from './fixtures.ts';

reading.describe('the atlas', () => {
  reading.beforeEach(async ({ page }) => {
    await page.getByRole('link', { name: 'Atlas' }).click();
  });

  reading('[A1] search as you type, by keyboard: a number leads to its part, the part to its models', async ({ page }) => {
    const search = page.getByRole('searchbox', { name: 'Name or part number' });
    await search.focus();
    await page.keyboard.type('MAST 16627');
    const hits = page.locator('.hits');
    await expect(hits.getByRole('link').first()).toBeVisible();
    await page.keyboard.press('ArrowDown');
    await expect(hits.getByRole('link').first()).toBeFocused();
    await page.keyboard.press('Enter');
    const article = page.getByRole('article');
    await expect(article.getByRole('heading', { level: 2 })).toBeVisible();
    await expect(article).toContainText('MAST 16627');
    await expect(article.getByRole('heading', { name: /What is known of it/ })).toBeVisible();
    await expect(article.getByRole('heading', { name: 'What it fits' })).toBeVisible();
    await article.getByRole('link', { name: /^Tern/ }).first().click();
    await expect(article.getByRole('heading', { level: 2, name: /^Tern/ })).toBeVisible();
  });

  reading('[A5] what is not known of a part is written as not known', async ({ page }) => {
    const facts = readFileSync(new URL('../../seed-data/demo-pack/facts.csv', import.meta.url), 'utf8');
    const part = /^([^,\n]+),[^,\n]+,\?,/m.exec(facts)?.[1];
    if (part === undefined) throw new Error('the demo pack has no fact that is not known');
    await page.evaluate((id) => {
      window.location.hash = `#/atlas/part/${encodeURIComponent(id)}`;
    }, part);
    await expect(page.getByRole('article').getByRole('cell', { name: 'not known', exact: true }).first()).toBeVisible();
  });

  reading('[A1] a family says where it comes from, and how it is related to another', async ({ page }) => {
    await page.getByRole('link', { name: 'Skua', exact: true }).click();
    const article = page.getByRole('article');
    await expect(article.getByRole('heading', { level: 2, name: 'Skua' })).toBeVisible();
    await article.getByRole('combobox').selectOption('Gannet');
    const steps = article.getByRole('list', { name: 'Shortest reason they are related' }).getByRole('listitem');
    await expect(steps.first()).toContainText('Skua');
    await expect(steps.last()).toContainText('Gannet');
    await page.reload();
    await expect(steps.last()).toContainText('Gannet');
    await page.goBack();
    await expect(article.getByRole('list', { name: 'Shortest reason they are related' })).toHaveCount(0);
  });

  reading('[A4] a maker’s page says how its names are built', async ({ page }) => {
    await page.getByRole('link', { name: 'Merrowby', exact: true }).click();
    const article = page.getByRole('article');
    await expect(article).toContainText('Lisle-Merrowby');
    await expect(article.locator('.grammar li').first()).toBeVisible();
  });

  reading('[A1] a page that does not exist says so', async ({ page }) => {
    await page.evaluate(() => {
      window.location.hash = '#/atlas/part/no-such-part';
    });
    await expect(page.getByRole('article').getByRole('alert')).toContainText('no-such-part');
  });

  reading('[A1] nothing found is said, and an empty box shows the makers again', async ({ page }) => {
    const search = page.getByRole('searchbox', { name: 'Name or part number' });
    await search.fill('zzzzqq');
    await expect(page.getByText('Nothing in the atlas is called “zzzzqq”.')).toBeVisible();
    await search.fill('');
    await expect(page.getByRole('link', { name: 'Merrowby', exact: true })).toBeVisible();
  });

  reading(
    '[V4] typed and entered at once, the first hit of what was typed is opened, and none of what was typed before',
    async ({ page }) => {
      const head = page.getByRole('article').getByRole('heading', { level: 2 });
      await page.getByRole('searchbox', { name: 'Name or part number' }).focus();
      await page.keyboard.type('skua');
      await expect(page.locator('.hits a').first()).toHaveText(/Skua/);
      await page.keyboard.press('Control+a');
      await page.keyboard.type('petrel 13 cartridge');
      await page.keyboard.press('Enter');
      await expect(head).toHaveText('Petrel 13 Cartridge');
      await page.evaluate(() => (window.location.hash = '#/glossary'));
      await page.getByRole('searchbox', { name: 'Trade term' }).focus();
      await page.keyboard.type('cutback');
      await page.keyboard.press('Enter');
      await expect(head).toHaveText('cutback');
    },
  );

  reading('[V4] an address that is none of ours says so, with the one that may be meant and other ways on', async ({ page }, info) => {
    await page.evaluate(() => (window.location.hash = '#/stok/shelf'));
    await expect(page.getByRole('heading', { level: 1, name: 'There is no such screen' })).toBeVisible();
    await expect(page.getByRole('alert')).toContainText('stok/shelf');
    await axeCleanInOneWindow(page, 'no such screen', info);
    await page.getByRole('link', { name: 'stock', exact: true }).press('Enter');
    await expect(page.getByRole('heading', { level: 1, name: 'Stock' })).toBeVisible();
  });
});
