import { expect, type Page } from '@playwright/test';
import { jpeg } from '../unit/db/photos/pictures.ts';
import { caseLink, enter, featureBox, openSheet, typed, verdictSettled } from './keyboard.ts';

export const sample = 'Known housing, nameless core';

const soldAs = `Genuine Merrowby Petrel 13 Cartridge, low hours! Compressor wheel 7+7 blades, exducer 57.1 mm, inducer 1.62 in.
Turbine wheel 10 blades, exducer diameter 2 1/4". Plate says FLAG 76736/1, year of make 2003. Twin entry, A/R 14, no wastegate.
Cast "MERROWBY" on the bearing housing. Wheel SAIL 12000/1 in the box. Would suit Skua 13 Cartridge or petrel 13.`;

/** A screen of the window in a state of its own, and how it is reached from the window as it opens over the demo atlas. */
export interface ScreenShown {
  readonly name: string;
  /** It saves something on the way, and so needs a program of its own. */
  readonly saves?: true;
  /** Another story holds its looks, so that here it is only gone over with all sizes. */
  readonly heldIn?: string;
  readonly show: (page: Page) => Promise<void>;
}

const at = (page: Page, hash: string): Promise<string> => page.evaluate((to) => (window.location.hash = to), hash);

/** A planned build of the demo atlas, on the bench at one of its places. */
const build = (place: string, shows: (page: Page) => Promise<void>) => async (page: Page) => {
  const title = 'A Tarnwick housing on a Gannet core';
  await page.getByRole('link', { name: 'Sheets' }).click();
  await page.getByRole('button', { name: title, exact: true }).click();
  await expect(page.getByRole('textbox', { name: 'Title of the build' })).toHaveValue(title);
  await at(page, `#/build${place}`);
  await shows(page);
};

/** Every screen and every state with furniture of its own. */
export const screens: readonly ScreenShown[] = [
  { name: 'a new unit', show: verdictSettled },
  { name: 'a judged unit', show: (page) => openSheet(page, sample) },
  {
    name: 'a judged unit, everything unfolded',
    show: async (page) => {
      await openSheet(page, sample);
      await page.getByRole('tab', { name: 'Parts left' }).click();
      await page.evaluate(() => {
        for (const details of document.querySelectorAll('details')) details.open = true;
      });
      await expect(page.locator('.slot-left dl').first()).toBeVisible();
    },
  },
  {
    name: 'an entry being made',
    show: async (page) => {
      await verdictSettled(page);
      await featureBox(page, 'turbine wheel').focus();
      await page.keyboard.type('exducer');
      await page.keyboard.press('Enter');
    },
  },
  {
    name: 'blades being counted',
    show: async (page) => {
      await verdictSettled(page);
      await featureBox(page, 'compressor wheel').focus();
      await page.keyboard.type('full blade');
      await page.keyboard.press('Enter');
      await page.getByRole('button', { name: 'Count by tapping' }).click();
      await page.keyboard.type('12121');
    },
  },
  {
    name: 'a listing read',
    show: async (page) => {
      await verdictSettled(page);
      await page.getByRole('button', { name: 'Read a listing…' }).click();
      await page.getByRole('textbox', { name: /^Paste what the seller wrote/ }).fill(soldAs);
      await page.getByRole('button', { name: 'Read it' }).click();
      await expect(page.getByRole('list', { name: 'What it claims' })).toBeVisible();
    },
  },
  {
    name: 'large targets',
    show: async (page) => {
      await verdictSettled(page);
      await page.getByRole('checkbox', { name: 'Large targets' }).check();
      await featureBox(page, 'turbine wheel').focus();
      await page.keyboard.type('blade count');
      await page.keyboard.press('Enter');
    },
  },
  {
    name: 'the list of features',
    show: async (page) => {
      await verdictSettled(page);
      await featureBox(page, 'compressor wheel').focus();
      await page.keyboard.press('Alt+ArrowDown');
      await expect(page.getByRole('listbox')).toBeVisible();
    },
  },
  {
    name: 'two entries that disagree',
    show: async (page) => {
      await featureBox(page, 'turbine wheel').focus();
      await enter(page, 'turbine wheel', 'blade count', typed('10'));
      await enter(page, 'turbine wheel', 'blade count', typed('11'));
      await expect(page.getByRole('heading', { name: 'Two entries disagree' })).toBeVisible();
    },
  },
  {
    name: 'a unit and a build open side by side',
    show: async (page) => {
      await openSheet(page, sample);
      const title = 'A Tarnwick housing on a Gannet core';
      await page.getByRole('link', { name: 'Sheets' }).click();
      await page.getByRole('button', { name: title, exact: true }).click();
      await expect(page.getByRole('textbox', { name: 'Title of the build' })).toHaveValue(title);
      await page.getByRole('button', { name: 'All 2…' }).click();
      await expect(page.getByRole('row', { name: title })).toContainText('Gannet');
      await expect(page.getByRole('row', { name: sample })).toContainText('ruled out');
    },
  },
  {
    name: 'the shelf',
    show: async (page) => {
      await page.getByRole('link', { name: 'Sheets' }).click();
      await expect(page.getByRole('button', { name: sample, exact: true })).toBeVisible();
    },
  },
  {
    name: 'a case file with its photograph',
    saves: true,
    show: async (page) => {
      await openSheet(page, sample);
      await featureBox(page, 'heat shield').focus();
      await enter(page, 'heat shield', 'slot count', typed('4'));
      await page.keyboard.press('Control+s');
      await expect(page.getByText('Saved', { exact: true })).toBeVisible();
      await page.getByRole('textbox', { name: 'Offered as' }).fill('');
      await page.keyboard.press('Control+s');
      await expect(page.getByText('Saved', { exact: true })).toBeVisible();
      await caseLink(page).click();
      await page.getByLabel('Photograph files').setInputFiles([{ name: 'a.jpg', mimeType: 'image/jpeg', buffer: jpeg }]);
      await expect(page.locator('.photo img')).toBeVisible();
      await page.locator('.history-table button').last().click();
      await expect(page.getByRole('region', { name: 'What changed since' })).toContainText('nothing is claimed now');
      await page.locator('.entry-read summary').click();
    },
  },
  {
    name: 'the shelf with a case',
    saves: true,
    show: async (page) => {
      await openSheet(page, sample);
      await page.keyboard.press('Control+s');
      await caseLink(page).click();
      await page.getByRole('button', { name: 'Save the sheet on the bench' }).click();
      await page.getByRole('link', { name: 'All cases' }).click();
      await expect(page.getByRole('region', { name: 'The shop’s own cases' }).getByRole('listitem')).toHaveCount(1);
    },
  },
  {
    name: 'what the shop says of itself',
    show: async (page) => {
      await page.evaluate(() => {
        window.location.hash = '#/shop';
      });
      await expect(page.getByRole('textbox', { name: 'Name of the shop' })).toBeVisible();
    },
  },
  {
    name: 'a part put on the shelf',
    show: async (page) => {
      await page.getByRole('link', { name: 'Stock', exact: true }).click();
      await page.getByRole('button', { name: 'Add a part' }).click();
      await expect(page.getByRole('form', { name: 'Line of stock' })).toBeVisible();
    },
  },
  {
    name: 'a part number',
    show: async (page) => {
      await expect(page.getByRole('link', { name: 'Stock', exact: true })).toBeVisible();
      await page.keyboard.press('F2');
      const dialog = page.getByRole('dialog', { name: 'Part number' });
      await expect(dialog).toBeVisible();
      await page.keyboard.type('OAR 57750/2');
      await expect(dialog.getByRole('region')).toContainText('Used in');
    },
  },
  {
    name: 'a question',
    show: async (page) => {
      await page.getByRole('textbox', { name: 'Title of the sheet' }).fill('Half entered');
      await page.getByRole('link', { name: 'Sheets' }).click();
      await page.getByRole('button', { name: sample, exact: true }).click();
      await expect(page.getByRole('textbox', { name: 'Title of the sheet' })).toHaveValue(sample);
      await page.keyboard.press('Alt+PageDown');
      await page.getByRole('button', { name: 'Close Half entered' }).click();
      await expect(page.getByRole('dialog', { name: 'Save it before it is closed?' })).toBeVisible();
    },
  },
  ...(['', '/maker/merrowby', '/family/petrel/beside/tern'] as const).map((place) => ({
    name: `the atlas${place}`,
    show: async (page: Page) => {
      await page.evaluate((hash) => {
        window.location.hash = hash;
      }, `#/atlas${place}`);
      await expect(page.getByRole('article').getByRole('heading', { level: 2 })).toBeVisible();
    },
  })),
  {
    name: 'a term of the glossary',
    show: async (page) => {
      await page.evaluate(() => {
        window.location.hash = '#/glossary/cutback';
      });
      await expect(page.locator('figure.drawing svg')).toBeVisible();
    },
  },
  {
    name: 'the family tree',
    show: async (page) => {
      await page.getByRole('link', { name: 'Tree', exact: true }).click();
      await expect(page.locator('.tree-body text').first()).toBeVisible();
    },
  },
  ...(['/apart/family/petrel/family/skua/family/northquay/family/gannet/family/tern', '/key', '/key/family/rowan'] as const).map(
    (place) => ({
      name: `the screen ${place}`,
      show: async (page: Page) => {
        await page.evaluate((hash) => {
          window.location.hash = hash;
        }, `#${place}`);
        await expect(page.locator('.apart-table, .key-places').first()).toBeVisible();
      },
    }),
  ),
  {
    name: 'what to look at next, its other checks and the plan',
    show: async (page) => {
      await openSheet(page, sample);
      await page.getByRole('tab', { name: 'What next' }).click();
      // Folds that are opened while the answer is still that of the unit before close with it. One that was opened is none of those that are folded, so
      // the first of these is asked for each time: the third of three would never come.
      const folded = page.locator('.next-fold:not([open]) > summary');
      await expect(async () => {
        while ((await folded.count()) > 0) await folded.first().click();
        await expect(page.getByRole('list', { name: 'Other checks' })).toBeVisible({ timeout: 2000 });
      }).toPass();
      await page.getByRole('list', { name: 'Other checks' }).getByRole('button').first().click();
      await page.locator('.each-reading > summary').first().click();
      await expect(page.getByRole('tree', { name: 'The whole plan' })).toBeVisible();
      await expect(page.getByRole('list', { name: 'What each reading would do' })).toBeVisible();
    },
  },
  {
    name: 'the report',
    show: async (page) => {
      await openSheet(page, sample);
      await page.getByRole('link', { name: 'Report', exact: true }).click();
      await expect(page.getByRole('button', { name: 'Save as PDF' })).toBeEnabled();
    },
  },
  {
    name: 'the backups',
    saves: true,
    show: async (page) => {
      await page.evaluate(() => {
        window.location.hash = '#/backups';
      });
      await page.getByRole('button', { name: 'Make a backup now' }).click();
      await page.getByRole('button', { name: /^What would come back/ }).click();
      await expect(page.getByText('there is nothing to put back')).toBeVisible();
    },
  },
  {
    name: 'a part being edited',
    show: async (page) => {
      await page.evaluate(() => {
        window.location.hash = '#/edit/parts/merrowby-shearwater-2-compressor-wheel';
      });
      await page.getByRole('textbox', { name: 'full blade count' }).fill('ten');
      await expect(page.getByText('One value cannot be read.')).toBeVisible();
      await page.getByRole('textbox', { name: 'splitter blade count' }).fill('?');
    },
  },
  {
    name: 'a maker in its form, a name being tried',
    show: async (page) => {
      await page.evaluate(() => {
        window.location.hash = '#/edit/makers/merrowby';
      });
      await page.getByRole('textbox', { name: 'Try a name or a number' }).fill('Petrel 6 Cartridge');
      await expect(page.getByText('The atlas lists it')).toBeVisible();
    },
  },
  {
    name: 'several parts edited at once',
    show: async (page) => {
      await page.evaluate(() => {
        window.location.hash = '#/edit/parts';
      });
      await page.getByRole('searchbox').fill('shearwater compressor wheel');
      await page.getByRole('button', { name: 'Mark all 3 found' }).click();
      await page.getByRole('combobox', { name: 'the feature' }).fill('nose');
      // Enter waits for what is searched for; what is drawn until then is the list as it was before anything was typed.
      await page.keyboard.press('Enter');
      await page.getByRole('textbox', { name: 'nose of all of them' }).fill('?');
      await expect(page.getByRole('button', { name: 'Make the change' })).toBeEnabled();
    },
  },
  {
    name: 'the packs of the atlas',
    show: async (page) => {
      await page.getByRole('link', { name: 'invented data' }).click();
      await expect(page.getByRole('article', { name: 'Saltmarsh demo atlas' })).toBeVisible();
    },
  },
  {
    name: 'many sheets sorted',
    show: async (page) => {
      await page.evaluate(() => {
        window.location.hash = '#/listings';
      });
      await page.getByRole('button', { name: 'All on the shelf' }).click();
      await expect(page.getByRole('table').getByRole('row').nth(5)).toBeVisible();
    },
  },
  {
    name: 'a drill',
    saves: true,
    show: async (page) => {
      await page.getByRole('link', { name: 'Drills', exact: true }).click();
      await page.getByRole('textbox', { name: 'Name of a new learner' }).fill('Wenna');
      await page.keyboard.press('Enter');
      await expect(page.getByRole('combobox', { name: 'Course' })).toBeVisible();
      await expect(page.locator('.drill').first()).toBeVisible();
    },
  },
  {
    name: 'a part of the atlas',
    show: async (page) => {
      await page.getByRole('link', { name: 'Atlas' }).click();
      await page.getByRole('searchbox').fill('shaft');
      await page.locator('.hits a').first().click();
      await expect(page.locator('.joint-fits').first()).toBeVisible();
    },
  },
  {
    name: 'the bench of a build',
    heldIn: 'builds.story.ts',
    show: build('', (page) => expect(page.locator('.plan-table, .joint-table').first()).toBeVisible()),
  },
  {
    name: 'filling a build',
    heldIn: 'builds.story.ts',
    show: build('/fill', (page) => expect(page.getByRole('form', { name: 'What the build must keep to' })).toBeVisible()),
  },
  {
    name: 'the sheet of a build',
    heldIn: 'builds.story.ts',
    show: build('/sheet', (page) => expect(page.getByRole('article', { name: 'Build sheet' })).toBeVisible()),
  },
  {
    name: 'builds to compare',
    heldIn: 'builds.story.ts',
    show: build('/compare', (page) => expect(page.getByRole('group', { name: 'What is compared' })).toBeVisible()),
  },
  {
    name: 'the guided first case',
    heldIn: 'guided.story.ts',
    show: async (page) => {
      await expect(page.getByRole('link', { name: 'Stock', exact: true })).toBeVisible();
      await at(page, '#/help/here');
      await page.getByRole('button', { name: 'The guided first case' }).click();
      await expect(page.getByRole('complementary', { name: 'Guided first case' })).toBeVisible();
    },
  },
  {
    name: 'questions on paper',
    heldIn: 'drills.story.ts',
    show: async (page) => {
      await expect(page.getByRole('link', { name: 'Stock', exact: true })).toBeVisible();
      await at(page, '#/drills/questions');
      await page.getByRole('button', { name: 'Make the sheet' }).click();
      await expect(page.locator('.question').first()).toBeVisible();
    },
  },
  ...(
    [
      ['beginning a build', '#/build', 'builds.story.ts'],
      ['cases judged once more', '#/retold', 'retold.story.ts'],
      ['the stock of a shop that has none', '#/stock', 'shop-room.story.ts'],
      ['the prices of a shop that has none', '#/prices', 'shop-room.story.ts'],
      ['the history of the atlas', '#/history', 'history.story.ts'],
      ['bringing a spreadsheet', '#/table', 'table.story.ts'],
      ['what can be edited', '#/edit', 'edit.story.ts'],
      ['drills, before anybody learns', '#/drills', 'drills.story.ts'],
      ['the courses', '#/drills/course', 'drills.story.ts'],
      ['nothing to tell apart yet', '#/apart', 'apart.story.ts'],
      ['the glossary', '#/glossary', 'glossary.story.ts'],
      ['no such screen', '#/nowhere', 'atlas.story.ts'],
      ['help', '#/help/here', 'looks.story.ts'],
    ] as const
  ).map(([name, hash, heldIn]) => ({
    name,
    heldIn,
    show: async (page: Page) => {
      await expect(page.getByRole('link', { name: 'Stock', exact: true })).toBeVisible();
      await at(page, hash);
      await expect(page.getByRole(name === 'help' ? 'dialog' : 'main')).toBeVisible();
    },
  })),
];
