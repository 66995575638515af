import { readdirSync, truncateSync } from 'node:fs';
import path from 'node:path';
import type { Page } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { expect, test } from './fixtures.ts';

/** Goes on to the next thing the keyboard reaches until it is this one, and presses it. */
const press = async (page: Page, name: string | RegExp): Promise<void> => {
  const button = page.getByRole('button', { name }).or(page.getByRole('link', { name })).first();
  await expect(button).toBeVisible();
  await button.focus();
  await expect(button).toBeFocused();
  await page.keyboard.press('Enter');
};

const toBackups = (page: Page) =>
  page.evaluate(() => {
    window.location.hash = '#/backups';
  });

const saveAs = async (page: Page, title: string): Promise<void> => {
  await page.getByRole('link', { name: /^Unit/ }).click();
  await page.getByRole('textbox', { name: 'Title of the sheet' }).fill(title);
  await page.keyboard.press('Control+s');
  await expect(page.getByText('Saved', { exact: true })).toBeVisible();
};

test.describe('backups', () => {
  test.use({ viewport: { width: 1280, height: 800 } });

  test('[P5] by keyboard: one is made, what it would bring back is read, and it is put back', async ({ page }, info) => {
    await saveAs(page, 'As it came in');
    await page.getByRole('link', { name: 'Sheets' }).click();
    await press(page, 'Backups…');
    await expect(page.getByRole('heading', { name: 'Backups' })).toBeVisible();
    await expect(page.getByText('There is no backup yet.')).toBeVisible();
    await press(page, 'Make a backup now');
    const rows = page.getByRole('table', { name: 'Backups, the newest first' }).getByRole('row');
    await expect(rows).toHaveCount(2);
    await expect(rows.nth(1)).toContainText('somebody asked for it');
    await expect(rows.nth(1)).toContainText('1 case file and 2 packs');

    // The same: nothing to put back.
    await press(page, /^What would come back/);
    await expect(page.getByText('there is nothing to put back')).toBeVisible();
    await press(page, 'Leave everything as it is');

    await saveAs(page, 'Spoilt by mistake');
    await toBackups(page);
    await press(page, /^What would come back/);
    await expect(page.getByRole('heading', { name: /^What the backup of .* would bring back/ })).toBeFocused();
    const comparison = page.getByRole('table', { name: /^What would come back/ });
    await expect(comparison.getByRole('row', { name: /^Sheets/ })).toContainText('As it came in');
    await expect(comparison.getByRole('row', { name: /^Case files/ })).toBeVisible();
    await axeClean(page, 'what a backup would bring back', info);
    await page.setViewportSize({ width: 1024, height: 700 });
    await axeClean(page, 'what a backup would bring back, smaller', info);

    await press(page, 'Put it back…');
    const dialog = page.getByRole('dialog');
    await expect(dialog).toContainText('put into a backup of its own first');
    await page.keyboard.press('Escape');
    await expect(dialog).toBeHidden();
    await press(page, 'Put it back…');
    await dialog.getByRole('button', { name: 'Put it back' }).focus();
    await page.keyboard.press('Enter');
    await expect(page.getByText('The backup was put back.')).toBeVisible();
    await expect(page.getByRole('button', { name: 'Go on with what was put back' })).toBeFocused();
    await page.keyboard.press('Enter');
    await expect(page.getByRole('table', { name: 'Backups, the newest first' }).getByRole('row')).toHaveCount(3);
    await page.getByRole('link', { name: 'Sheets', exact: true }).click();
    await expect(page.getByRole('button', { name: 'As it came in', exact: true })).toBeVisible();
    await expect(page.getByRole('button', { name: 'Spoilt by mistake', exact: true })).toHaveCount(0);
  });

  test('[P5] what was changed meanwhile is told, nothing is put back, and it is compared anew', async ({ page }) => {
    await saveAs(page, 'First');
    await toBackups(page);
    await press(page, 'Make a backup now');
    await expect(page.getByRole('button', { name: /^What would come back/ })).toBeVisible();
    await saveAs(page, 'Second');
    await toBackups(page);
    await press(page, /^What would come back/);
    await expect(page.getByRole('table', { name: /^What would come back/ })).toBeVisible();
    const saved = await page.evaluate(() =>
      window.desk.ask('sheets.save', {
        sheet: {
          id: 'elsewhere' as never,
          title: 'From elsewhere',
          story: '',
          kind: 'found',
          claimed: null,
          claimedMaker: null,
          observations: [],
          absent: [],
          chosen: {},
        },
        madeAgainst: null,
      }),
    );
    expect(saved).toMatchObject({ ok: true });
    await press(page, 'Put it back…');
    await page.getByRole('dialog').getByRole('button', { name: 'Put it back' }).click();
    await expect(page.getByText('The atlas has been changed since')).toBeVisible();
    await expect(page.getByRole('row', { name: /^Sheets/ })).toContainText('From elsewhere');
  });

  test('[P5] one that cannot be read is listed as that, with nothing to do; the list prints', async ({ page, data }, info) => {
    await toBackups(page);
    await press(page, 'Make a backup now');
    await expect(page.getByRole('button', { name: /^What would come back/ })).toBeVisible();
    const folder = path.join(data, 'backups');
    for (const name of readdirSync(folder)) truncateSync(path.join(folder, name), 5000);
    await page.reload();
    await expect(page.getByText('It cannot be read. It is damaged.')).toBeVisible();
    await expect(page.getByRole('button', { name: /^What would come back/ })).toHaveCount(0);
    await press(page, 'Make a backup now');
    await expect(page.getByRole('button', { name: /^What would come back/ })).toHaveCount(1);
    await axeClean(page, 'backups', info);
    await page.emulateMedia({ media: 'print' });
    await expect(page.getByRole('table')).toBeVisible();
    await expect(page.locator('.bar')).toBeHidden();
    await expect(page.getByRole('button', { name: 'Make a backup now' })).toBeHidden();
  });
});
