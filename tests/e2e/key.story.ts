import { axeClean } from './axe-clean.ts';
import { expect, reading } from './fixtures.ts';
import { tabTo } from './keyboard.ts';

reading.use({ viewport: { width: 1280, height: 800 } });

reading(
  '[D4] the trainer makes a key to two families by keyboard, follows it to an end, and prints the key to the whole atlas',
  async ({ page }, info) => {
    const made = async () => {
      await expect(page.locator('.key-screen')).toHaveAttribute('aria-busy', 'false');
      await expect(page.locator('.key-made')).toBeVisible();
    };
    await tabTo(page, page.getByRole('link', { name: 'Key', exact: true }));
    await page.keyboard.press('Enter');
    await made();
    const adder = page.getByRole('combobox', { name: 'Add a family or a maker' });
    for (const [typed, name] of [
      ['petrel', 'Petrel'],
      ['skua', 'Skua'],
    ] as const) {
      await tabTo(page, adder);
      await page.keyboard.type(typed);
      await expect(page.getByRole('listbox').getByText(name, { exact: true })).toBeVisible();
      await page.keyboard.press('Enter');
      await expect(page.getByRole('list', { name: 'Families of the key' }).getByText(name, { exact: true })).toBeVisible();
    }
    await made();
    await expect(page.locator('.key-made')).toContainText('13 models.');
    // Its caution stands at its head, nothing has to be taken apart, and no housing names a maker without an if.
    await expect(page.getByRole('region', { name: 'Before anything is named by it' })).toContainText('if its parts are its own');
    await expect(page.getByRole('combobox', { name: 'Taken apart as far as' }).locator('option:checked')).toHaveText('as received');
    await expect(page.locator('.key-first')).toHaveCount(0);
    await expect(page.locator('.key-if').first()).toContainText(/^\s*if the .*(housing|plate).* (is|are) its own$/);

    // From place to place by the numbers, as on the wall, until a name stands there.
    const places = page.getByRole('list', { name: 'Places of the key' });
    await expect(places).not.toContainText('Gannet');
    for (let at = 1; at < 40; at += 1) {
      const place = page.locator(at === 1 ? '#key-1' : '.key-place:focus');
      const go = place.getByRole('button', { name: /^Go to/ }).first();
      if ((await go.count()) === 0) break;
      await tabTo(page, go);
      const next = await go.textContent();
      await page.keyboard.press('Enter');
      await expect(page.locator(`#key-${next}`)).toBeFocused();
    }
    await expect(page.locator('.key-place:focus dd b').first()).toContainText(/Petrel|Skua/);

    await axeClean(page, 'key', info);

    // The whole atlas: families taken away again, letters allowed, printed with nothing of the window, no place broken across pages.
    for (const name of ['Leave out Petrel', 'Leave out Skua']) {
      const out = page.getByRole('button', { name });
      await tabTo(page, out, true);
      await page.keyboard.press('Enter');
      await expect(out).toHaveCount(0);
    }
    await made();
    await expect(page.locator('.key-made')).toContainText('84 models.');
    await expect(page.locator('.key-made')).toContainText(
      /None can average less than [\d.]+ min; whether a key between the two exists is not known\./,
    );
    await expect(page.locator('.key-several').first()).toContainText(' or ');
    await page.emulateMedia({ media: 'print' });
    await expect(page.locator('.bar')).toBeHidden();
    await expect(adder).toBeHidden();
    const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: true });
    const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
    expect(pages).toBeGreaterThanOrEqual(2);
    expect(pages).toBeLessThanOrEqual(8);
    await info.attach('key.pdf', { body: pdf, contentType: 'application/pdf' });
  },
);

reading('[T1] a key to a family the atlas does not have is refused in words', async ({ page }) => {
  await page.evaluate(() => {
    window.location.hash = '#/key/family/heron';
  });
  await expect(page.getByText('The atlas has no family “heron”.')).toBeVisible();
});
