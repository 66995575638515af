import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { forty } from '../unit/listings/forty.ts';
import { readPdf } from '../unit/report/read-pdf.ts';
import { axeClean } from './axe-clean.ts';
import { expect, reading } from './fixtures.ts';
import { tabTo, verdictSettled } from './keyboard.ts';

const samples = fileURLToPath(new URL('../../seed-data/demo-pack/sheets', import.meta.url));
let folder: string;
reading.beforeAll(() => {
  folder = path.join(mkdtempSync(path.join(tmpdir(), 'kinplate-listings-')), 'listings');
  mkdirSync(folder);
  for (const name of readdirSync(samples).filter((file) => /^s(0[1379]|14|16)-/.test(file)))
    cpSync(path.join(samples, name), path.join(folder, name));
  writeFileSync(
    path.join(folder, 'gathered.csv'),
    [
      'unit,title,maker,claimed,slot,feature,value,how,u,note',
      'q1,Grey one at the quay,Merrowby,Petrel 13 Cartridge,turbine wheel,blade count,11,seen,,',
      'q2,No count on it,,Petrel 13 Cartridge,turbine wheel,blade count,eleven,seen,,',
    ].join('\n'),
  );
  writeFileSync(path.join(folder, 'view.jpg'), '');
});
reading.afterAll(() => rmSync(path.dirname(folder), { recursive: true, force: true }));

const toListings = async (page: Page): Promise<void> => {
  await verdictSettled(page);
  await tabTo(page, page.getByRole('link', { name: 'Sheets', exact: true }));
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('link', { name: 'Many listings…' }));
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: 'Many listings' })).toBeVisible();
};
const list = (page: Page) => page.getByRole('region', { name: 'Listings' });
const noSideways = async (page: Page): Promise<void> =>
  expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)).toBe(0);
const done = (page: Page) => expect(list(page)).toHaveAttribute('data-state', 'done');

reading.describe('many listings', () => {
  reading.use({ viewport: { width: 1280, height: 800 } });

  reading(
    '[K1] by keyboard: a folder of listings in, plainest failure first, one opened on the bench, and back to the list',
    async ({ page }, info) => {
      await toListings(page);
      await tabTo(page, page.getByRole('button', { name: 'A folder…' }));
      const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Enter')]);
      await chooser.setFiles(folder);
      await done(page);
      await expect(page.getByRole('status').filter({ hasText: 'Left alone' })).toContainText('view.jpg');
      const rows = list(page).getByRole('row');
      await expect(rows).toHaveCount(1 + 6 + 2);
      await expect(rows.nth(1)).toContainText('no name');
      await expect(rows.nth(1)).toContainText('Petrel 13, says the invoice');
      await expect(rows.nth(2)).toContainText('ruled out');
      await expect(rows.last()).toContainText('gathered.csv, row 3, column value: found "eleven", expected a whole number');
      await expect(list(page).getByRole('heading', { name: 'Cautions' })).toBeVisible();
      await info.attach('listings', { body: await page.screenshot(), contentType: 'image/png' });

      const row = page.getByRole('button', { name: 'Grey one at the quay' });
      await tabTo(page, row);
      await page.keyboard.press('Enter');
      await expect(page.getByRole('textbox', { name: 'Title of the sheet' })).toHaveValue('Grey one at the quay');
      await verdictSettled(page);
      await expect(page.getByRole('region', { name: 'Verdict' }).locator('.claim-line')).toContainText('ruled out');
      await page.goBack();
      await done(page);
      await expect(row).toBeVisible();
    },
  );

  reading(
    '[K1] by keyboard: a table of listings, its columns looked at and mended, the list, one opened, and back to its row',
    async ({ page }, info) => {
      const table = path.join(path.dirname(folder), 'quay.csv');
      writeFileSync(table, forty);
      await page.setViewportSize({ width: 853, height: 533 });
      await toListings(page);

      // Cells that were copied, pasted where they are asked for; then a table in their place.
      await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
      await page.evaluate(
        (cells) => navigator.clipboard.writeText(cells),
        'Title\tPrice\nMerrowby Petrel 14\t120\nMerrowby Petrel 13\t90\n',
      );
      await tabTo(page, page.getByRole('textbox', { name: 'Listings to be read' }));
      await page.keyboard.press('Control+V');
      await expect(page.getByRole('button', { name: 'Read 2 listings' })).toBeFocused();
      await page.keyboard.press('Enter');
      await done(page);
      await expect(list(page).getByRole('row')).toHaveCount(1 + 2);
      await expect(list(page).getByRole('row').nth(1)).toContainText('pasted cells, row 2');
      await tabTo(page, page.getByRole('button', { name: 'A table of listings…' }));
      const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Enter')]);
      await chooser.setFiles(table);
      const read = page.getByRole('button', { name: 'Read 40 listings' });
      await expect(read).toBeFocused();
      const seenOn = page.getByRole('combobox', { name: 'Take column B, Seen on for' });
      await expect(seenOn).toHaveValue('carried');
      await expect(page.getByRole('combobox', { name: 'Take column C, Headline for' })).toHaveValue('title');
      await axeClean(page, 'the columns', info);
      await noSideways(page);
      await tabTo(page, seenOn);
      await page.keyboard.press('m');
      await expect(seenOn).toHaveValue('words');
      await page.keyboard.press('End');
      await expect(seenOn).toHaveValue('carried');
      await tabTo(page, read);
      await page.keyboard.press('Enter');
      await done(page);
      const rows = list(page).getByRole('row');
      await expect(rows).toHaveCount(1 + 40);
      await expect(rows.nth(1)).toContainText('“Petrel 14” is no name of Merrowby.');
      const row = rows.filter({ hasText: 'quay.csv, row 6' });
      await expect(row).toContainText('own words against it');
      await expect(row).toContainText('every turbine wheel listed for Merrowby Petrel 13 Cartridge has 10 blades');
      await expect(rows.filter({ hasText: 'quay.csv, row 9' })).toContainText('found nothing but a price');
      await axeClean(page, 'the list', info);
      await noSideways(page);
      await info.attach('table of listings', { body: await page.screenshot(), contentType: 'image/png' });

      const title = row.getByRole('button');
      await tabTo(page, title);
      await page.keyboard.press('Enter');
      await expect(page.getByRole('textbox', { name: 'Title of the sheet' })).toHaveValue('Merrowby Petrel 13 Cartridge');
      await verdictSettled(page);
      await page.goBack();
      await expect(title).toBeFocused();

      await tabTo(page, page.getByRole('button', { name: 'Write the table (CSV)' }));
      const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
      expect(download.suggestedFilename()).toBe('listings.csv');
      const [head, first] = readFileSync(await download.path(), 'utf8').split('\r\n');
      expect(head).toBe(
        'place,standing,title,claimed,first reason rests on,things held against each other,minutes of strip-down,independent reasons,there may be more,why,where to look first,may be described as,price asked,link,source,Seen on',
      );
      expect(first).toMatch(/^1,no name,Merrowby Petrel 14,Petrel 14,.*,120,https:\/\/quay\.example\/2,"quay\.csv, row 2",fair$/);
    },
  );

  reading('[T1] it shows how far it is and is stopped by keyboard; what was judged stays, and the rest is named', async ({ page }) => {
    const many = path.join(path.dirname(folder), 'many.csv');
    const unit = (n: number) =>
      [
        'turbine wheel,blade count,11',
        'compressor wheel,full blade count,7',
        'compressor wheel,splitter blade count,7',
        'bearing housing,water ports,no',
      ]
        .map((entry) => `u${n},Listing ${n},Merrowby,Petrel 13 Cartridge,${entry},seen,,`)
        .join('\n');
    const units = 3000;
    writeFileSync(
      many,
      ['unit,title,maker,claimed,slot,feature,value,how,u,note', ...Array.from({ length: units }, (_, n) => unit(n))].join('\n'),
    );
    await toListings(page);
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      page.getByRole('button', { name: 'A table of listings…' }).click(),
    ]);
    await chooser.setFiles(many);
    await expect(page.getByRole('progressbar', { name: 'Listings judged' })).toBeVisible();
    await tabTo(page, page.getByRole('button', { name: 'Stop here' }));
    await page.keyboard.press('Enter');
    await done(page);
    await expect(list(page)).toContainText('Stopped before all were judged');
    await expect(list(page)).toContainText(`${units} rows:`);
    await expect(list(page)).toContainText(/\d+ ruled out, \d+ not reached/);
  });

  reading('[V1] the shelf listed: no accessibility violation by day or by night, and it prints', async ({ page }, info) => {
    await toListings(page);
    await axeClean(page, 'nothing handed in', info);
    await page.getByRole('button', { name: 'All on the shelf' }).click();
    await done(page);
    await expect(list(page).getByRole('row')).toHaveCount(1 + readdirSync(samples).length);
    await axeClean(page, 'the shelf', info);
    await page.emulateMedia({ media: 'print', colorScheme: 'light' });
    await expect(page.getByRole('button', { name: 'Write the table (CSV)' })).toBeHidden();
    await expect(page.locator('.bar')).toBeHidden();
    const printed = await page.pdf({ preferCSSPageSize: true });
    await info.attach('listings.pdf', { body: printed, contentType: 'application/pdf' });
    const paper = (await readPdf(printed)).text.join('\n').replace(/\s+/g, ' ');
    expect(paper).toContain('Known housing, nameless core');
    expect(paper).toContain('A rotor turns fast enough to burst');
  });
});
