import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';

/** No accessibility violation by day or by night, and nothing outside the window. */
export const axeClean = async (page: Page, screen: string): Promise<void> => {
  for (const colorScheme of ['light', 'dark'] as const) {
    // Colours are read while nothing moves.
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(
      violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join('\n   ')}`),
      `${screen}, ${colorScheme}`,
    ).toEqual([]);
  }
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth), `${screen}: width`).toBe(0);
};
