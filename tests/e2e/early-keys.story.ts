import type { Page } from '@playwright/test';
import { expect, reading, saving } from './fixtures.ts';
import { openSheet } from './keyboard.ts';
import { sample } from './screens.ts';

/** A key that is struck in the moment in which what is found by `at` is put into the window: before it is painted, and before anybody could see it. */
interface Early {
  readonly at: string;
  readonly key: string;
  readonly ctrlKey?: true;
}

declare global {
  interface Window {
    /** Whether something in the window took the key; not there before it was struck. */
    earlyTaken?: boolean;
  }
}

/** Strikes once, from the page itself: nothing outside it is quick enough. */
const strikeEarly = ({ at, ...struck }: Early): void => {
  const watch = new MutationObserver(() => {
    if (document.querySelector(at) === null) return;
    watch.disconnect();
    const event = new KeyboardEvent('keydown', { ...struck, bubbles: true, cancelable: true });
    window.earlyTaken = !(document.activeElement ?? document.body).dispatchEvent(event);
  });
  watch.observe(document, { childList: true, subtree: true });
};

const taken = (page: Page) => expect.poll(() => page.evaluate(() => window.earlyTaken), 'the window took the key').toBe(true);

const rows: readonly (Early & { readonly name: string; readonly hash: string; readonly shows?: (page: Page) => Promise<void> })[] = [
  {
    name: 'F2 asks for a part number as soon as the window is drawn',
    hash: '#/stock',
    at: '.number-ask',
    key: 'F2',
    shows: (page) => expect(page.getByRole('dialog', { name: 'Part number' }).getByRole('searchbox')).toBeFocused(),
  },
  {
    name: 'F1 opens help while the atlas is still being opened',
    hash: '#/stock',
    at: 'main.quiet-page',
    key: 'F1',
    shows: (page) => expect(page.getByRole('dialog', { name: 'Help' })).toBeVisible(),
  },
  {
    name: 'F1 opens help as soon as the window is drawn',
    hash: '#/stock',
    at: 'header.bar',
    key: 'F1',
    shows: (page) =>
      expect(page.getByRole('dialog', { name: 'Help' }).getByRole('region', { name: 'On this screen: Stock' })).toBeVisible(),
  },
  { name: 'Ctrl+S is no browser’s as soon as the window is drawn', hash: '#/stock', at: 'header.bar', key: 's', ctrlKey: true },
  {
    name: 'F9 copies the ticket as soon as it is drawn',
    hash: '#/unit',
    at: '#verdict-ticket',
    key: 'F9',
    shows: (page) => expect(page.getByRole('region', { name: 'For the ticket' }).getByRole('status')).toHaveText(/^Copied|refused/),
  },
  {
    name: 'Ctrl+Enter opens the next check as soon as there is one',
    hash: '#/unit',
    at: '.next-do > .button.main',
    key: 'Enter',
    ctrlKey: true,
    shows: (page) => expect(page.getByRole('form', { name: /: enter$/ })).toBeVisible(),
  },
];

for (const { name, hash, shows, ...early } of rows)
  reading(`[V8] ${name}`, async ({ page }) => {
    if (hash === '#/unit') await openSheet(page, sample);
    await page.evaluate((to) => {
      window.location.hash = to;
    }, hash);
    await page.addInitScript(strikeEarly, early);
    await page.reload();
    await taken(page);
    await shows?.(page);
  });

saving('[V8] a figure chooses an answer of a drill as soon as it is asked', async ({ page }) => {
  const learner = await page.evaluate(async () => {
    const made = await window.desk.ask('drills.saveLearner', { name: 'Wenna', course: null });
    if (!made.ok) throw new Error(made.trouble.sentence);
    return made.value.id;
  });
  await page.evaluate(strikeEarly, { at: '.drill-choice', key: '1' });
  await page.evaluate((to) => {
    window.location.hash = to;
  }, `#/drills/drill/${learner}`);
  await taken(page);
  await expect(page.getByRole('region', { name: 'Drill' }).locator('.drill-choice').first()).toHaveAttribute('aria-pressed', 'true');
});
