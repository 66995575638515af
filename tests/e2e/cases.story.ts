import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { jpegWithPosition, pngWithPosition } from '../unit/db/photos/with-position.ts';
import { expect, saving, startHost, test } from './fixtures.ts';
import { caseLink, enter, featureBox, openSheet, tabTo, typed, verdictSettled } from './keyboard.ts';
import { loadNewerEdition } from './newer-edition.ts';

const sample = 'Known housing, nameless core';

/** Opens the case file of the sheet on the bench by its link in the bar. */
const toCase = async (page: Page): Promise<void> => {
  await tabTo(page, caseLink(page));
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
};

/** A case of the sample, saved. */
const savedCase = async (page: Page): Promise<void> => {
  await openSheet(page, sample);
  await featureBox(page, 'heat shield').focus();
  await enter(page, 'heat shield', 'slot count', typed('4'));
  await page.keyboard.press('Control+s');
  await expect(page.getByText('Saved', { exact: true })).toBeVisible();
};

test('[P1] by keyboard: a sheet becomes a case with a number, is described, photographed, found again and read as it was', async ({
  page,
  host,
}) => {
  await test.step('who looks is said once, and the sheet is saved', async () => {
    await tabTo(page, page.getByRole('link', { name: 'Sheets' }), true);
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByRole('textbox', { name: 'Who looks' }));
    await page.keyboard.type('Marit');
    await savedCase(page);
  });

  await test.step('its case has the year’s first number, and takes customer and notes as they are typed', async () => {
    await toCase(page);
    await expect(page.getByRole('heading', { level: 1 })).toContainText(/\d{4}-0001/);
    await expect(page.getByRole('textbox', { name: 'Looked at by' })).toHaveValue('Marit');
    await tabTo(page, page.getByRole('textbox', { name: 'Customer' }));
    await page.keyboard.type('Pilot station');
    await tabTo(page, page.getByRole('textbox', { name: 'Notes' }));
    await page.keyboard.type('Shaft is blue at the turbine end.');
    await page.keyboard.press('Tab');
    await expect(page.getByRole('region', { name: 'The case' }).getByText('Saved', { exact: true })).toBeVisible();
  });

  const photographs = page.getByRole('region', { name: 'Photographs' });
  await test.step('a photograph is picked, captioned and tied to what it shows', async () => {
    await tabTo(page, photographs.getByRole('button', { name: 'Add photographs…' }));
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Enter')]);
    await chooser.setFiles([{ name: 'IMG_0417.jpg', mimeType: 'image/jpeg', buffer: jpegWithPosition() }]);
    await expect(photographs.getByRole('listitem')).toHaveCount(1);
    await expect(photographs.getByText('1 photograph added; where it was taken is not kept.')).toBeVisible();
    await tabTo(page, photographs.getByRole('textbox', { name: /^Caption/ }));
    await page.keyboard.type('the wheel, as received');
    await page.keyboard.press('Tab');
    const shows = photographs.getByRole('combobox', { name: /^What .* shows$/ });
    await expect(shows).toHaveAccessibleName('What the wheel, as received shows');
    await shows.selectOption({ label: 'compressor wheel' });
    await tabTo(page, photographs.getByRole('button', { name: /^Look at/ }), true);
    await page.keyboard.press('Enter');
    const view = page.getByRole('dialog', { name: 'the wheel, as received — compressor wheel' });
    await expect(view.getByRole('img')).toHaveJSProperty('complete', true);
    // Which way up it is was kept: a phone held upright gives a picture higher than wide.
    expect(await view.getByRole('img').evaluate((image: HTMLImageElement) => [image.naturalWidth, image.naturalHeight])).toEqual([12, 16]);
    await page.keyboard.press('Escape');
    await expect(view).toHaveCount(0);
  });

  await test.step('after another start it is found by a word of its notes, and nothing is lost', async () => {
    await page.goto('about:blank');
    await host.restart();
    await page.goto(await host.address());
    await tabTo(page, page.getByRole('link', { name: 'Sheets' }), true);
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByRole('searchbox', { name: /^Words in number/ }));
    await page.keyboard.type('blue pilot');
    const cases = page.getByRole('region', { name: 'The shop’s own cases' });
    await expect(cases.getByRole('listitem')).toHaveCount(1);
    await expect(cases.getByRole('listitem')).toContainText('for Pilot station');
    await expect(cases.getByRole('listitem')).toContainText('1 photograph');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('textbox', { name: 'Title of the sheet' }), 'Enter opens the first that is found').toHaveValue(sample);
    await page.goBack();
    await tabTo(page, cases.getByRole('link', { name: /^Case file A-\d{4}-0001/ }));
    await page.keyboard.press('Enter');
    await expect(page.getByRole('textbox', { name: 'Customer' })).toHaveValue('Pilot station');
    await expect(photographs.getByRole('button', { name: 'Look at the wheel, as received' }).locator('img')).toBeVisible();
  });

  await test.step('an entry changed, the kept verdict is held against today’s, with the entry that did it', async () => {
    await tabTo(page, page.getByRole('button', { name: 'Put it on the bench' }));
    await page.keyboard.press('Enter');
    await verdictSettled(page);
    await page.getByRole('textbox', { name: 'Offered as' }).fill('');
    await page.keyboard.press('Control+s');
    await expect(page.getByText('Saved', { exact: true })).toBeVisible();
    await toCase(page);
    const history = page.getByRole('table').first();
    await expect(history.getByRole('row')).toHaveCount(3);
    await tabTo(page, history.getByRole('button').last());
    await page.keyboard.press('Enter');
    const since = page.getByRole('region', { name: 'What changed since' });
    await expect(since).toHaveAttribute('data-state', 'answered');
    await expect(since).toContainText('nothing is claimed now');
    await expect(since.getByRole('listitem').first()).toContainText('Offered as nothing');
  });

  await test.step('as it stood at the end of a day it is read and not written', async () => {
    const day = new Date().toISOString().slice(0, 10);
    await page.getByRole('textbox', { name: 'As it stood on' }).fill(day);
    await expect(page.getByText(/^Shown as it stood at the end of/)).toBeVisible();
    await expect(page.getByRole('textbox', { name: 'Customer' })).toHaveAttribute('readonly');
    await expect(photographs.getByRole('button', { name: 'Add photographs…' })).toHaveCount(0);
    await expect(page.getByRole('region', { name: 'What changed since' })).toHaveCount(0);
    await tabTo(page, page.getByRole('button', { name: 'Back to today' }));
    await page.keyboard.press('Enter');
    await expect(photographs.getByRole('button', { name: 'Add photographs…' })).toBeVisible();
  });

  await test.step('a photograph is taken out, and that is asked about', async () => {
    await tabTo(page, photographs.getByRole('button', { name: 'Remove the wheel, as received' }));
    await page.keyboard.press('Enter');
    const question = page.getByRole('dialog', { name: 'Remove this photograph?' });
    await question.getByRole('button', { name: 'Remove it' }).focus();
    await page.keyboard.press('Enter');
    await expect(photographs.getByRole('listitem')).toHaveCount(0);
  });
});

saving(
  '[P1] a photograph pasted beside the answer makes the sheet a case; others are dropped on the case, and what is none is refused by name',
  async ({ page }) => {
    await openSheet(page, sample);
    await tabTo(page, page.getByRole('tab', { selected: true }));
    // The last of the heads, from the first.
    await page.keyboard.press('ArrowLeft');
    const photographs = page.getByRole('region', { name: 'Photographs' });
    const give = (how: 'paste' | 'drop', name: string, type: string, bytes: Buffer) =>
      page.evaluate(
        ([kind, fileName, fileType, data]) => {
          const transfer = new DataTransfer();
          transfer.items.add(new File([Uint8Array.from(atob(data), (one) => one.charCodeAt(0))], fileName, { type: fileType }));
          if (kind === 'paste') window.dispatchEvent(new ClipboardEvent('paste', { clipboardData: transfer, cancelable: true }));
          else
            document
              .querySelector('.photo-block')
              ?.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
        },
        [how, name, type, bytes.toString('base64')] as const,
      );
    // A paste before the block is there would fall on nobody.
    await expect(photographs.getByText('or paste or drop them here')).toBeVisible();
    await page.evaluate(() => new Promise((settled) => requestAnimationFrame(() => requestAnimationFrame(settled))));
    await give('paste', 'image.png', 'image/png', pngWithPosition());
    await expect(photographs.getByText('The sheet was saved first. 1 photograph added; where it was taken is not kept.')).toBeVisible();
    await expect(page.getByRole('toolbar', { name: 'Sheet' }).getByText('Saved', { exact: true })).toBeVisible();
    await tabTo(page, photographs.getByRole('combobox', { name: 'What photograph shows' }));
    await photographs.getByRole('combobox').selectOption({ label: 'turbine wheel: blade count 11, seen' });
    await expect(photographs.getByRole('combobox')).toHaveAccessibleName('What turbine wheel: blade count 11, seen shows');
    await toCase(page);
    await expect(photographs.getByRole('listitem')).toHaveCount(1);
    await give('drop', 'IMG_0418.jpg', 'image/jpeg', jpegWithPosition());
    await expect(photographs.getByRole('list', { name: 'Photographs of the case' }).getByRole('listitem')).toHaveCount(2);
    await give('drop', 'notes.txt', 'text/plain', Buffer.from('no picture'));
    await expect(photographs.getByRole('alert')).toContainText('notes.txt was left out: found text/plain, expected JPEG, PNG or WebP.');
    await give('drop', 'torn.jpg', 'image/jpeg', jpegWithPosition().subarray(0, 200));
    await expect(photographs.getByRole('alert')).toContainText('torn.jpg was left out: it is damaged');
    await give('drop', 'IMG_0418.jpg', 'image/jpeg', jpegWithPosition());
    await expect(photographs.getByText('1 photograph added')).toBeVisible();
    await expect(
      photographs.getByRole('list', { name: 'Photographs of the case' }).getByRole('listitem'),
      'the same picture is there once',
    ).toHaveCount(2);
  },
);

test('[P1] reopened under a newer atlas, the case says that the atlas changed and what that did', async ({ page, host, data }, info) => {
  await savedCase(page);
  await toCase(page);
  const since = page.getByRole('region', { name: 'What changed since' });
  await expect(since).toHaveAttribute('data-state', 'answered');
  await expect(since).toContainText('Every name has the status it had.');
  await page.goto('about:blank');
  await host.stop();
  loadNewerEdition(info.outputPath('newer'), data);
  const again = await startHost(data);
  try {
    await page.goto(await again.address());
    await page.getByRole('link', { name: 'Sheets' }).click();
    await page.getByRole('link', { name: /^Case file/ }).click();
    await expect(since).toHaveAttribute('data-state', 'answered');
    await expect(since).toContainText('2031-01-01');
    await expect(since).toContainText('Another edition of the atlas, the same entries.');
    // What was open falls, the atlas did it, and the parts behind it are named.
    await expect(since.getByRole('row').filter({ hasText: 'pattern part core' }).first()).toContainText(
      /open.*(ruled out|not judged).*the atlas/s,
    );
    await expect(since.getByRole('listitem').filter({ hasText: /^In the turbine wheel/ })).toContainText('0 now. No longer possible:');
    // Left before the program is stopped: what the page still asks would find nobody.
    await page.goto('about:blank');
  } finally {
    await again.stop();
  }
});

saving('[P1] the table of the cases found is written as CSV', async ({ page }, info) => {
  await savedCase(page);
  await page.getByRole('link', { name: 'Sheets' }).click();
  const cases = page.getByRole('region', { name: 'The shop’s own cases' });
  await cases.getByRole('combobox', { name: 'Status of the claim' }).selectOption('claim stands');
  await expect(cases.getByText('No case is like that.')).toBeVisible();
  await cases.getByRole('button', { name: 'Show all' }).click();
  await expect(cases.getByRole('listitem')).toHaveCount(1);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    cases.getByRole('button', { name: 'Write the table (CSV)' }).click(),
  ]);
  const file = info.outputPath('cases.csv');
  await download.saveAs(file);
  const text = readFileSync(file, 'utf8');
  expect(text.startsWith('\ufeffnumber,opened on,')).toBe(true);
  expect(text).toContain(sample);
});
