import type { Locator } from '@playwright/test';
import { axeClean, noViolations } from './axe-clean.ts';
import { expect, reading, saving as test } from './fixtures.ts';
import { openSheet, tabTo } from './keyboard.ts';

test.describe('the glossary', () => {
  test.use({ viewport: { width: 1280, height: 800 } });

  reading(
    '[V2] from any screen, by keyboard: the terms that stand on it, one looked up, its drawing, another searched for',
    async ({ page }, info) => {
      const words = page.getByRole('button', { name: 'Words', exact: true });
      await tabTo(page, words);
      await page.keyboard.press('Enter');
      const panel = page.getByRole('region', { name: 'Trade terms on this screen' });
      for (const term of ['compressor wheel', 'bearing set', 'nameplate'])
        await expect(panel.getByRole('link', { name: term, exact: true })).toBeVisible();
      await noViolations(page, 'words here');
      await info.attach('words here', { body: await page.screenshot(), contentType: 'image/png' });
      await page.keyboard.press('Escape');
      await expect(panel).toBeHidden();
      await expect(words).toBeFocused();

      await page.keyboard.press('Enter');
      await tabTo(page, panel.getByRole('link', { name: 'turbine wheel', exact: true }));
      await page.keyboard.press('Enter');
      const article = page.getByRole('article');
      await expect(article.getByRole('heading', { level: 2, name: 'turbine wheel' })).toBeVisible();
      await expect(article.locator('figure.drawing svg')).toBeVisible();
      await expect(article).toContainText('Drawn from');
      await expect(article).toContainText('common practice, no source');

      await tabTo(page, page.getByRole('searchbox', { name: 'Trade term' }));
      await page.keyboard.type('cut');
      await page.keyboard.press('ArrowDown');
      await expect(page.locator('.glossary-list a').first()).toBeFocused();
      await page.keyboard.press('Enter');
      await expect(article.getByRole('heading', { level: 2, name: 'cutback' })).toBeVisible();
      await expect(article.locator('figure.drawing svg')).toBeVisible();
      await axeClean(page, 'cutback', info);
    },
  );

  reading(
    '[V2] a term on a page says its meaning when it has the focus, loses it with Escape, and leads to the glossary',
    async ({ page }) => {
      await page.evaluate(() => {
        window.location.hash = '#/atlas/model/petrel-13-cartridge';
      });
      const term = page.getByRole('article').getByRole('link', { name: 'turbine wheel', exact: true });
      await tabTo(page, term);
      const tip = page.getByRole('tooltip').filter({ hasText: 'exhaust gas turns' });
      await expect(tip).toBeVisible();
      await expect(term).toHaveAccessibleDescription(/The hot wheel/);
      await noViolations(page, 'a term explained');
      await page.keyboard.press('Escape');
      await expect(tip).toBeHidden();
      await page.keyboard.press('Enter');
      await expect(page.getByRole('heading', { level: 2, name: 'turbine wheel' })).toBeVisible();
    },
  );

  reading(
    '[V2] by keyboard the words of a screen show their drawings one after another; on the screen itself a term under the pointer does',
    async ({ page }, info) => {
      await openSheet(page, 'Known housing, nameless core');
      await page.getByRole('button', { name: 'Words', exact: true }).focus();
      await page.keyboard.press('Enter');
      const panel = page.getByRole('region', { name: 'Trade terms on this screen' });
      await tabTo(page, panel.getByRole('link', { name: 'turbine wheel', exact: true }));
      await expect(panel.getByRole('img', { name: 'Blades, from the outlet' })).toBeVisible();
      await noViolations(page, 'words with a drawing');
      await page.screenshot({ path: info.outputPath('words.png') });
      await page.keyboard.press('Escape');

      // For the pointer alone: Tab goes from field to field as before.
      const inline = page.getByRole('heading', { name: 'turbine wheel', exact: true }).getByRole('link');
      await expect(inline).toHaveAttribute('tabindex', '-1');
      await inline.hover();
      const tip = page.getByRole('tooltip');
      await expect(tip).toContainText('exhaust gas turns');
      await expect(tip.locator('svg.scene')).toBeVisible();
      await noViolations(page, 'a term under the pointer');
      await page.screenshot({ path: info.outputPath('term.png') });
      await tip.hover();
      await expect(tip).toBeVisible();
      await page.keyboard.press('Escape');
      await expect(tip).toBeHidden();
      await inline.click();
      await expect(page.getByRole('heading', { level: 2, name: 'turbine wheel' })).toBeVisible();
    },
  );

  test('[V2] terms are linked where they stand: sheet, verdict, next check, build, tell apart, key, drills, report', async ({ page }) => {
    await openSheet(page, 'Known housing, nameless core');
    const linked = (within: Locator) => expect(within.locator('.term a').first()).toBeVisible();
    await linked(page.locator('.slot-head').first());
    await page.locator('.swap summary').first().click();
    await linked(page.locator('.swap-parts').first());
    await page.getByRole('tab', { name: 'What next' }).click();
    await linked(page.locator('.next-how'));
    await page.getByRole('link', { name: 'Report', exact: true }).click();
    await linked(page.locator('.report'));
    for (const [hash, within] of [
      ['#/apart/family/petrel/family/skua', '.check-set'],
      ['#/key/family/rowan', '.key-place'],
    ] as const) {
      await page.evaluate((to) => {
        window.location.hash = to;
      }, hash);
      await linked(page.locator(within).first());
    }
    await page.getByRole('link', { name: 'Drills', exact: true }).click();
    await page.getByRole('textbox', { name: 'Name of a new learner' }).fill('Wenna');
    await page.keyboard.press('Enter');
    await linked(page.locator('.drill-shown'));
    await page.getByRole('link', { name: 'Sheets' }).click();
    await page.getByRole('button', { name: 'A Tarnwick housing on a Gannet core', exact: true }).click();
    await expect(page.locator('.joint-table')).toBeVisible();
    await linked(page.locator('.joint-table'));
  });

  reading('[V2] every screen has its words', async ({ page }) => {
    for (const [hash, landmark, term] of [
      ['#/unit', '.slot-head', 'compressor housing'],
      ['#/sheets', '.sheet-row', 'sheet'],
      ['#/atlas/family/petrel', 'article h2', 'family'],
      ['#/tree', '.tree-body text', 'model'],
      ['#/apart/family/petrel/family/skua', '.apart-table', 'turbine wheel'],
    ] as const) {
      await page.evaluate((to) => {
        window.location.hash = to;
      }, hash);
      // The words are those that stand on the screen when they are asked for.
      await expect(page.locator(landmark).first()).toBeVisible();
      await page.getByRole('button', { name: 'Words', exact: true }).click();
      await expect(
        page.getByRole('region', { name: 'Trade terms on this screen' }).getByRole('link', { name: term, exact: true }),
      ).toBeVisible();
      await page.keyboard.press('Escape');
    }
  });

  reading('[V2] a term that is not there is said, and every term has a drawing', async ({ page }) => {
    await page.evaluate(() => {
      window.location.hash = '#/glossary/flux';
    });
    await expect(page.getByRole('alert')).toHaveText('The glossary has no term “flux”.');
    const links = page.locator('.glossary-list a');
    await expect.poll(() => links.count()).toBeGreaterThan(38);
    const count = await links.count();
    for (let at = 0; at < count; at += 1) {
      const term = (await links.nth(at).textContent()) ?? '';
      await links.nth(at).click();
      await expect(page.getByRole('article').getByRole('heading', { level: 2, name: term, exact: true })).toBeVisible();
      await expect(page.getByRole('article').locator('figure.drawing svg')).toBeVisible();
      await expect(page.getByRole('article')).toContainText('Drawn from');
    }
  });
});
