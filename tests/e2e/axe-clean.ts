import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, type TestInfo } from '@playwright/test';

/** Axe's rules that read colours. Of all it asks, only their answers can differ by night. */
const ofColour = ['color-contrast', 'link-in-text-block'];

const violationsIn = async (page: Page, rules: readonly string[] | null): Promise<string[]> => {
  // Half a megabyte of script, which the builder would have the page read twice for each question: once read, it stays until the page is loaded anew.
  const read = await page.evaluate(() => 'axe' in window);
  // In the page itself: the window has no frames of another origin, for whose sake axe would open a second page each time. Of what is as it should be
  // nothing is asked.
  const axe = new AxeBuilder({ page, ...(read ? { axeSource: ';' } : {}) }).setLegacyMode(true).options({ resultTypes: ['violations'] });
  const { violations } = await (rules === null ? axe : axe.withRules([...rules])).analyze();
  return violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join('\n   ')}`);
};

/** No accessibility violation, in the colours of the moment. */
export const noViolations = async (page: Page, screen: string): Promise<void> => {
  expect(await violationsIn(page, null), screen).toEqual([]);
};

/** No accessibility violation by day or by night, and nothing wider than the window. Given `info`, a picture of each is kept with the story. */
export const axeClean = async (page: Page, screen: string, info?: TestInfo): Promise<void> => {
  for (const [colorScheme, rules] of [
    ['light', null],
    ['dark', ofColour],
  ] as const) {
    // Colours are read while nothing moves.
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    expect(await violationsIn(page, rules), `${screen}, ${colorScheme}`).toEqual([]);
    await info?.attach(`${screen}, ${colorScheme}`, { body: await page.screenshot(), contentType: 'image/png' });
  }
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth), `${screen}: width`).toBe(0);
};

/** What of accessibility is violated by day, and of colours by night. */
export const violationsByDayAndNight = async (page: Page): Promise<readonly string[]> => {
  const found: string[] = [];
  for (const [colorScheme, rules] of [
    ['light', null],
    ['dark', ofColour],
  ] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    found.push(...(await violationsIn(page, rules)).map((one) => `${colorScheme}: ${one}`));
  }
  return found;
};

/** And nothing that the window as a whole would have to be scrolled for. */
export const axeCleanInOneWindow = async (page: Page, screen: string, info?: TestInfo): Promise<void> => {
  await axeClean(page, screen, info);
  expect(await page.evaluate(() => document.documentElement.scrollHeight - window.innerHeight), `${screen}: height`).toBe(0);
};
