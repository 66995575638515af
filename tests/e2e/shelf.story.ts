import { readFileSync, writeFileSync } from 'node:fs';
import { expect, reading, test } from './fixtures.ts';
import { enter, entered, featureBox, openSheet, typed } from './keyboard.ts';

const sample = 'Known housing, nameless core';

test.describe('the shelf of sheets', () => {
  test('[O1] a sample is opened, changed, and becomes the shop’s own when it is saved', async ({ page, host }) => {
    await openSheet(page, sample);
    await featureBox(page, 'heat shield').focus();
    await enter(page, 'heat shield', 'slot count', typed('4'));
    await page.keyboard.press('Control+s');
    await expect(page.getByText('Saved', { exact: true })).toBeVisible();
    await page.goto('about:blank');
    await host.restart();
    await page.goto(await host.address());
    await page.getByRole('link', { name: 'Sheets' }).click();
    await expect(page.getByRole('region', { name: 'The shop’s own' }).getByRole('button', { name: sample, exact: true })).toBeVisible();
    await page.getByRole('region', { name: 'The shop’s own' }).getByRole('button', { name: sample, exact: true }).click();
    await expect(entered(page, /^slot count 4 seen/)).toBeVisible();
  });

  reading(
    '[O1] a sheet is written to a file and read back the same; a second reading asks before it takes a place',
    async ({ page }, info) => {
      await page.getByRole('link', { name: 'Sheets' }).click();
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: `Write to a file: ${sample}` }).click(),
      ]);
      expect(download.suggestedFilename()).toBe('known-housing-nameless-core.json');
      const file = info.outputPath('sheet.json');
      await download.saveAs(file);
      await page.getByLabel('Sheet file').setInputFiles(file);
      const question = page.getByRole('dialog', { name: 'This sheet is here already' });
      await question.getByRole('button', { name: 'Read it as a copy' }).click();
      await expect(page.getByRole('textbox', { name: 'Title of the sheet' })).toHaveValue(sample);
      await expect(page.getByText('Not saved')).toBeVisible();
      await expect(page.locator('[data-entry]')).toHaveCount(6);
    },
  );

  reading('[O1] a file that is no sheet is refused in its own words, and the bench is left alone', async ({ page }, info) => {
    await featureBox(page, 'turbine wheel').focus();
    await enter(page, 'turbine wheel', 'blade count', typed('10'));
    await page.getByRole('link', { name: 'Sheets' }).click();
    const file = info.outputPath('broken.json');
    writeFileSync(file, '{ "id": "x", "observations": [');
    await page.getByLabel('Sheet file').setInputFiles(file);
    await expect(page.getByRole('alert')).toContainText('could not be read as a sheet');
    await expect(page.getByRole('alert')).toContainText('broken.json');
    expect(readFileSync(file, 'utf8')).toContain('observations');
    await page.getByRole('link', { name: /^Unit/ }).click();
    await expect(entered(page, /^blade count 10/)).toBeVisible();
  });

  test('[O1] unsaved entries are asked about before another sheet takes the bench', async ({ page }) => {
    await featureBox(page, 'turbine wheel').focus();
    await enter(page, 'turbine wheel', 'blade count', typed('10'));
    await page.getByRole('textbox', { name: 'Title of the sheet' }).fill('Half entered');
    await page.getByRole('link', { name: 'Sheets' }).click();
    await page.getByRole('button', { name: sample, exact: true }).click();
    const question = page.getByRole('dialog', { name: 'Keep what is on the bench?' });
    await expect(question).toBeVisible();
    await page.keyboard.press('Escape');
    await expect(question).toHaveCount(0);
    await expect(page.getByRole('textbox', { name: 'Title of the sheet' })).toHaveValue('Half entered');
    await page.getByRole('link', { name: 'Sheets' }).click();
    await page.getByRole('button', { name: sample, exact: true }).click();
    await question.getByRole('button', { name: 'Save it, then go on' }).click();
    await expect(page.getByRole('textbox', { name: 'Title of the sheet' })).toHaveValue(sample);
    await page.getByRole('link', { name: 'Sheets' }).click();
    await expect(page.getByRole('button', { name: 'Half entered', exact: true })).toBeVisible();
  });

  reading('[O1] what was typed comes back after the window is lost', async ({ page }) => {
    await featureBox(page, 'turbine wheel').focus();
    await enter(page, 'turbine wheel', 'blade count', typed('10'));
    page.once('dialog', (dialog) => dialog.accept());
    await page.reload();
    await expect(entered(page, /^blade count 10/)).toBeVisible();
    await expect(page.getByText('Unsaved entries brought back.')).toBeVisible();
  });

  test('[O1] a copy is made and removed, and removing is asked about', async ({ page }) => {
    await page.getByRole('link', { name: 'Sheets' }).click();
    await page.getByRole('button', { name: `Copy ${sample}`, exact: true }).click();
    const own = page.getByRole('region', { name: 'The shop’s own' });
    await expect(own.getByRole('button', { name: `Copy of ${sample}`, exact: true })).toBeVisible();
    await own.getByRole('button', { name: `Remove Copy of ${sample}` }).click();
    const question = page.getByRole('dialog', { name: 'Remove this sheet?' });
    await question.getByRole('button', { name: 'Cancel' }).click();
    await expect(own.getByRole('listitem')).toHaveCount(1);
    await own.getByRole('button', { name: `Remove Copy of ${sample}` }).click();
    await question.getByRole('button', { name: 'Remove it' }).click();
    await expect(own.getByRole('listitem')).toHaveCount(0);
  });

  test('[O1] when the desk is gone, saving says so and every entry stays', async ({ page, host, complaints }) => {
    await featureBox(page, 'turbine wheel').focus();
    await enter(page, 'turbine wheel', 'blade count', typed('10'));
    await host.stop();
    await page.keyboard.press('Control+s');
    await expect(page.getByRole('toolbar', { name: 'Sheet' }).getByRole('alert')).toContainText('Not saved.');
    await expect(entered(page, /^blade count 10/)).toBeVisible();
    // The browser's own lines about the refused connection.
    complaints.length = 0;
  });
});
