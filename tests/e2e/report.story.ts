import { readFileSync } from 'node:fs';
import { linesOf, type Report } from '../../reasoner/index.ts';
import { bare, readPdf } from '../unit/report/read-pdf.ts';
import { smallJpeg } from '../unit/report/small-pictures.ts';
import { axeClean, noViolations } from './axe-clean.ts';
import { expect, reading, saving as test } from './fixtures.ts';
import { openSheet, tabTo, verdictSettled } from './keyboard.ts';

const sample = 'Known housing, nameless core';

test.describe('the report for the customer', () => {
  test.use({ viewport: { width: 1280, height: 800 } });

  reading('[W1] by keyboard from the verdict to the PDF: the page and the file say the same, word for word', async ({ page }, info) => {
    await openSheet(page, sample);
    await tabTo(page, page.getByRole('link', { name: 'Report', exact: true }), true);
    await page.keyboard.press('Enter');
    const report = page.getByRole('article');
    await expect(report).toHaveAttribute('data-state', 'answered');
    await expect(report.getByRole('heading', { level: 1 })).toHaveText(sample);
    await expect(report.getByRole('heading', { level: 2 })).toHaveText([
      'What was brought in and claimed',
      'What was seen',
      'What is ruled out, and why',
      'What stands',
      'What is open, and what would settle it',
      'For the ticket',
      'Cautions',
    ]);
    await expect(report.getByRole('img', { name: 'The numbered reasons, drawn' })).toBeVisible();

    await tabTo(page, page.getByRole('button', { name: 'Save as PDF' }));
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
    expect(download.suggestedFilename()).toBe('known-housing-nameless-core.pdf');
    await expect(page.getByRole('status').filter({ hasText: 'Written' })).toHaveText('Written: known-housing-nameless-core.pdf.');
    const bytes = readFileSync(await download.path());
    await info.attach('report.pdf', { body: bytes, contentType: 'application/pdf' });
    const pdf = await readPdf(bytes);
    expect(pdf.pages).toBeLessThanOrEqual(2);
    const paper = bare(pdf.text.join('\n'));
    const document = await page.evaluate(async () => {
      const found = await window.desk.ask('sheets.list', {});
      const id = found.ok ? found.value.find(({ title }) => title === 'Known housing, nameless core')?.id : undefined;
      const sheet = await window.desk.ask('sheets.open', { id: id ?? '' });
      if (!sheet.ok) throw new Error(sheet.trouble.sentence);
      const made = await window.desk.ask('report.of', { sheet: sheet.value.sheet });
      if (!made.ok) throw new Error(made.trouble.sentence);
      return made.value as Report;
    });
    const onPage = bare((await page.getByRole('article').textContent()) ?? '');
    for (const { text } of linesOf(document)) {
      expect(paper, text).toContain(bare(text));
      expect(onPage, text).toContain(bare(text));
    }
    await tabTo(page, page.getByRole('link', { name: 'Back to the unit' }), true);
    await page.keyboard.press('Enter');
    await expect(page.getByRole('textbox', { name: 'Title of the sheet' })).toHaveValue(sample);
  });

  test('[W1] a case’s number, customer and photographs stand on the page and in the file', async ({ page }, info) => {
    await openSheet(page, sample);
    await page.evaluate(
      async ({ picture }) => {
        const ask = async (...asked: Parameters<typeof window.desk.ask>) => {
          const reply = await window.desk.ask(...asked);
          if (!reply.ok) throw new Error(reply.trouble.sentence);
          return reply.value;
        };
        const sheets = (await ask('sheets.list', {})) as unknown as { id: string; title: string }[];
        const id = sheets.find(({ title }) => title === 'Known housing, nameless core')?.id ?? '';
        const { sheet, version } = (await ask('sheets.open', { id })) as unknown as { sheet: never; version: string };
        await ask('sheets.save', { sheet, who: 'Ines', madeAgainst: version });
        const words = (await ask('cases.open', { sheet: id })) as unknown as { version: string };
        await ask('cases.describe', { sheet: id, customer: 'Harbour pilot', lookedBy: 'Ines', notes: '', madeAgainst: words.version });
        const photo = { sheet: id, name: 'inlet.jpg', data: picture, thumbnail: picture, caption: 'from the inlet', about: null };
        await ask('photos.add', photo);
      },
      { picture: Buffer.from(smallJpeg).toString('base64') },
    );
    // It was saved behind the window's back; opened anew, the window knows its case.
    await page.reload();
    await verdictSettled(page);
    await page.getByRole('link', { name: 'Report', exact: true }).click();
    const report = page.getByRole('article');
    await expect(report.locator('.report-head')).toContainText('Harbour pilot');
    await expect(report.locator('.report-head')).toContainText(/Case:?\s*A-\d{4}-0001/);
    const photograph = report.getByRole('img', { name: '1. from the inlet' });
    await expect(photograph).toBeVisible();
    expect(await photograph.evaluate((image) => (image as HTMLImageElement).naturalWidth)).toBe(24);
    await noViolations(page, 'a case’s report');
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save as PDF' }).click()]);
    const bytes = readFileSync(await download.path());
    await info.attach('with-photographs.pdf', { body: bytes, contentType: 'application/pdf' });
    expect(download.suggestedFilename()).toMatch(/^A-\d{4}-0001-known-housing-nameless-core\.pdf$/);
    expect((await readPdf(bytes)).text.join('\n')).toContain('from the inlet');
    const told = page.getByRole('checkbox', { name: /^Print the story too/ });
    const first = report.locator('.report-section.is-brought .report-words').first();
    await expect(told).not.toBeChecked();
    const without = await first.textContent();
    await told.check();
    await expect(first).not.toHaveText(without ?? '');
  });

  for (const title of [sample, 'As it left the works', 'Ten or eleven', 'A plate out of its time']) {
    reading(`[V1] ${title}: no accessibility violation by day or by night, and it prints on one page or two`, async ({ page }, info) => {
      await openSheet(page, title);
      await page.getByRole('link', { name: 'Report', exact: true }).click();
      await expect(page.getByRole('article')).toHaveAttribute('data-state', 'answered');
      await axeClean(page, title, info);
      await page.emulateMedia({ media: 'print', colorScheme: 'light' });
      await expect(page.locator('.bar')).toBeHidden();
      await expect(page.getByRole('button', { name: 'Save as PDF' })).toBeHidden();
      const printed = await page.pdf({ preferCSSPageSize: true, printBackground: false });
      await info.attach('printed.pdf', { body: printed, contentType: 'application/pdf' });
      expect((await readPdf(printed)).pages).toBeLessThanOrEqual(2);
    });
  }

  reading('[J2] a planned build has no report: the bar does not offer one, and the address shows the found unit’s', async ({ page }) => {
    await page.getByRole('link', { name: 'Sheets' }).click();
    await page.getByRole('button', { name: 'A Tarnwick housing on a Gannet core', exact: true }).click();
    await expect(page.getByRole('textbox', { name: 'Title of the build' })).toBeVisible();
    await expect(page.getByRole('link', { name: 'Report', exact: true })).toHaveCount(0);
    await page.evaluate(() => {
      window.location.hash = '#/report';
    });
    await expect(page.getByRole('article')).not.toContainText('Gannet');
  });

  reading('[O6] a report follows the sheet: an entry taken back is gone from it at once', async ({ page }) => {
    await openSheet(page, sample);
    await page.getByRole('link', { name: 'Report', exact: true }).click();
    const seen = page.getByRole('row', { name: /^turbine wheel/ });
    await expect(seen).toContainText('11 blades, seen');
    await page.evaluate(() => {
      window.location.hash = '#/unit';
    });
    await page.locator('[data-entry]').filter({ hasText: 'blade count 11' }).focus();
    await page.keyboard.press('Delete');
    await page.getByRole('link', { name: 'Report', exact: true }).click();
    await expect(page.getByRole('article')).toHaveAttribute('data-state', 'answered');
    await expect(seen).toHaveCount(0);
  });
});
