import { graphColumns } from '../../renderer/graph/conflictGraph.ts';
import { expect, reading, test } from './fixtures.ts';
import { enter, tabTo, typed, verdictSettled, walkTo } from './keyboard.ts';

/**
 * The counter's story, without a mouse: a unit with a known housing on a nameless core is offered as a cartridge model.
 * Everything is asked of the running program over the demo atlas.
 */
test('[W1] six entries by keyboard: the claimed name falls, the reasons light up in the graph, the sheet is saved and reopened', async ({
  page,
}) => {
  const verdict = page.getByRole('region', { name: 'Verdict' });
  await test.step('a new unit is named and its claim written down', async () => {
    await tabTo(page, page.getByRole('textbox', { name: 'Title of the sheet' }));
    await page.keyboard.type('Grey unit off the quay');
    await tabTo(page, page.getByRole('combobox', { name: 'Maker it is offered under' }));
    await page.keyboard.type('Merrowby');
    await tabTo(page, page.getByRole('textbox', { name: 'Offered as' }));
    await page.keyboard.type('Petrel 13 Cartridge');
    await verdictSettled(page);
    await expect(verdict.locator('.claim-line')).toContainText('Petrel 13 Cartridge');
    await expect(verdict.locator('.claim-line')).toContainText('open');
  });

  await test.step('six entries, Enter for each', async () => {
    await tabTo(page, page.getByRole('combobox', { name: 'Add to compressor housing' }));
    await enter(page, 'compressor housing', 'cast name', typed('MERROWBY'));
    await walkTo(page, 'compressor wheel');
    await enter(page, 'compressor wheel', 'full blade count', typed('7'));
    await enter(page, 'compressor wheel', 'splitter blade count', typed('7'));
    await walkTo(page, 'bearing housing');
    await enter(page, 'bearing housing', 'water ports', async () => {
      await page.keyboard.press('ArrowRight');
    });
    await enter(page, 'bearing housing', 'cast name', async () => {
      await page.keyboard.press('Tab');
      await page.keyboard.press('Space');
    });
    await walkTo(page, 'turbine wheel');
    await enter(page, 'turbine wheel', 'blade count', typed('11'));
    await verdictSettled(page);
    await expect(page.locator('[data-entry]')).toHaveCount(6);
  });

  await test.step('what would honour it, and what a part needs before it goes on, stand with the claim', async () => {
    const offered = page.getByRole('textbox', { name: 'Offered as' });
    await offered.fill('Shearwater 9');
    await verdictSettled(page);
    const swap = verdict.locator('.swap').first();
    await expect(swap.locator('.swap-cost')).toHaveText(/^\d+ min/);
    await swap.locator('summary').click();
    await expect(swap.locator('.swap-need').first()).toContainText(
      /Shearwater 9 compressor housing: Whether compressor wheel in its contour goes together is not known: the compressor housing’s contour width at the exducer is not known\./,
    );
    await offered.fill('Petrel 13 Cartridge');
    await verdictSettled(page);
  });

  const conflicts = page.getByRole('list', { name: /^Reasons against .*Petrel 13 Cartridge/ });
  await test.step('the verdict leads with the honest name and says in sentences why not the claimed one', async () => {
    await expect(verdict.locator('.claim-line')).toContainText('ruled out');
    await expect(verdict.locator('h2.headline')).toContainText('stands');
    await expect(verdict.locator('h2.headline')).not.toContainText('Petrel 13 Cartridge');
    await expect(conflicts.getByRole('listitem').first()).toContainText(/water|blades/);
    await expect(verdict.getByRole('heading', { name: 'How it may be described' })).toBeVisible();
    await expect(verdict.locator('.ticket-text.is-must-not')).toContainText('Petrel 13 Cartridge');
    await expect(verdict.getByRole('heading', { name: 'Cautions' })).toBeVisible();
  });

  await test.step('a conflict picked in the list lights its members in the graph, and one of them picked lights the conflict', async () => {
    const water = conflicts.getByRole('button', { name: /water/ }).first();
    await tabTo(page, water);
    await page.keyboard.press('Enter');
    await expect(water).toHaveAttribute('aria-pressed', 'true');
    const words = page.getByRole('list', { name: 'The graph in words' });
    const entry = words.getByRole('button', { name: /^water ports not there/ });
    await expect(entry).toHaveAccessibleName(/lit$/);
    await expect(page.getByRole('img', { name: /drawn as a graph/ }).first()).toHaveAttribute('data-drawn', 'true');
    await tabTo(page, words.getByRole('button').first());
    for (let step = 0; step < 60 && !(await entry.evaluate((element) => element === document.activeElement)); step += 1) {
      await page.keyboard.press('ArrowDown');
    }
    await page.keyboard.press('Enter');
    await expect(entry).toHaveAttribute('aria-pressed', 'true');
    await expect(water).toHaveAttribute('aria-pressed', 'false');
    await expect(water).toContainText('has what is picked');
  });

  await test.step('it is saved, another sheet is begun, and the first is reopened as it was', async () => {
    const headline = await verdict.locator('h2.headline').textContent();
    await page.keyboard.press('Control+s');
    await expect(page.getByText('Saved', { exact: true })).toBeVisible();
    await tabTo(page, page.getByRole('link', { name: 'Sheets' }), true);
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByRole('button', { name: 'New sheet' }));
    await page.keyboard.press('Enter');
    await expect(page.locator('[data-entry]')).toHaveCount(0);
    await tabTo(page, page.getByRole('link', { name: 'Sheets' }), true);
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByRole('button', { name: 'Grey unit off the quay', exact: true }));
    await page.keyboard.press('Enter');
    await expect(page.locator('[data-entry]')).toHaveCount(6);
    await verdictSettled(page);
    expect(await verdict.locator('h2.headline').textContent()).toBe(headline);
  });
});

reading('[K2] the graph takes the mouse: a part tapped in the drawing is picked in the list beside it', async ({ page }) => {
  await page.getByRole('link', { name: 'Sheets' }).click();
  await page.getByRole('button', { name: 'Known housing, nameless core', exact: true }).click();
  await verdictSettled(page);
  const drawing = page.getByRole('img', { name: /drawn as a graph/ }).first();
  await expect(drawing).toHaveAttribute('data-drawn', 'true');
  await drawing.scrollIntoViewIfNeeded();
  const slot = page.getByRole('list', { name: 'The graph in words' }).getByRole('button', { name: /^bearing housing, in / });
  await expect(slot).toHaveAttribute('aria-pressed', 'false');
  const box = await drawing.boundingBox();
  if (box === null) throw new Error('the graph has no place on the page');
  // The parts stand in one column; taps go down it until the list says that the bearing housing was met. Each tap is placed anew, since
  // a pick may unfold the list above the drawing, and is given its two frames, since a second tap on a part unpicks it.
  const x = (graphColumns.parts / graphColumns.width) * box.width;
  for (let y = 8; y < box.height && (await slot.getAttribute('aria-pressed')) !== 'true'; y += 12) {
    await drawing.click({ position: { x, y }, force: true });
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
  }
  await expect(slot).toHaveAttribute('aria-pressed', 'true');
});
