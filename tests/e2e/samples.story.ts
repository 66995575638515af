import { axeClean } from './axe-clean.ts';
import { expect, test } from './fixtures.ts';
import { caseLink, openSheet, tabTo } from './keyboard.ts';

test('[M4] [M5] [M6] by keyboard: a strange part of a case becomes a part of the atlas and is found, a sample of it is kept, shown, and taken out', async ({
  page,
}, info) => {
  await page.setViewportSize({ width: 1024, height: 700 });
  const button = (name: string | RegExp) => page.getByRole('button', { name, exact: true });
  await openSheet(page, 'Known housing, nameless core');
  await page.getByRole('textbox', { name: 'Title of the sheet' }).fill('Strange wheel on the counter');
  await page.keyboard.press('Control+s');
  await expect(page.getByText('Saved', { exact: true })).toBeVisible();
  await tabTo(page, caseLink(page), true);
  await page.keyboard.press('Enter');
  const block = page.getByRole('region', { name: 'Into the atlas' });
  await expect(block.getByRole('listitem').first()).toContainText(/listed part/);

  await test.step('made a part of the atlas', async () => {
    await tabTo(page, button('Make it a part of the atlas: compressor wheel'));
    await page.keyboard.press('Enter');
    await expect(page.getByRole('textbox', { name: 'What it is called' })).toBeFocused();
    await page.keyboard.type('Harbour wheel, seven blades');
    await tabTo(page, page.getByRole('textbox', { name: 'Part numbers, a line each' }));
    await page.keyboard.type('TALLY 052');
    await expect(page.getByRole('complementary', { name: 'What this would change' })).toContainText('1 new');
    await page.screenshot({ path: info.outputPath('make.png') });
    await axeClean(page, 'a part of the atlas to be', info);
    await tabTo(page, button('Make it a part of the atlas'));
    await page.keyboard.press('Enter');
    await expect(block.getByRole('status').filter({ hasText: 'Now a part of the atlas: Harbour wheel, seven blades.' })).toBeVisible();
  });

  await test.step('a sample of it is kept, found by its number', async () => {
    await tabTo(page, button('Keep as samples: compressor wheel'));
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog', { name: 'Samples: compressor wheel' });
    const part = dialog.getByRole('combobox');
    await tabTo(page, part);
    await page.keyboard.type('tally 052');
    await expect(page.getByRole('option', { name: /Harbour wheel/ })).toBeVisible();
    await page.keyboard.press('Enter');
    await page.screenshot({ path: info.outputPath('keep.png') });
    await tabTo(page, button('Keep them'));
    await page.keyboard.press('Enter');
    await expect(block.getByRole('status').first()).toContainText(/^Kept: \d+ samples? of Harbour wheel, seven blades\.$/);
    await page.screenshot({ path: info.outputPath('case.png') });
    await axeClean(page, 'from a case', info);
  });

  await test.step('the part page shows it beside what the atlas says, with its case', async () => {
    await tabTo(page, block.getByRole('status').first().getByRole('link'));
    await page.keyboard.press('Enter');
    await expect(page.getByRole('heading', { name: 'Measured here in 1 case' })).toBeVisible();
    await expect(page.getByText(/^Cases of this part: A-\d{4}-0001$/)).toBeVisible();
    await expect(page.getByText('as the atlas says').first()).toBeVisible();
    await tabTo(page, page.getByText('Every sample'));
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Measured here in 1 case' }).scrollIntoViewIfNeeded();
    await page.screenshot({ path: info.outputPath('part.png') });
    await axeClean(page, 'measured here', info);
    const takeOut = button(/^Take out: /);
    const before = await takeOut.count();
    await tabTo(page, takeOut.first());
    await page.keyboard.press('Enter');
    await expect(takeOut).toHaveCount(before - 1);
    await expect(page.getByText(/taken out at/)).toBeVisible();
  });
});
