import type { Page } from '@playwright/test';
import { expect, reading } from './fixtures.ts';
import { enter, featureBox, openSheet, tabTo, typed, verdictSettled } from './keyboard.ts';

const sample = 'Known housing, nameless core';
reading.use({ viewport: { width: 1280, height: 800 } });

const weighed = (page: Page) => expect(page.getByRole('region', { name: 'Next check' })).toHaveAttribute('data-state', 'answered');
const whatNext = async (page: Page): Promise<void> => {
  await tabTo(page, page.getByRole('tab', { name: 'Why' }));
  await page.keyboard.press('ArrowRight');
  await expect(page.getByRole('heading', { name: 'What to look at next' })).toBeVisible();
  // Until the odds of this sheet are here, those of the one before it stay on the screen.
  await weighed(page);
};
/** Opens one of the folds of the page. */
const unfold = async (page: Page, head: string): Promise<void> => {
  await tabTo(page, page.locator('.next-fold > summary').filter({ hasText: head }));
  await page.keyboard.press('Enter');
};

reading('[Q1] the shop’s own assumptions are remembered, refused out of bounds, and set back; no status follows them', async ({ page }) => {
  await openSheet(page, sample);
  await whatNext(page);
  await unfold(page, 'How likely each is');
  const summary = page.locator('.assumptions summary');
  const statuses = await page.locator('.headline-block').textContent();
  await tabTo(page, summary);
  await page.keyboard.press('Enter');
  const slips = page.getByRole('textbox', { name: 'Slips, percent of readings' });
  await tabTo(page, slips);
  await page.keyboard.press('Control+A');
  await page.keyboard.type('0');
  await expect(page.getByRole('alert')).toContainText('“0” was given; 0.1 to 20 percent is wanted. The odds still take 2 % for granted.');
  await page.keyboard.type('.5');
  await expect(page.getByRole('alert')).toHaveCount(0);
  await expect(slips).toBeFocused();
  await expect(summary).toContainText('0.5 % of entries are slips');
  await weighed(page);
  await page.reload();
  await verdictSettled(page);
  await unfold(page, 'How likely each is');
  await expect(summary).toContainText('0.5 % of entries are slips (the shop’s own)');
  await summary.press('Enter');
  await expect(slips).toHaveValue('0.5');
  await page.getByRole('button', { name: 'Back to the starting figures' }).press('Enter');
  await expect(summary).not.toContainText('own');
  await expect(slips).toHaveValue('2');
  expect(await page.locator('.headline-block').textContent()).toBe(statuses);
});

reading(
  '[Q1] of names that are equally likely none is called the likeliest: they stand together, and what they are among is said',
  async ({ page }) => {
    await openSheet(page, sample);
    await weighed(page);
    await expect(page.getByRole('region', { name: 'Next check' })).not.toContainText('%');
    await whatNext(page);
    await unfold(page, 'How likely each is');
    await expect(page.locator('.if-right')).toContainText(/The entries leave \d+ names: how likely each is/);
    const names = page.getByRole('table', { name: 'Its honest name, if every part were known' });
    await expect(names).toContainText('The first 3 are equally likely.');
    const rows = names.getByRole('row').filter({ hasText: 'pattern of Merrowby' });
    const shares = await rows.locator('td.chance-share').allTextContents();
    expect(shares).toHaveLength(3);
    expect(new Set(shares).size).toBe(1);
    // What the verdict says of each stands beside it.
    expect(new Set(await rows.locator('td.chance').allTextContents())).toEqual(new Set(['open']));
  },
);

reading(
  '[Q1] one voice: an entry likely to be wrong is read again before one stops, and nothing else is asked for; read again and the same, one may stop',
  async ({ page }) => {
    await openSheet(page, 'A cartridge without its water');
    await weighed(page);
    const next = page.getByRole('region', { name: 'Next check' });
    const stop = next.locator('.stop-line');
    await expect(next.locator('.next-how')).toHaveText('Read again: the water ports of the bearing housing');
    await expect(next.locator('.next-settles')).toContainText('If it reads the same, you may stop');
    await expect(stop).toHaveCount(0);
    await whatNext(page);
    await unfold(page, 'How likely each is');
    const suspects = page.getByRole('list', { name: 'Which entry is wrong, the likeliest first' });
    await expect(suspects.getByRole('listitem').first()).toContainText('the water ports of the bearing housing');
    await expect(page.locator('.if-right')).toContainText('The entries rule out every name of the atlas: what is left is a list of parts.');
    await expect(page.locator('.if-right')).not.toContainText('Petrel 13 Cartridge, whatever');
    await expect(page.locator('.if-wrong')).toContainText('core of Merrowby Petrel 13 Cartridge, whatever its housings');
    await expect(page.locator('.if-wrong')).toContainText('The entries as they stand rule that out.');
    await expect(page.locator('#verdict-page')).not.toContainText(/\bbits\b/);
    await tabTo(page, next.getByRole('button', { name: 'It reads the same' }), true);
    await page.keyboard.press('Enter');
    await expect(stop).toContainText('You may stop: no check still to be made could change the honest name or the claim.');
    await expect(next.getByRole('button')).toHaveCount(0);
    await expect(page.getByRole('list', { name: 'Next checks' })).toHaveCount(0);
    await page.keyboard.press('Control+z');
    await expect(stop).toHaveCount(0);
  },
);

reading('[Q1] the unlisted part is among the likely parts of every slot, and what the atlas does not cover is said', async ({ page }) => {
  await openSheet(page, sample);
  await whatNext(page);
  await unfold(page, 'How likely each is');
  const slots = page.locator('.slot-odds');
  await expect(slots.first()).toBeVisible();
  for (let at = 0; at < (await slots.count()); at += 1) {
    const slot = slots.nth(at);
    await slot.locator('summary').press('Enter');
    if ((await slot.textContent())?.includes('not with the unit')) continue;
    await expect(slot.getByRole('listitem').filter({ hasText: 'a part the atlas does not list' })).toHaveCount(1);
  }
  await expect(slots.filter({ hasText: 'compressor housing' }).first()).toContainText(/\d+ % of what was seen is in the atlas/);
  await expect(slots.filter({ hasText: 'heat shield' }).locator('summary')).toContainText('nothing seen here yet');
});

reading(
  '[Q1] any other check opens to what it would do; what needs strip-down can be refused as not to be opened, and all behind it goes',
  async ({ page }) => {
    await openSheet(page, sample);
    await whatNext(page);
    await unfold(page, 'Other checks');
    const checks = page.getByRole('list', { name: 'Other checks' });
    const stripped = checks.getByRole('button', { name: /strip-down first \d/ }).first();
    await tabTo(page, stripped);
    await page.keyboard.press('Enter');
    await expect(stripped).toHaveAttribute('aria-expanded', 'true');
    const opened = checks.locator('.one-check');
    await expect(opened).toHaveAttribute('data-state', 'answered');
    await expect(opened.locator('.one-settles')).not.toBeEmpty();
    await tabTo(page, opened.locator('.each-reading > summary'));
    await page.keyboard.press('Enter');
    await expect(opened.getByRole('list', { name: 'What each reading would do' })).toContainText('Honest name');
    const before = await checks.getByRole('button', { name: /strip-down first \d/ }).count();
    await tabTo(page, opened.getByRole('button', { name: 'may not be opened' }), true);
    await page.keyboard.press('Enter');
    await expect(page.getByRole('list', { name: 'Checks set aside' })).toContainText('may not be opened');
    await weighed(page);
    const after = () => checks.getByRole('button', { name: /strip-down first \d/ }).count();
    await expect.poll(after).toBeLessThan(before);
    await page.keyboard.press('Control+z');
    await expect.poll(after).toBe(before);
  },
);

reading('[Q1] the plan is a tree walked by arrows: folded, unfolded, and whole on paper', async ({ page }) => {
  await openSheet(page, sample);
  await whatNext(page);
  await unfold(page, 'The whole plan');
  const tree = page.getByRole('tree', { name: 'The whole plan' });
  const lines = tree.getByRole('treeitem');
  await expect(lines.first()).toContainText(/min/);
  const all = await lines.count();
  expect(all).toBeGreaterThan(3);
  await tabTo(page, lines.first());
  await page.keyboard.press('ArrowRight');
  await expect(lines.nth(1)).toBeFocused();
  await page.keyboard.press('ArrowLeft');
  await expect(lines.nth(1)).toHaveAttribute('aria-expanded', 'false');
  await expect(lines.nth(1).getByRole('treeitem')).toHaveCount(0);
  const folded = await lines.count();
  expect(folded).toBeLessThan(all);
  await page.keyboard.press('ArrowDown');
  await expect(lines.nth(2)).toBeFocused();
  await page.keyboard.press('End');
  await expect(lines.nth(folded - 1)).toBeFocused();
  await page.keyboard.press('Home');
  await expect(lines.first()).toBeFocused();
  await page.emulateMedia({ media: 'print' });
  await expect(lines).toHaveCount(all);
});

reading('[O6] where two entries disagree nothing is suggested; a planned build is never guessed at', async ({ page }) => {
  await weighed(page);
  await featureBox(page, 'turbine wheel').focus();
  await enter(page, 'turbine wheel', 'blade count', typed('10'));
  await enter(page, 'turbine wheel', 'blade count', typed('11'));
  await expect(page.getByRole('heading', { name: 'Two entries disagree' })).toBeVisible();
  await expect(page.getByRole('region', { name: 'Next check' })).toHaveCount(0);
  await expect(page.getByRole('tab')).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await weighed(page);
  await page.getByRole('link', { name: 'Sheets' }).click();
  await page.getByRole('button', { name: 'A Tarnwick housing on a Gannet core', exact: true }).click();
  await expect(page.getByRole('region', { name: 'The plan' })).toHaveAttribute('data-state', 'answered');
  await expect(page.getByRole('region', { name: 'Next check' })).toHaveCount(0);
  await page.getByRole('link', { name: /^Unit/ }).click();
  await weighed(page);
});
