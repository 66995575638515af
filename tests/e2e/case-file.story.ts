import { readFile, writeFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { jpegWithPosition } from '../unit/db/photos/with-position.ts';
import { axeClean } from './axe-clean.ts';
import { expect, saving as test } from './fixtures.ts';
import { caseLink, openSheet, tabTo } from './keyboard.ts';

/** The file of the case on the page, saved by keyboard. */
const savedFile = async (page: Page, file: string): Promise<void> => {
  const save = page.getByRole('button', { name: 'Save as one file' });
  await tabTo(page, save);
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
  expect(download.suggestedFilename()).toMatch(/^case-A-\d{4}-0001\.zip$/);
  await download.saveAs(file);
};

const takeIn = async (page: Page, file: string): Promise<void> => {
  await page.getByRole('link', { name: 'Sheets' }).click();
  await tabTo(page, page.getByRole('button', { name: 'Take in a case…' }));
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Enter')]);
  await chooser.setFiles(file);
};

test('[P9] by keyboard: a case goes out as one file with its photographs, and comes in again beside the one that is here', async ({
  page,
}, info) => {
  const file = info.outputPath('case.zip');
  await openSheet(page, 'Known housing, nameless core');
  await page.getByRole('textbox', { name: 'Title of the sheet' }).fill('Known housing on the counter');
  await page.keyboard.press('Control+s');
  await expect(page.getByText('Saved', { exact: true })).toBeVisible();
  await caseLink(page).click();
  const photographs = page.getByRole('region', { name: 'Photographs' });
  const [chooser] = await Promise.all([
    page.waitForEvent('filechooser'),
    photographs.getByRole('button', { name: 'Add photographs…' }).click(),
  ]);
  await chooser.setFiles([{ name: 'IMG_0417.jpg', mimeType: 'image/jpeg', buffer: jpegWithPosition() }]);
  await expect(photographs.getByRole('listitem')).toHaveCount(1);
  await savedFile(page, file);
  await expect(page.getByText(/^Written: case-A-\d{4}-0001\.zip\.$/)).toBeVisible();

  await test.step('here already: both are shown, and left it changes nothing', async () => {
    await takeIn(page, file);
    const question = page.getByRole('dialog', { name: 'This case is here already' });
    await expect(question.getByRole('region', { name: 'In the file' })).toContainText('Known housing on the counter');
    await expect(question.getByRole('region', { name: 'Here', exact: true })).toContainText('1 photograph');
    await axeClean(page, 'here already', info);
    await page.keyboard.press('Escape');
    await expect(question).toHaveCount(0);
    await expect(page.getByRole('region', { name: 'The shop’s own cases' }).getByRole('listitem')).toHaveCount(1);
  });

  await test.step('as a case of its own it has its own number, the photograph, and the number it had', async () => {
    await takeIn(page, file);
    await expect(page.getByRole('button', { name: 'Take it in as a case of its own' })).toBeFocused();
    await page.keyboard.press('Enter');
    await expect(page.getByRole('heading', { level: 1 })).toContainText(/\d{4}-0002/);
    await expect(page.getByText(/taken in, case A-\d{4}-0001 where it came from/)).toBeVisible();
    await expect(photographs.getByRole('listitem')).toHaveCount(1);
    await axeClean(page, 'a case taken in', info);
  });

  await test.step('with this counter’s letter in a number it did not give, that is said before it is taken in', async () => {
    const files = unzipSync(await readFile(file));
    const others = strFromU8(files['case.json'] ?? new Uint8Array()).replace(/("number": "A-\d{4})-0001"/, '$1-0099"');
    const shared = info.outputPath('shared.zip');
    await writeFile(shared, zipSync({ ...files, 'case.json': strToU8(others) }));
    await takeIn(page, shared);
    const question = page.getByRole('dialog', { name: 'This case is here already' });
    await expect(question).toContainText(
      /shared\.zip: the number A-\d{4}-0099 in it begins with this counter’s letter, but was not given here\./,
    );
    await axeClean(page, 'shared letter', info);
    await page.keyboard.press('Escape');
    await expect(question).toHaveCount(0);
  });

  await test.step('removed, it is asked about before it is taken in', async () => {
    await page.getByRole('link', { name: 'Sheets' }).click();
    for (const left of [1, 0]) {
      await page.getByRole('button', { name: 'Remove Known housing on the counter' }).first().click();
      await page.getByRole('button', { name: 'Remove it' }).click();
      await expect(page.getByRole('button', { name: 'Remove Known housing on the counter' })).toHaveCount(left);
    }
    await takeIn(page, file);
    const question = page.getByRole('dialog', { name: 'Take this case in?' });
    await expect(question).not.toContainText('this counter’s letter');
    await axeClean(page, 'take in', info);
    await question.getByRole('button', { name: 'Take it in' }).press('Enter');
    await expect(page.getByRole('heading', { level: 1 })).toContainText(/\d{4}-0003/);
  });
});

test('[P9] a file that is no case is refused in words, and nothing is taken in', async ({ page }) => {
  await page.getByRole('link', { name: 'Sheets' }).click();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: 'Take in a case…' }).click()]);
  await chooser.setFiles([{ name: 'notes.zip', mimeType: 'application/zip', buffer: Buffer.from('no archive') }]);
  await expect(page.getByRole('alert')).toContainText('notes.zip cannot be read as a case: it is no ZIP');
  await expect(page.getByText('No case yet.')).toBeVisible();
});
