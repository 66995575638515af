import { readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { axeClean, noViolations } from './axe-clean.ts';
import { expect, reading, test } from './fixtures.ts';
import { openSheet, tabTo as tabToIt } from './keyboard.ts';

test('[E2] [E3] a part with fifteen facts goes into the atlas by keyboard, is found by its number, and is taken back', async ({
  page,
}, info) => {
  test.slow();
  const focused = page.locator(':focus');
  const tabTo = async (name: string | RegExp, role: Parameters<typeof page.getByRole>[0]) => {
    const wanted = page.getByRole(role, { name });
    for (let step = 0; step < 40; step += 1) {
      await page.keyboard.press('Tab');
      if (await wanted.evaluateAll((all) => all.includes(document.activeElement as HTMLElement))) return;
    }
    throw new Error(`Tab leads to no ${role} called ${name}`);
  };
  const grid = page.getByRole('region', { name: 'What is known of it' });
  const values = grid.locator('td input');

  // What a turbine wheel is like, as the atlas shows one.
  await page.getByRole('link', { name: 'Atlas' }).press('Enter');
  await page.getByRole('searchbox', { name: 'Name or part number' }).focus();
  await page.keyboard.type('FIN 75205');
  await expect(page.locator('.hits').getByRole('link').first()).toHaveText('Shearwater first turbine wheel');
  await expect(page.getByText('1 found')).toBeVisible();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await page.getByRole('article').getByRole('link', { name: 'Edit', exact: true }).press('Enter');
  await expect(grid).toBeVisible();
  const like = await values.evaluateAll((inputs) => inputs.map((input) => (input as HTMLInputElement).value));
  const facts = like.filter((text) => text !== '').length;
  expect(facts).toBeGreaterThanOrEqual(15);

  // A part of one’s own, typed from one field to the next.
  await page.getByRole('link', { name: 'Parts', exact: true }).press('Enter');
  await page.getByRole('link', { name: 'Add a part' }).press('Enter');
  await tabTo('Slot', 'combobox');
  await page.keyboard.type('turbine wheel');
  await tabTo('Name', 'textbox');
  await page.keyboard.type('Wheel out of the pilot boat');
  await tabTo(/^Add one/, 'button');
  await page.keyboard.press('Enter');
  await page.keyboard.type('TALLY 12/7');
  await tabTo('Source', 'combobox');
  await page.keyboard.type('saltmarsh');
  await expect(page.getByRole('listbox').getByRole('option').first()).toBeVisible();
  await page.keyboard.press('Enter');
  await values.first().focus();
  for (const text of like) {
    await page.keyboard.type(text);
    await page.keyboard.press('Enter');
  }
  const change = page.getByRole('complementary', { name: 'What this would change' });
  await expect(change).toContainText(`What is known of parts: ${facts} new`);
  // It is called what it is going to be called, and what it speaks of by its name.
  await expect(change.getByRole('listitem').filter({ hasText: 'Slot: turbine wheel' })).toContainText('Wheel out of the pilot boat');
  await expect(change.getByText(/wheel-out-of/)).toHaveCount(0);
  await expect(change.getByRole('heading', { name: 'What would follow' })).toBeVisible();

  // A slip is said at its line, and keeps the change from being made.
  await values.nth(like.findIndex((text) => /^[\d.]+ ±/.test(text))).focus();
  await page.keyboard.press('Control+a');
  await page.keyboard.type('about nine');
  await expect(focused).toHaveAttribute('aria-invalid', 'true');
  await expect(page.getByRole('button', { name: 'Make the change' })).toBeDisabled();
  await page.keyboard.press('Control+a');
  await page.keyboard.type('?');
  await expect(change).toContainText('not known');
  await noViolations(page, 'a part being typed');

  await tabTo('Who', 'textbox');
  await page.keyboard.type('Ines');
  await page.keyboard.press('Tab');
  await page.keyboard.type('It came out of the pilot boat.');
  await expect(page.getByRole('button', { name: 'Make the change' })).toBeEnabled();
  await page.keyboard.press('Control+s');
  await expect(page.getByText('The change was made.')).toBeVisible();
  await expect(page.getByRole('heading', { level: 1, name: 'Wheel out of the pilot boat' })).toBeVisible();

  // Back leads to where it was asked for, and not to an empty form.
  await page.goBack();
  await expect(page.getByRole('heading', { level: 1, name: 'Parts' })).toBeVisible();
  await page.goForward();
  await page.getByRole('link', { name: 'See its page' }).press('Enter');
  await expect(page.getByRole('article')).toContainText('TALLY 12/7');
  await expect(page.getByRole('article')).toContainText(new RegExp(`${facts - 1} of \\d+ features`));

  // And back, from where it was made.
  await page.goBack();
  await page.getByRole('button', { name: 'Undo it' }).press('Enter');
  await expect(page.getByText('The change was taken back.')).toBeVisible();
  await page.getByRole('link', { name: 'Atlas' }).press('Enter');
  await page.getByRole('searchbox', { name: 'Name or part number' }).fill('TALLY 12/7');
  await expect(page.locator('.hits')).toContainText('Nothing in the atlas is called');

  await test.step('what a saved case would be told is said before a blade count is altered, and is of no older count', async () => {
    await openSheet(page, 'As it left the works');
    await page.getByRole('textbox', { name: 'Title of the sheet' }).fill('Out of the pilot boat');
    await page.keyboard.press('Control+s');
    await expect(page.getByText('Saved', { exact: true })).toBeVisible();
    await page.evaluate(() => {
      window.location.hash = '#/edit/parts/merrowby-petrel-2-turbine-wheel';
    });
    const blades = grid.getByRole('row', { name: /^blade count/ }).getByRole('textbox');
    await expect(blades).toHaveValue('10');
    await blades.focus();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('11');
    await expect(change).toContainText('The one saved case would be judged otherwise.');
    const row = change.getByRole('listitem', { name: 'Case A-2026-0001: Out of the pilot boat' });
    await expect(row).toContainText(
      'Is judgedMerrowby Petrel 11 CartridgePetrel 11 Cartridge standsWould be judgedno name: a list of partsPetrel 11 Cartridge ruled out',
    );
    await page.setViewportSize({ width: 1024, height: 700 });
    await row.scrollIntoViewIfNeeded();
    await axeClean(page, 'what a saved case would be told, smaller', info);
    await tabToIt(page, row.getByRole('link', { name: /Out of the pilot boat/ }));

    // Typed on: what was judged is of the count before, until the case is judged again.
    await blades.focus();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('10');
    await expect(change).not.toContainText('would be judged otherwise.');
  });
});

/** What of a value somebody could have given: every figure, word and reference in it. */
const given = (value: unknown): number =>
  typeof value === 'object'
    ? Object.values(value ?? {}).reduce((sum: number, one) => sum + given(one), 0)
    : typeof value === 'boolean'
      ? 0
      : 1;

reading('[E2] whatever kind of thing an entry holds, each of it stands in a box of its form', async ({ page }) => {
  const folder = fileURLToPath(new URL('../../seed-data', import.meta.url));
  for (const [list, file] of [
    ['joints', 'vocabulary/joints.json'],
    ['drawings', 'vocabulary/drawings.json'],
    ['operations', 'vocabulary/operations.json'],
  ] as const) {
    const entries = JSON.parse(readFileSync(path.join(folder, file), 'utf8')) as readonly { readonly id: string }[];
    // Of each kind of thing the list holds, the entry that says most.
    const kinds = new Map<string, { readonly id: string }>();
    for (const entry of [...entries].sort((a, b) => JSON.stringify(a).length - JSON.stringify(b).length))
      for (const [, kind] of JSON.stringify(entry).matchAll(/"kind":"([^"]+)"/g)) kinds.set(kind as string, entry);
    for (const entry of new Set([...kinds.values(), entries[0] as { readonly id: string }])) {
      await page.evaluate((hash) => (window.location.hash = hash), `#/edit/${list}/${entry.id}`);
      await expect(page.getByText(`Its id is “${entry.id}”.`)).toBeVisible();
      const boxes = page.locator('main .edit-form :is(input:not([type=checkbox]), select, textarea)');
      const filled = () =>
        boxes.evaluateAll(
          (all) => all.filter((one) => (one as HTMLInputElement).value !== '' || one.closest('.ref-field')?.matches('.picked')).length,
        );
      const { id: _, ...rest } = entry;
      await expect.poll(filled, { message: `${list}, ${entry.id}` }).toBeGreaterThanOrEqual(given(rest));
    }
  }
});
