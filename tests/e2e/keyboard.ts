import { expect, type Locator, type Page } from '@playwright/test';

/**
 * Presses a key until the target has the focus; false where so many presses never bring it there. The element is looked for again only when it is drawn
 * anew: by its role and name that takes the browser longer than the key.
 */
export async function pressUntilAt(page: Page, target: Locator, key: string, atMost: number): Promise<boolean> {
  let element = await target.elementHandle();
  for (let pressed = 0; pressed < atMost; ) {
    const at = await element?.evaluate((one) => (one.isConnected ? one === document.activeElement : null));
    if (at === true) return true;
    if (at === false) {
      await page.keyboard.press(key);
      pressed += 1;
    } else element = await target.elementHandle();
  }
  return false;
}

/** Reaches a control as someone without a mouse does: Tab until it has the focus. */
export async function tabTo(page: Page, target: Locator, backwards = false): Promise<void> {
  await expect(target).toBeVisible();
  if (!(await pressUntilAt(page, target, backwards ? 'Shift+Tab' : 'Tab', 200))) throw new Error(`Tab never reaches ${target}`);
}

export const featureBox = (page: Page, slot: string): Locator => page.getByRole('combobox', { name: `Add to ${slot}`, exact: true });

/**
 * Enters one observation by keyboard from the slot's feature box, which has the focus before and after: some letters of the
 * feature, Enter, the keys that give the value, Enter.
 */
export async function enter(
  page: Page,
  slot: string,
  feature: string,
  value: (page: Page) => Promise<void>,
  letters = feature,
): Promise<void> {
  const box = featureBox(page, slot);
  await expect(box).toBeFocused();
  await page.keyboard.type(letters);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('form', { name: `${feature}: enter` })).toBeVisible();
  await value(page);
  await page.keyboard.press('Enter');
  await expect(box).toBeFocused();
}

/** From a sheet to the file of its case, under its number once that is known. */
export const caseLink = (page: Page): Locator => page.getByRole('link', { name: /^Case (file|\S+)$/ });

/** An entry of the sheet by what it says. The graph says the same of it once it is drawn. */
export const entered = (page: Page, says: RegExp): Locator => page.getByRole('button', { name: says }).and(page.locator('[data-entry]'));

export const typed = (text: string) => (page: Page) => page.keyboard.type(text);

/** Walks with the arrow keys from slot to slot. */
export async function walkTo(page: Page, slot: string): Promise<void> {
  if (!(await pressUntilAt(page, featureBox(page, slot), 'ArrowDown', 20))) throw new Error(`the arrow keys never reach ${slot}`);
}

/** The verdict as it stands after everything entered so far. */
export async function verdictSettled(page: Page): Promise<void> {
  await expect(page.getByRole('region', { name: 'Verdict' })).toHaveAttribute('data-state', 'answered');
}

/** Opens a sheet from the shelf by its title. */
export async function openSheet(page: Page, title: string): Promise<void> {
  await page.getByRole('link', { name: 'Sheets' }).click();
  await page.getByRole('button', { name: title, exact: true }).first().click();
  await expect(page.getByRole('textbox', { name: 'Title of the sheet' })).toHaveValue(title);
  await verdictSettled(page);
}
