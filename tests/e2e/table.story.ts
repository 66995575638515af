import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import Papa from 'papaparse';
import { spoiltCells, spoiltRows } from '../unit/db/tables/weather-rows.ts';
import { axeCleanInOneWindow } from './axe-clean.ts';
import { test as base, expect } from './fixtures.ts';
import { tabTo } from './keyboard.ts';

const kinplate = fileURLToPath(new URL('../../build/kinplate.js', import.meta.url));

/** An atlas that knows the words of the trade alone. */
const test = base.extend({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads a fixture's needs from this pattern
  data: async ({}, use) => {
    const folder = mkdtempSync(path.join(tmpdir(), 'kinplate-table-'));
    execFileSync(process.execPath, [kinplate, 'begin', 'empty', '--data', folder], { stdio: 'pipe' });
    await use(folder);
    rmSync(folder, { recursive: true, force: true });
  },
});
test.use({ viewport: { width: 1280, height: 800 } });

const press = async (page: Page, name: string | RegExp): Promise<void> => {
  await tabTo(page, page.getByRole('button', { name }));
  await page.keyboard.press('Enter');
};
const settled = (page: Page, says: string | RegExp) => expect(page.locator('[data-state="answered"]')).toContainText(says);
const panel = (page: Page) => page.getByRole('complementary', { name: 'The cell' });
const active = (page: Page) => page.locator('[data-active]');
/** Writes into the cell one is at. */
const write = async (page: Page, text: string): Promise<void> => {
  await page.keyboard.press('Enter');
  await page.keyboard.press('ControlOrMeta+a');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
};

test('[V1] [I2] [I4] by keyboard: three hundred parts out of a spreadsheet, its makers added and ten faults mended in the grid, the change looked at and made; brought out again it changes nothing', async ({
  page,
  data,
}, info) => {
  const file = path.join(data, 'stock list.csv');
  writeFileSync(file, Papa.unparse(spoiltRows(), { newline: '\r\n' }));

  await tabTo(page, page.getByRole('link', { name: 'Atlas', exact: true }));
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('link', { name: 'Bring a spreadsheet' }));
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('button', { name: 'Choose a spreadsheet…' }));
  await axeCleanInOneWindow(page, 'bring a spreadsheet', info);
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Enter')]);
  await chooser.setFiles(file);

  const taken = (heading: string) => page.getByRole('row', { name: heading });
  await expect(taken('Part No')).toContainText('part numbers');
  await expect(taken('exducer dia')).toContainText('exducer diameter');
  await expect(taken('Notes')).toContainText('nothing');
  await axeCleanInOneWindow(page, 'its columns', info);
  // What was taken wrongly is taken for something else.
  await tabTo(page, page.getByRole('combobox', { name: 'Take column J, Notes for' }));
  await page.keyboard.type('source');
  await expect(page.getByRole('option', { name: /^where the part/ })).toBeHidden();
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  await tabTo(page, page.getByRole('textbox', { name: 'Keep how this is read, as' }));
  await page.keyboard.type('the stock list');
  await page.keyboard.press('Enter');
  await expect(page.getByText('A table with these headings is read so next time.')).toBeVisible();
  await press(page, 'Read the cells');

  await settled(page, /^300 rows.*308 cells to mend/);
  await page.keyboard.press('F8');
  await expect(active(page)).toBeFocused();
  await expect(panel(page)).toContainText('expected a maker of the atlas');
  await axeCleanInOneWindow(page, 'its cells', info);
  for (const maker of ['Sirocco & Daughter', 'HOARFROST']) {
    await press(page, `Add “${maker}” as a new maker`);
    await settled(page, maker === 'HOARFROST' ? '10 cells to mend' : '208 cells to mend');
    await expect(active(page)).toBeFocused();
    await page.keyboard.press('F8');
  }
  // F2 writes in the cell, and asks for no part number as it does elsewhere.
  await page.keyboard.press('F2');
  await page.keyboard.press('F8');
  await expect(page.getByRole('textbox', { name: /^Cell / })).toBeFocused();
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await page.keyboard.press('Escape');
  let left: number = spoiltCells.length;
  for (const [, , , instead] of spoiltCells) {
    await expect(active(page)).toHaveAttribute('aria-invalid', 'true');
    await write(page, instead);
    left -= 1;
    await settled(page, left === 0 ? 'Nothing is to be mended.' : `${left} cell`);
    await expect(active(page)).toHaveClass(/is-mended/);
    await page.keyboard.press('F8');
  }
  await settled(page, '300 new. Nothing is to be mended.');
  await info.attach('all mended', { body: await page.screenshot(), contentType: 'image/png' });
  await press(page, 'Look at the change');

  await expect(page.getByText(/Parts: 300 new|parts: 300 new/)).toBeVisible();
  await axeCleanInOneWindow(page, 'the change', info);
  await tabTo(page, page.getByRole('textbox', { name: 'Who' }));
  await page.keyboard.type('Ines');
  await page.keyboard.press('Tab');
  await page.keyboard.type('the list of the old shop');
  await press(page, 'Make this change');
  await expect(page.getByRole('region', { name: 'Brought in' })).toContainText('parts: 300 new');
  await expect(page.locator('.edition')).toContainText('300 parts');

  await tabTo(page, page.getByRole('button', { name: 'Write a workbook (.xlsx)' }));
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
  const out = path.join(data, 'out.xlsx');
  await download.saveAs(out);
  const [again] = await Promise.all([page.waitForEvent('filechooser'), press(page, 'Choose a spreadsheet…')]);
  await again.setFiles(out);
  await press(page, 'Read the cells');
  await settled(page, '300 as the atlas has them. Nothing is to be mended.');
  await expect(page.getByRole('button', { name: 'Look at the change' })).toBeDisabled();
});
