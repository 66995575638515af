import { axeClean } from './axe-clean.ts';
import { expect, saving as test } from './fixtures.ts';
import { tabTo } from './keyboard.ts';

test('[P8] by keyboard: a unit that comes back is said to have been here, and is found in the list by its number', async ({
  page,
}, info) => {
  const stamped = page.getByRole('textbox', { name: 'Serial number', exact: true });
  const before = page.getByText('This unit, or its plate, was here before');
  await test.step('the first time nothing is said', async () => {
    await tabTo(page, page.getByRole('textbox', { name: 'Title of the sheet' }));
    await page.keyboard.type('Off the pilot boat');
    await tabTo(page, stamped);
    await page.keyboard.type('H-11 207');
    await page.keyboard.press('Control+s');
    await expect(page.getByText('Saved', { exact: true })).toBeVisible();
    await expect(before).toHaveCount(0);
  });

  await test.step('the second time it is, before anything is saved, and leads to the case', async () => {
    await page.getByRole('link', { name: 'Sheets' }).click();
    await tabTo(page, page.getByRole('button', { name: 'New sheet' }));
    await page.keyboard.press('Enter');
    await tabTo(page, stamped);
    await page.keyboard.type('h11207');
    await expect(before).toBeVisible();
    await expect(page.getByRole('status').filter({ has: before })).toContainText(
      /case A-\d{4}-0001 of .*, Off the pilot boat\. Both have the serial number H-11 207\./,
    );
    await axeClean(page, 'here before', info);
    await tabTo(page, page.getByRole('link', { name: /^case A-\d{4}-0001$/ }));
    await page.keyboard.press('Enter');
    await expect(page.getByRole('heading', { level: 1 })).toContainText('Off the pilot boat');
  });

  await test.step('the list finds it however the number is written', async () => {
    await page.getByRole('link', { name: 'Sheets' }).click();
    await page.getByRole('searchbox', { name: /^Words in number/ }).fill('h11207');
    const row = page.getByRole('region', { name: 'The shop’s own cases' }).getByRole('listitem');
    await expect(row).toHaveCount(1);
    await expect(row).toContainText('serial number H-11 207');
    await axeClean(page, 'the list by number', info);
  });
});
