import { readFileSync, writeFileSync } from 'node:fs';
import { expect, reading, saving, test } from './fixtures.ts';
import { enter, entered, featureBox, openSheet, tabTo, typed } from './keyboard.ts';

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

  reading(
    '[V6] by keyboard: three units stand open, each with its own entries and undo; a build leaves them where they are, and a lost window brings all back',
    async ({ page }) => {
      const open = page.getByRole('navigation', { name: 'Open units' });
      const title = page.getByRole('textbox', { name: 'Title of the sheet' });
      const onScreen = async (screen: string | RegExp) => {
        await tabTo(page, page.getByRole('link', { name: screen }), true);
        await page.keyboard.press('Enter');
      };
      await featureBox(page, 'turbine wheel').focus();
      await enter(page, 'turbine wheel', 'blade count', typed('10'));
      await tabTo(page, title, true);
      await page.keyboard.type('Half entered');
      await expect(open, 'one alone needs no strip').toHaveCount(0);

      await test.step('a sheet from the shelf and a new one open beside it, and nothing is asked', async () => {
        await onScreen('Sheets');
        await tabTo(page, page.getByRole('button', { name: sample, exact: true }));
        await page.keyboard.press('Enter');
        await expect(title).toHaveValue(sample);
        await featureBox(page, 'heat shield').focus();
        await enter(page, 'heat shield', 'slot count', typed('4'));
        await onScreen('Sheets');
        await expect(page.getByText('open, not saved')).toHaveCount(1);
        await tabTo(page, page.getByRole('button', { name: 'New sheet' }));
        await page.keyboard.press('Enter');
        await expect(title).toHaveValue('');
        await tabTo(page, title);
        await page.keyboard.type('The third');
        await expect(open.getByRole('listitem')).toHaveText([/^Half entered.*not saved$/, new RegExp(`^${sample}`), /^The third/]);
      });

      await test.step('from one to the other by keys; one step back is of the one that is shown', async () => {
        await page.keyboard.press('Alt+PageUp');
        await expect(open.getByRole('button', { name: new RegExp(`^${sample}`) })).toBeFocused();
        await expect(title).toHaveValue(sample);
        await page.keyboard.press('Control+z');
        await expect(entered(page, /^slot count/)).toHaveCount(0);
        await page.keyboard.press('Alt+PageUp');
        await expect(title).toHaveValue('Half entered');
        await expect(entered(page, /^blade count 10/)).toBeVisible();
        await page.keyboard.press('Alt+PageDown');
        await page.keyboard.press('Control+y');
        await expect(entered(page, /^slot count 4/)).toBeVisible();
      });

      await test.step('a build begun from here is one more, and the unit is where it was', async () => {
        await onScreen('Build');
        await tabTo(page, page.getByRole('button', { name: 'Empty build' }));
        await page.keyboard.press('Enter');
        await expect(page.getByRole('textbox', { name: 'Title of the build' })).toHaveValue('New build');
        await expect(open.getByRole('listitem')).toHaveCount(4);
        await onScreen(/^Unit/);
        await expect(title).toHaveValue(sample);
        await expect(entered(page, /^slot count 4/)).toBeVisible();
      });

      await test.step('the window is lost: all come back, each with what was not saved', async () => {
        page.once('dialog', (dialog) => dialog.accept());
        await page.reload();
        await expect(open.getByRole('listitem')).toHaveText([/^Half entered/, new RegExp(`^${sample}`), /^The third/, /^New build/]);
        await expect(title).toHaveValue(sample);
        await expect(entered(page, /^slot count 4/)).toBeVisible();
        await expect(page.getByText('Unsaved entries brought back.')).toBeVisible();
        await page.keyboard.press('Alt+PageDown');
        await expect(title).toHaveValue('The third');
        await page.keyboard.press('Alt+PageDown');
        await expect(page.getByRole('textbox', { name: 'Title of the build' })).toHaveValue('New build');
      });

      await test.step('one is closed, asked about as it is not saved; the others are answered side by side', async () => {
        await tabTo(page, open.getByRole('button', { name: 'Close New build' }));
        await page.keyboard.press('Enter');
        const question = page.getByRole('dialog', { name: 'Save it before it is closed?' });
        await page.keyboard.press('Escape');
        await expect(question).toHaveCount(0);
        await page.keyboard.press('Enter');
        await tabTo(page, question.getByRole('button', { name: 'Close without saving' }));
        await page.keyboard.press('Enter');
        await onScreen(/^Unit/);
        await expect(open.getByRole('listitem')).toHaveCount(3);
        await tabTo(page, open.getByRole('button', { name: 'All 3…' }));
        await page.keyboard.press('Enter');
        const all = page.getByRole('dialog', { name: 'What is open, side by side' });
        await expect(all.getByRole('row', { name: new RegExp(sample) })).toContainText(/Petrel 13 Cartridge.*ruled out/);
        await tabTo(page, all.getByRole('button', { name: 'Half entered' }));
        await page.keyboard.press('Enter');
        await expect(title).toHaveValue('Half entered');
      });
    },
  );

  saving('[O1] a copy is made and removed, and removing is asked about', async ({ page }) => {
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
