import { axeClean } from './axe-clean.ts';
import { expect, startHost, test } from './fixtures.ts';
import { openSheet, tabTo } from './keyboard.ts';
import { loadNewerEdition } from './newer-edition.ts';

test('[P7] by keyboard: after another edition the cases it would tell otherwise are worked off, one saved anew and one left as told', async ({
  page,
  host,
  data,
}, info) => {
  test.slow();
  await openSheet(page, 'Known housing, nameless core');
  await page.getByRole('textbox', { name: 'Title of the sheet' }).fill('One');
  await page.keyboard.press('Control+s');
  await expect(page.getByText('Saved', { exact: true })).toBeVisible();
  await page.getByRole('link', { name: 'Sheets' }).click();
  await page.getByRole('button', { name: 'Copy One', exact: true }).click();
  await expect(page.getByText('Copied as')).toBeVisible();
  await page.getByRole('link', { name: 'Cases judged once more…' }).click();
  await tabTo(page, page.getByRole('button', { name: 'Judge every case once more' }));
  await axeClean(page, 'before judging', info);
  await page.keyboard.press('Enter');
  await expect(page.getByText(/^None of 2 cases would be judged otherwise/)).toBeVisible();

  await page.goto('about:blank');
  await host.stop();
  loadNewerEdition(info.outputPath('newer'), data);
  const again = await startHost(data);
  try {
    await page.goto(await again.address());
    await page.getByRole('link', { name: 'Sheets' }).click();
    await page.getByRole('link', { name: 'Cases judged once more…' }).click();
    await page.getByRole('button', { name: 'Judge every case once more' }).press('Enter');
    const list = page.getByRole('region', { name: 'Cases to work off' });
    await expect(list.getByRole('listitem', { name: /^Case/ })).toHaveCount(2);
    const first = list.getByRole('listitem', { name: /^Case A-\d{4}-000[12]/ }).first();
    await expect(first).toContainText('Was judged');
    await expect(first).toContainText('In the turbine wheel today’s atlas leaves other parts.');
    await axeClean(page, 'the list to work off', info);

    await tabTo(page, first.getByRole('button', { name: /^Leave as it was/ }));
    await page.keyboard.press('Enter');
    await expect(first.getByRole('textbox', { name: 'Why it stays as it was' })).toBeFocused();
    await page.keyboard.type('The customer has the unit.');
    await axeClean(page, 'leave as told', info);
    await page.keyboard.press('Enter');
    await expect(list.getByRole('listitem', { name: /^Case/ })).toHaveCount(1);

    await tabTo(page, list.getByRole('button', { name: /^Save as judged today/ }));
    await page.keyboard.press('Enter');
    await expect(list.getByRole('listitem', { name: /^Case/ })).toHaveCount(0);
    await page.getByRole('button', { name: 'Judge them again' }).click();
    await expect(page.getByText(/^None of 2 cases would be judged otherwise.*1 case more was left as it was/)).toBeVisible();

    await page.getByRole('link', { name: 'All cases' }).click();
    const rows = page.getByRole('region', { name: 'The shop’s own cases' });
    const counts: number[] = [];
    for (const index of [0, 1]) {
      await rows
        .getByRole('link', { name: /^Case file/ })
        .nth(index)
        .click();
      await expect(page.getByRole('heading', { name: 'History' })).toBeVisible();
      counts.push(await page.getByRole('list', { name: 'Left as told' }).count());
      await page.getByRole('link', { name: 'All cases' }).click();
    }
    expect(counts.sort(), 'the reason stands in the history of the one').toEqual([0, 1]);
  } finally {
    // A window that is still open would ask on, and nobody would answer.
    await page.goto('about:blank');
    await again.stop();
  }
});
