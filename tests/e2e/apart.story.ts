import type { Page } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { expect, reading } from './fixtures.ts';
import { tabTo } from './keyboard.ts';

const adder = (page: Page) => page.getByRole('combobox', { name: 'Add a family, model or part' });

const add = async (page: Page, typed: string, chosen: string) => {
  await tabTo(page, adder(page));
  await page.keyboard.type(typed);
  await expect(page.getByRole('listbox').getByText(chosen, { exact: true }).first()).toBeVisible();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('list', { name: 'To be told apart' }).getByText(chosen, { exact: true })).toBeVisible();
};

const answered = (page: Page) => expect(page.locator('.apart-screen')).toHaveAttribute('aria-busy', 'false');

reading.use({ viewport: { width: 1280, height: 800 } });

reading(
  '[D2] the trainer tells Petrel, its successor and its copy apart, by keyboard, and sees what does it drawn',
  async ({ page }, info) => {
    await tabTo(page, page.getByRole('link', { name: 'Tell apart' }));
    await page.keyboard.press('Enter');
    await add(page, 'petrel', 'Petrel');
    await add(page, 'skua', 'Skua');
    await expect(page.getByRole('heading', { name: /tells? the two apart/ })).toBeVisible();
    await add(page, 'northq', 'Northquay');
    await answered(page);

    // By looks alone: no letters, nothing taken apart.
    const letters = page.getByRole('checkbox', { name: 'letters on parts' });
    await tabTo(page, letters, true);
    await page.keyboard.press('Space');
    const far = page.getByRole('combobox', { name: 'Taken apart as far as' });
    await tabTo(page, far, true);
    await page.keyboard.press('Home');
    await expect(far.locator('option:checked')).toHaveText('as received');
    await answered(page);
    const table = page.getByRole('table', { name: 'Tell some apart for certain' });
    await expect(table.getByRole('row', { name: /turbine wheel: blade count/ })).toContainText('11 blades');
    await expect(table.getByText('cast name')).toHaveCount(0);
    await expect(table.getByText('turbine housing off')).toHaveCount(0);
    // Of one check nothing needs to be said of fewer.
    await expect(page.getByText('Why no fewer')).toHaveCount(
      (await page.getByRole('heading', { name: /^One check tells/ }).count()) === 0 ? 1 : 0,
    );

    // Every check that is recommended is drawn, for each of the three.
    const checks = page.locator('.check-set').last().locator('li:not(.check-minutes)');
    await expect(checks).not.toHaveCount(0);
    const drawn = page.locator('.apart-drawn');
    await expect(drawn).toHaveCount(await checks.count());
    for (const section of await drawn.all())
      for (const name of ['Petrel', 'Skua', 'Northquay']) await expect(section.locator('figure', { hasText: name }).first()).toBeVisible();

    // A row brings its drawing forward, one for each, with as many blades as it says.
    const blades = page.getByRole('button', { name: 'turbine wheel: blade count' });
    await tabTo(page, blades);
    await page.keyboard.press('Enter');
    await expect(blades).toHaveAttribute('aria-pressed', 'true');
    const copy = page.locator('.apart-drawn figure', { hasText: 'Northquay' });
    await expect(copy.locator('path[data-feature="turbine-wheel-blades"]')).toHaveCount(11);

    await axeClean(page, 'told apart', info);

    // The address holds what was chosen.
    await page.reload();
    await expect(page.getByRole('list', { name: 'To be told apart' }).getByRole('listitem')).toHaveCount(3);
    await page.emulateMedia({ media: 'print' });
    await expect(page.getByRole('table', { name: 'Tell some apart for certain' })).toBeVisible();
    await expect(adder(page)).toBeHidden();
    await info.attach('told-apart.pdf', {
      body: await page.pdf({ format: 'A4', preferCSSPageSize: true }),
      contentType: 'application/pdf',
    });
  },
);

reading('[D1] from a pattern part’s page to what tells it from its original', async ({ page }) => {
  await page.getByRole('link', { name: 'Atlas' }).click();
  await page.getByRole('searchbox').fill('northquay turbine wheel');
  await page.locator('.hits a').first().focus();
  await page.keyboard.press('Enter');
  const link = page.getByRole('link', { name: 'Tell it apart from what it is a pattern of' });
  await tabTo(page, link);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: /One check tells the two apart/ })).toBeVisible();
  await expect(page.getByRole('table', { name: 'Tell some apart for certain' })).toContainText('cutback');
});

reading('[T1] families and parts are not mixed, and one alone is told from nothing', async ({ page }) => {
  await page.evaluate(() => {
    window.location.hash = '#/apart/family/petrel';
  });
  await expect(page.getByText('Now a second one, to hold it against')).toBeVisible();
  await page.evaluate(() => {
    window.location.hash = '#/apart/family/petrel/family/heron';
  });
  await expect(page.getByText('The atlas has no family “heron”.')).toBeVisible();
});
