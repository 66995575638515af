import { graphColumns } from '../../renderer/graph/conflictGraph.ts';
import { expect, reading, saving as test } from './fixtures.ts';
import { Hand } from './hand.ts';
import { enter, openSheet, pressUntilAt, tabTo, typed, verdictSettled, walkTo } from './keyboard.ts';
import { tellPaints, watchPaints } from './paint-times.ts';

/** Where the answer must be in sight without scrolling: a small window, and a common one looked at at 150 %. */
const insight = [
  { width: 1024, height: 700 },
  { width: 853, height: 533 },
] as const;

/**
 * The counter's story, without a mouse: a unit with a known housing on a nameless core is offered as a cartridge model.
 * Everything is asked of the running program over the demo atlas.
 */
test('[W1] a claim and five entries by keyboard: the claimed name falls, the ticket is copied within eighty keys, the sheet is saved and reopened', async ({
  page,
}, info) => {
  const verdict = page.getByRole('region', { name: 'Verdict' });
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await watchPaints(page);
  await page.reload();
  const hand = new Hand(page, info);
  await hand.does('the claim is written down', async () => {
    await expect(page.getByRole('textbox', { name: 'Offered as' })).toBeFocused();
    await page.keyboard.type('Petrel 13 Cartridge');
    await page.keyboard.press('Enter');
  });

  await hand.does('five entries, Enter for each', async () => {
    await enter(page, 'compressor housing', 'cast name', typed('MERROWBY'), 'cast n');
    await walkTo(page, 'compressor wheel');
    await enter(page, 'compressor wheel', 'full blade count', typed('7'), 'full');
    await enter(page, 'compressor wheel', 'splitter blade count', typed('7'), 'spl');
    await walkTo(page, 'bearing housing');
    await enter(page, 'bearing housing', 'water ports', (in_) => in_.keyboard.press('ArrowRight'), 'wat');
    await walkTo(page, 'turbine wheel');
    await enter(page, 'turbine wheel', 'blade count', typed('11'), 'blade');
    await verdictSettled(page);
    await expect(page.locator('[data-entry]')).toHaveCount(5);
  });

  await hand.does('the words for the ticket are copied', async () => {
    await expect(verdict.locator('.claim-line')).toContainText('ruled out');
    await page.keyboard.press('F9');
    await expect(verdict.getByText('Copied')).toBeVisible();
  });
  const copied = await page.evaluate(() => navigator.clipboard.readText());
  expect(copied).toContain('must not be described as Merrowby Petrel 13 Cartridge');
  expect(copied).toContain('A pattern part unknown to the atlas cannot be excluded by eye');
  expect(hand.keys, 'keys to the copied ticket').toBeLessThanOrEqual(80);
  await hand.tells();
  await tellPaints(page, info);

  await test.step('what would bring it back, and what a part needs before it goes on, stand with the claim', async () => {
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
    await expect(verdict.locator('.plate')).toContainText('stands');
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
    expect(await pressUntilAt(page, entry, 'ArrowDown', 60)).toBe(true);
    await page.keyboard.press('Enter');
    await expect(entry).toHaveAttribute('aria-pressed', 'true');
    await expect(water).toHaveAttribute('aria-pressed', 'false');
    await expect(water).toContainText('has what is picked');
  });

  await test.step('it is saved, another sheet is begun, and the first is reopened as it was', async () => {
    const headline = await verdict.locator('h2.headline').textContent();
    await page.keyboard.press('Control+s');
    await expect(page.getByText('Saved', { exact: true })).toBeVisible();
    await expect(verdict.locator('.tag-case')).toContainText(
      (await page.getByTitle('The file of this case').textContent())?.replace('Case ', '') ?? 'no number',
    );
    await tabTo(page, page.getByRole('link', { name: 'Sheets' }), true);
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByRole('button', { name: 'New sheet' }));
    await page.keyboard.press('Enter');
    await expect(page.locator('[data-entry]')).toHaveCount(0);
    await tabTo(page, page.getByRole('link', { name: 'Sheets' }), true);
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByRole('button', { name: 'untitled unit', exact: true }));
    await page.keyboard.press('Enter');
    await expect(page.locator('[data-entry]')).toHaveCount(5);
    await verdictSettled(page);
    expect(await verdict.locator('h2.headline').textContent()).toBe(headline);
  });
});

for (const title of ['A plate from somewhere else', 'A Gannet as far as the flanges']) {
  reading(
    `[V7] ${title}, ten entries: claim, name, every word for the ticket and the next check are in sight, and nothing is wider than the window`,
    async ({ page }) => {
      await openSheet(page, title);
      await expect(page.locator('[data-entry]')).toHaveCount(10);
      await expect(page.locator('.next-check')).toHaveAttribute('data-state', 'answered');
      for (const size of insight) {
        await page.setViewportSize(size);
        const last = [page.locator('.ticket-text.is-may > ul > li').last(), page.locator('.ticket-text.is-must-not > ul > li').last()];
        for (const shown of [page.locator('.claim-line'), page.locator('h2.headline'), ...last, page.locator('.next-line')])
          await expect.soft(shown, `${size.width}`).toBeInViewport({ ratio: 0.99 });
        for (const button of ['Copy', 'Print', 'Save'])
          await expect(page.getByRole('button', { name: button, exact: true })).toBeInViewport({ ratio: 1 });
        expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth), `${size.width}`).toBeLessThanOrEqual(0);
      }
      await page.setViewportSize({ width: 640, height: 400 });
      for (const shown of [page.locator('.claim-line'), page.locator('h2.headline'), page.locator('.ticket-text.is-may > ul > li').first()])
        await expect(shown).toBeInViewport({ ratio: 0.99 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
    },
  );
}

test('[W1] the tag is printed alone: case, day and claim, both texts and the cautions, and the window comes back', async ({ page }) => {
  await page.addInitScript(() => {
    window.print = () => Object.assign(window, { paper: (document.querySelector('.tag-paper') as HTMLElement | null)?.textContent ?? '' });
  });
  await page.reload();
  await openSheet(page, 'A plate from somewhere else');
  await page.getByRole('button', { name: 'Print', exact: true }).click();
  await expect.poll(() => page.evaluate(() => (window as unknown as { readonly paper?: string }).paper)).toContain('must not be described');
  const paper = await page.evaluate(() => (window as unknown as { readonly paper: string }).paper);
  expect(paper).toContain('offered as “Petrel 13 Cartridge”');
  expect(paper).toContain('How it may be described');
  expect(paper).toContain('the maker’s confirmation of the plate is the last word');
  await expect(page.locator('.tag-paper')).toHaveCount(0);
  await expect(page.getByRole('button', { name: 'Print', exact: true })).toBeVisible();
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
