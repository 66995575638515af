import { expect, reading } from './fixtures.ts';
import { enter, entered, featureBox, openSheet, typed, verdictSettled } from './keyboard.ts';

reading.describe('what is entered', () => {
  reading('[O6] two entries that cannot both hold are shown before any reasoning, and each leads to its place', async ({ page }) => {
    await featureBox(page, 'turbine wheel').focus();
    await enter(page, 'turbine wheel', 'blade count', typed('10'));
    await enter(page, 'turbine wheel', 'blade count', typed('11'));
    const verdict = page.getByRole('region', { name: 'Verdict' });
    await expect(verdict.getByRole('heading', { name: 'Two entries disagree' })).toBeVisible();
    await expect(verdict.getByRole('heading', { name: 'Honest name' })).toHaveCount(0);
    await expect(verdict.getByText(/^With 10 blades: .*; \d+ listed parts are left for the turbine wheel\.$/)).toBeVisible();
    await expect(verdict.getByText(/^With 11 blades: .*; \d+ listed parts are left for the turbine wheel\.$/)).toBeVisible();
    await verdict.getByRole('button', { name: /Go to: blade count 11/ }).click();
    const entry = entered(page, /^blade count 11 seen; disagrees with another entry/);
    await expect(entry).toBeFocused();
    await page.keyboard.press('Delete');
    await expect(verdict.locator('h2.headline')).not.toContainText('disagree');
    await expect(featureBox(page, 'turbine wheel')).toBeFocused();
  });

  reading('[O1] values are read by their kind: a count that is not settled, inches, a stated uncertainty, hearsay', async ({ page }) => {
    await featureBox(page, 'turbine wheel').focus();
    await enter(page, 'turbine wheel', 'blade count', typed('10 or 11'));
    await expect(page.getByRole('button', { name: 'blade count 10 or 11 seen; change' })).toBeVisible();
    await enter(page, 'turbine wheel', 'exducer diameter', typed('2 in'));
    await expect(entered(page, /^exducer diameter 50.8 mm ±0.058;/)).toBeVisible();
    await page.getByRole('combobox', { name: 'Lengths in' }).selectOption('inch');
    await expect(entered(page, /^exducer diameter 2 in/)).toBeVisible();
    await featureBox(page, 'bearing set').focus();
    await page.keyboard.type('kind');
    await page.keyboard.press('Enter');
    await page.getByRole('radio', { name: 'ball-bearing cartridge' }).check();
    await page.getByRole('radio', { name: 'told' }).check();
    await page.getByRole('button', { name: 'Add', exact: true }).click();
    await expect(page.getByRole('button', { name: 'kind ball-bearing cartridge told; change' })).toBeVisible();
  });

  reading('[O1] what cannot be read is refused beside the field with what is wanted, and what was typed stays', async ({ page }) => {
    await featureBox(page, 'turbine wheel').focus();
    await page.keyboard.type('blade count');
    await page.keyboard.press('Enter');
    await page.keyboard.type('eleven');
    await page.keyboard.press('Enter');
    const form = page.getByRole('form', { name: 'blade count: enter' });
    await expect(form.getByRole('alert')).toContainText('“eleven” is no count');
    await expect(form.getByRole('textbox', { name: 'blade count' })).toHaveValue('eleven');
    await page.keyboard.press('Escape');
    await expect(featureBox(page, 'turbine wheel')).toBeFocused();
  });

  reading('[O1] undo and redo go through the whole sheet', async ({ page }) => {
    await featureBox(page, 'turbine wheel').focus();
    await enter(page, 'turbine wheel', 'blade count', typed('10'));
    await page.getByRole('checkbox', { name: /heat shield is not with the unit/ }).check();
    await page.keyboard.press('Control+z');
    await expect(page.getByRole('checkbox', { name: /heat shield is not with the unit/ })).not.toBeChecked();
    await page.keyboard.press('Control+z');
    await expect(entered(page, /^blade count 10/)).toHaveCount(0);
    await expect(page.getByRole('toolbar', { name: 'Sheet' }).getByText('Nothing entered')).toBeVisible();
    await page.keyboard.press('Control+y');
    await page.keyboard.press('Control+Shift+z');
    await expect(entered(page, /^blade count 10/)).toBeVisible();
    await expect(page.getByRole('checkbox', { name: /heat shield is not with the unit/ })).toBeChecked();
  });

  reading('[O1] an entry is changed in its place', async ({ page }) => {
    await openSheet(page, 'Known housing, nameless core');
    await entered(page, /^full blade count 7 seen/).click();
    await page.getByRole('textbox', { name: 'full blade count' }).fill('6');
    await page.keyboard.press('Enter');
    await expect(entered(page, /^full blade count 6 seen/)).toBeVisible();
    await expect(page.getByText('Not saved')).toBeVisible();
    await verdictSettled(page);
  });

  reading('[N6] a name nobody ever made is read by its grammar, with the names that exist', async ({ page }) => {
    await page.getByRole('combobox', { name: 'Maker it is offered under' }).selectOption('Merrowby');
    await page.getByRole('textbox', { name: 'Offered as' }).fill('Petrel 13');
    await verdictSettled(page);
    const reading = page.locator('.reading');
    await expect(reading).toContainText('no name of this maker');
    await expect(reading.getByRole('link', { name: 'Petrel 13 Cartridge' })).toBeVisible();
  });

  reading('[W1] the ticket’s words go to the clipboard, and a clause leads to what it rests on', async ({ page, context }) => {
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    await openSheet(page, 'Known housing, nameless core');
    const tag = page.getByRole('region', { name: 'For the ticket' });
    await tag.getByRole('button', { name: 'Copy' }).click();
    await expect(tag.getByRole('status')).toHaveText('Copied');
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    expect(copied).toContain('This unit must not be described as Merrowby Petrel 13 Cartridge.');
    // Pasted without its heading, no line lets go of its “not”.
    const [, mustNot = ''] = copied.split('How it must not be described\n');
    for (const sentence of mustNot.slice(0, mustNot.indexOf('\n\n')).split('\n')) expect(sentence).toMatch(/^This unit must not be .*\.$/);
    const restsOn = { name: /^compressor housing: cast name/ };
    const clause = page
      .locator('.ticket-text li')
      .filter({ has: page.getByRole('button', { ...restsOn, includeHidden: true }) })
      .first();
    await clause.locator('summary').first().click();
    await clause.getByRole('button', restsOn).first().click();
    await expect(page.locator('[data-entry]:focus')).toHaveCount(1);
  });

  reading('[K1] any other name can be asked about, and its own reasons are shown', async ({ page }) => {
    await openSheet(page, 'Known housing, nameless core');
    await page.getByRole('tab', { name: 'Names' }).click();
    const names = page.getByRole('region', { name: 'Every name judged' });
    await names.getByRole('checkbox', { name: /ruled out/ }).check();
    await names.getByRole('button', { name: 'Merrowby Petrel 17 Cartridge', exact: true }).click();
    const why = page.getByRole('region', { name: 'Why: Merrowby Petrel 17 Cartridge' });
    await expect(
      why.getByRole('list', { name: 'Reasons against Merrowby Petrel 17 Cartridge' }).getByRole('listitem').first(),
    ).toContainText('Petrel 17 Cartridge');
    await why.getByRole('button', { name: 'Back to the claimed name' }).click();
    await expect(page.getByRole('region', { name: 'Why not the claimed name' })).toBeVisible();
  });
});
