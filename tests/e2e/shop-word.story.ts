import type { Locator, Page } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { expect, test } from './fixtures.ts';
import { caseLink, openSheet, tabTo } from './keyboard.ts';

/** Opens the case file of the sheet on the bench, saved first. */
const toCase = async (page: Page): Promise<void> => {
  await openSheet(page, 'Known housing, nameless core');
  await page.getByRole('textbox', { name: 'Title of the sheet' }).fill('Known housing on the counter');
  await page.keyboard.press('Control+s');
  await expect(page.getByText('Saved', { exact: true })).toBeVisible();
  await caseLink(page).click();
  await expect(page).toHaveURL(/#\/case\//);
};

test('[P6] by keyboard: what was decided is written down apart from the verdict, replaced, taken back, and all of it can be read', async ({
  page,
}, info) => {
  await toCase(page);
  const block = page.getByRole('region', { name: 'Decided beside the verdict' });
  const claimed = page.getByRole('banner').first();
  await expect(claimed).toBeVisible();
  await test.step('the shop’s own word', async () => {
    await tabTo(page, block.getByRole('button', { name: 'Write down what was decided…' }));
    await page.keyboard.press('Enter');
    await expect(block.getByRole('radio', { name: 'the shop decided it' })).toBeFocused();
    await tabTo(page, block.getByRole('textbox', { name: 'Who decided it' }));
    await page.keyboard.type('Ines');
    await tabTo(page, block.getByRole('textbox', { name: 'What was decided' }));
    await page.keyboard.type('It goes out as a rebuilt unit, housing only named.');
    await expect(block.getByRole('button', { name: 'Write it down' }), 'nothing is decided on no ground').toBeDisabled();
    await tabTo(page, block.getByRole('combobox', { name: 'On what ground' }));
    await page.keyboard.type('measured on the bench');
    await axeClean(page, 'the form for a word', info);
    await page.keyboard.press('Enter');
    await expect(block).toContainText('The shop’s own word, by Ines on');
    await expect(block).toContainText('The verdict and the words for the ticket are the program’s, and are not changed by it.');
  });

  await test.step('by the verdict it stands apart, and the ticket is as it was', async () => {
    await tabTo(page, page.getByRole('button', { name: 'Put it on the bench' }));
    await page.keyboard.press('Enter');
    const apart = page.getByRole('region', { name: 'Verdict' }).getByRole('region', { name: 'Decided beside the verdict' });
    await expect(apart).toContainText('It goes out as a rebuilt unit, housing only named.');
    await expect(page.getByRole('region', { name: 'For the ticket' })).not.toContainText('rebuilt unit, housing only');
    await apart.scrollIntoViewIfNeeded();
    await axeClean(page, 'the word by the ticket', info);
    await caseLink(page).click();
  });

  await test.step('the maker’s, as it was told, takes its place; both are kept', async () => {
    await tabTo(page, block.getByRole('button', { name: 'Decided otherwise since…' }));
    await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowDown');
    await expect(block.getByRole('radio', { name: 'the maker decided it, and the shop was told' })).toBeChecked();
    await block.getByRole('textbox', { name: 'Who told the shop' }).fill('Osk');
    await block.getByRole('textbox', { name: 'What was decided' }).fill('The housing is theirs, the core is not.');
    await block.getByRole('combobox', { name: 'On what ground' }).fill('the maker’s letter of 20 November');
    await page.keyboard.press('Enter');
    await expect(block.getByText('The maker’s decision, as told to the shop', { exact: true })).toBeVisible();
    await tabTo(page, block.getByText('All that was written down here'));
    await page.keyboard.press('Enter');
    await expect(block.getByRole('listitem')).toHaveCount(2);
    await axeClean(page, 'the case with its word', info);
  });

  await test.step('the list of cases has a sign of it, and the report a section of its own', async () => {
    await page.getByRole('link', { name: 'Sheets' }).click();
    const row = page.getByRole('region', { name: 'The shop’s own cases' }).getByRole('listitem');
    await expect(row).toContainText('The maker’s decision as told: The housing is theirs, the core is not.');
    await axeClean(page, 'the list with a word', info);
    await row.getByRole('button', { name: 'Known housing on the counter', exact: true }).click();
    await page.goto(`${page.url().split('#')[0]}#/report`);
    await expect(page.getByRole('heading', { name: 'The maker’s decision, as told to the shop' })).toBeVisible();
    await page.getByRole('heading', { name: 'The maker’s decision, as told to the shop' }).scrollIntoViewIfNeeded();
    await axeClean(page, 'the report with a word', info);
  });

  await test.step('taken back, it is said no more and stays in what was said', async () => {
    await caseLink(page).click();
    await tabTo(page, block.getByRole('button', { name: 'Take it back' }));
    await page.keyboard.press('Enter');
    await expect(block).toContainText('What was decided was taken back.');
    await block.getByText('All that was written down here').click();
    await expect(block.getByRole('listitem')).toHaveCount(3);
  });
});

test('[H5] a word written in another window in the meantime is shown beside the one that is typed here', async ({
  page,
  context,
  host,
}) => {
  await toCase(page);
  const other = await context.newPage();
  await other.goto(await host.address());
  await other.evaluate((hash) => {
    window.location.hash = hash;
  }, new URL(page.url()).hash);
  const [here, there] = [blockOf(page), blockOf(other)];
  const write = async (block: Locator, decision: string) => {
    await block.getByRole('textbox', { name: 'Who decided it' }).fill('Ines');
    await block.getByRole('textbox', { name: 'What was decided' }).fill(decision);
    await block.getByRole('combobox', { name: 'On what ground' }).fill('measured');
  };
  await here.getByRole('button', { name: 'Write down what was decided…' }).click();
  await there.getByRole('button', { name: 'Write down what was decided…' }).click();
  await write(there, 'Scrap.');
  await there.getByRole('button', { name: 'Write it down' }).click();
  await expect(there).toContainText('“Scrap.”');
  await write(here, 'Rebuild it.');
  await here.getByRole('button', { name: 'Write it down' }).click();
  await expect(here.getByRole('alert')).toContainText('What stands above was written in the meantime.');
  await expect(here).toContainText('“Scrap.”');
  await expect(here.getByRole('textbox', { name: 'What was decided' })).toHaveValue('Rebuild it.');
  await here.getByRole('button', { name: 'Write it down' }).click();
  await expect(here).toContainText('“Rebuild it.”');
});

const blockOf = (page: Page): Locator => page.getByRole('region', { name: 'Decided beside the verdict' });
