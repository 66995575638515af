import { expect, type Page } from '@playwright/test';
import { enter, featureBox, openSheet, typed, verdictSettled } from '../e2e/keyboard.ts';

/** One picture of the guide: how it is come to in the window over the demo atlas. They are taken in this order, in one window. */
export interface Picture {
  /** The heading of help it stands under. */
  readonly after: string;
  readonly file: string;
  /** What it shows, for whoever does not see it. */
  readonly shows: string;
  readonly show: (page: Page) => Promise<void>;
}

/** Of one picture, so that the repository stays small. */
export const mostBytes = 150_000;

const sample = 'Known housing, nameless core';
const build = 'A Tarnwick housing on a Gannet core';

const at = async (page: Page, hash: string, shows: string): Promise<void> => {
  await page.evaluate((to) => {
    window.location.hash = to;
  }, hash);
  await expect(page.locator(shows).first()).toBeVisible();
};

export const pictures: readonly Picture[] = [
  {
    after: 'beginning',
    file: 'beginning.png',
    shows: 'The first window asks what the atlas shall begin with: the invented atlas, an empty one, or a pack somebody made.',
    show: (page) => expect(page.getByRole('heading', { name: 'What shall this atlas begin with?' })).toBeVisible(),
  },
  {
    after: 'first-case',
    file: 'first-case.png',
    shows: 'The guided first case: a strip under the bar says what to do and why, and the box it is about is framed.',
    show: async (page) => {
      await page.getByRole('button', { name: 'Look round in the invented atlas' }).click();
      await page.getByRole('button', { name: 'Begin the first case' }).click();
      await page.getByRole('combobox', { name: 'Maker it is offered under' }).selectOption('Merrowby');
      await page.getByRole('textbox', { name: 'Offered as' }).fill('Petrel 13 Cartridge');
      await featureBox(page, 'compressor housing').focus();
      await enter(page, 'compressor housing', 'cast name', typed('MERROWBY'));
      await expect(page.getByRole('complementary', { name: 'Guided first case' })).toContainText('full blade count');
      await settled(page);
    },
  },
  {
    after: 'counter',
    file: 'unit.png',
    shows:
      'A judged unit: entries on the left; on the right the claim that is ruled out and why, the honest name on its plate, the tag with the words for the ticket, and the next check.',
    show: async (page) => {
      await page.getByRole('button', { name: 'Leave the first case' }).click();
      await openSheet(page, sample);
      await settled(page);
    },
  },
  {
    after: 'counter',
    file: 'entry.png',
    shows: 'An entry being made: the exducer of the turbine wheel, measured with a caliper.',
    show: async (page) => {
      await featureBox(page, 'turbine wheel').focus();
      await page.keyboard.type('exducer');
      await page.keyboard.press('Enter');
      await expect(page.getByRole('form', { name: /: enter$/ })).toBeVisible();
    },
  },
  {
    after: 'counter',
    file: 'why.png',
    shows: 'Why not the claimed name: the reasons one under another, and drawn as a graph of entries, parts and the name.',
    show: async (page) => {
      await page.keyboard.press('Escape');
      const drawn = page.getByRole('img', { name: /drawn as a graph/ }).first();
      await drawn.scrollIntoViewIfNeeded();
      await expect(drawn).toHaveAttribute('data-drawn', 'true');
    },
  },
  {
    after: 'counter',
    file: 'report.png',
    shows: 'The report for the customer, as it is printed.',
    show: async (page) => {
      await at(page, '#/report', 'main article, main h2');
      await expect(page.getByRole('button', { name: 'Save as PDF' })).toBeEnabled();
    },
  },
  {
    after: 'shelf',
    file: 'sheets.png',
    shows: 'Sheets: the shop’s own cases, and the samples of the invented atlas.',
    show: async (page) => {
      await at(page, '#/sheets', '.sheet-list');
      await expect(page.getByRole('button', { name: sample, exact: true })).toBeVisible();
    },
  },
  {
    after: 'shelf',
    file: 'listings.png',
    shows: 'Many listings, sorted by how plainly each claim fails.',
    show: async (page) => {
      await at(page, '#/listings', 'main h1');
      await page.getByRole('button', { name: 'All on the shelf' }).click();
      await expect(page.getByRole('table').getByRole('row').nth(5)).toBeVisible();
    },
  },
  {
    after: 'number',
    file: 'number.png',
    shows: 'A part number asked for: what the part is, where it is used, what took its place and what else fits there.',
    show: async (page) => {
      await page.keyboard.press('F2');
      await page.getByRole('dialog', { name: 'Part number' }).getByRole('searchbox').fill('OAR 57750/2');
      await expect(page.getByRole('dialog', { name: 'Part number' }).getByRole('region')).toContainText('Used in');
    },
  },
  {
    after: 'hybrid',
    file: 'build.png',
    shows: 'A build on paper: its slots, the parts for one of them, and every joint with what decides it.',
    show: async (page) => {
      await page.keyboard.press('Escape');
      await at(page, '#/sheets', '.sheet-list');
      await page.getByRole('button', { name: build, exact: true }).click();
      await expect(page.getByRole('textbox', { name: 'Title of the build' })).toHaveValue(build);
      await expect(page.locator('main table').first()).toBeVisible();
    },
  },
  {
    after: 'hybrid',
    file: 'build-sheet.png',
    shows: 'The build sheet for the bench.',
    show: (page) => at(page, '#/build/sheet', 'article[aria-label="Build sheet"] section'),
  },
  {
    after: 'learning',
    file: 'tree.png',
    shows: 'The tree: families and their generations along the years, with lines of descent.',
    show: (page) => at(page, '#/tree', '.tree-body text'),
  },
  {
    after: 'learning',
    file: 'apart.png',
    shows: 'Two families told apart: the fewest checks, and drawings of what differs.',
    show: (page) => at(page, '#/apart/family/petrel/family/skua', '.apart-table'),
  },
  {
    after: 'learning',
    file: 'key.png',
    shows: 'A key to the models of one family.',
    show: (page) => at(page, '#/key/family/rowan', '.key-places'),
  },
  {
    after: 'keeping',
    file: 'atlas.png',
    shows: 'The page of a part in the atlas: what is known of it, where it sits and what it fits.',
    show: async (page) => {
      await at(page, '#/atlas', 'article h2');
      await page.getByRole('searchbox').fill('petrel compressor wheel');
      await page.locator('.hits a').first().click();
      await expect(page.locator('.joint-fits').first()).toBeVisible();
    },
  },
  {
    after: 'spreadsheet',
    file: 'spreadsheet.png',
    shows: 'Bringing a spreadsheet: what its rows are, and where the cells come from.',
    show: (page) => at(page, '#/table', 'main h1'),
  },
  {
    after: 'maker',
    file: 'maker.png',
    shows: 'The form of a maker: how it builds names, and a name being tried.',
    show: async (page) => {
      await at(page, '#/edit/makers/merrowby', 'main h1');
      await page.getByRole('textbox', { name: 'Try a name or a number' }).fill('Petrel 6 Cartridge');
      await expect(page.getByText('The atlas lists it')).toBeVisible();
      await page.getByRole('textbox', { name: 'Try a name or a number' }).scrollIntoViewIfNeeded();
    },
  },
  {
    after: 'pack',
    file: 'packs.png',
    shows: 'Packs: what is in this atlas, what comes with the program, and where a pack is brought in.',
    show: (page) => at(page, '#/packs', 'article'),
  },
];

/** Until the next check is known and drawn. */
const settled = async (page: Page): Promise<void> => {
  await verdictSettled(page);
  const check = page.locator('[aria-labelledby="next-check-title"]');
  await expect(check.locator('[data-advice]')).toBeVisible();
  await expect(check.getByText('…', { exact: true })).toHaveCount(0);
};
