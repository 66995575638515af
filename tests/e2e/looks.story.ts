import type { Page } from '@playwright/test';
import { jpeg } from '../unit/db/photos/pictures.ts';
import { axeCleanInOneWindow } from './axe-clean.ts';
import { expect, reading, test } from './fixtures.ts';
import { enter, featureBox, openSheet, tabTo, typed, verdictSettled } from './keyboard.ts';

const sample = 'Known housing, nameless core';

const soldAs = `Genuine Merrowby Petrel 13 Cartridge, low hours! Compressor wheel 7+7 blades, exducer 57.1 mm, inducer 1.62 in.
Turbine wheel 10 blades, exducer diameter 2 1/4". Plate says FLAG 76736/1, year of make 2003. Twin entry, A/R 14, no wastegate.
Cast "MERROWBY" on the bearing housing. Wheel SAIL 12000/1 in the box. Would suit Skua 13 Cartridge or petrel 13.`;

/** Every screen and every state with furniture of its own. */
const screens: readonly { readonly name: string; readonly saves?: true; readonly show: (page: Page) => Promise<void> }[] = [
  { name: 'a new unit', show: verdictSettled },
  { name: 'a judged unit', show: (page) => openSheet(page, sample) },
  {
    name: 'a judged unit, everything unfolded',
    show: async (page) => {
      await openSheet(page, sample);
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
      await page.getByRole('link', { name: 'Case file', exact: true }).click();
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
      await page.getByRole('link', { name: 'Case file', exact: true }).click();
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
      // A key that is pressed before the window is drawn is nobody's.
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
      await expect(page.getByRole('dialog')).toBeVisible();
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
      await page.getByRole('list', { name: 'Other checks' }).getByRole('button').first().click();
      await page.getByRole('button', { name: 'Work out the plan' }).click();
      await expect(page.getByRole('tree', { name: 'The whole plan' })).toBeVisible();
      await expect(page.getByRole('list', { name: 'What each reading would do' })).toHaveCount(2);
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
      await page.getByRole('textbox', { name: 'Try a text' }).fill('Petrel 6 Cartridge');
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
      await page.getByRole('listbox').getByRole('option').first().click();
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
];

reading.describe('at 1280 by 800', () => {
  reading.use({ viewport: { width: 1280, height: 800 } });
  for (const screen of screens) {
    const story = screen.saves ? test : reading;
    story(`[V1] ${screen.name}: no accessibility violation by day or by night, and no scrolling of the whole`, async ({ page }, info) => {
      await screen.show(page);
      await axeCleanInOneWindow(page, screen.name, info);
    });
  }
});

reading('[V1] the switch outranks the system, and is remembered', async ({ page }) => {
  const ground = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  await page.emulateMedia({ colorScheme: 'light' });
  const paper = await ground();
  await page.getByRole('combobox', { name: 'Colours' }).selectOption('slate');
  const slate = await ground();
  expect(slate).not.toBe(paper);
  await page.reload();
  await expect(page.getByRole('combobox', { name: 'Colours' })).toHaveValue('dark');
  expect(await ground()).toBe(slate);
});

reading(
  '[W1] the verdict prints on A4: what was seen, the reasons, both ticket texts and the cautions, nothing of the window',
  async ({ page }, info) => {
    await openSheet(page, sample);
    await page.emulateMedia({ media: 'print' });
    const verdict = page.getByRole('region', { name: 'Verdict' });
    for (const kept of [
      page.getByRole('textbox', { name: 'Title of the sheet' }),
      page.locator('[data-entry]').first(),
      verdict.locator('h2.headline'),
      verdict.locator('.conflicts li').first(),
      verdict.locator('.ticket-text.is-may'),
      verdict.locator('.ticket-text.is-must-not'),
      verdict.locator('.cautions'),
    ]) {
      await expect(kept).toBeVisible();
    }
    for (const left of [page.locator('.bar'), page.locator('.slot-add').first(), page.locator('.jump')]) await expect(left).toBeHidden();
    const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: true });
    const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
    expect(pages).toBeGreaterThanOrEqual(1);
    expect(pages).toBeLessThanOrEqual(3);
    await info.attach('verdict.pdf', { body: pdf, contentType: 'application/pdf' });
  },
);

reading(
  '[V4] F1 opens help at what belongs to the screen, and the screen comes back with all that was begun on it',
  async ({ page }, info) => {
    await page.setViewportSize({ width: 1024, height: 700 });
    const help = page.getByRole('dialog', { name: 'Help' });
    const opensAt = async (screen: string, head: string, key: 'F1' | '?' = 'F1') => {
      await page.keyboard.press(key);
      const here = help.getByRole('region', { name: `On this screen: ${screen}` });
      await expect(here.getByRole('heading', { level: 2 })).toBeFocused();
      await expect(here.getByRole('heading', { name: `What is done here: ${head}`, exact: true })).toBeVisible();
      return here;
    };
    const leave = async () => {
      await page.keyboard.press('Escape');
      await expect(help).toHaveCount(0);
    };
    const begin = (hash: string) => page.evaluate((to) => (window.location.hash = to), hash);

    await verdictSettled(page);
    await featureBox(page, 'turbine wheel').focus();
    await page.keyboard.type('exd');
    const here = await opensAt('Unit', 'Say what a unit is');
    await expect(here.getByRole('row').nth(2), 'the screen’s own keys come first').toContainText('from slot to slot');
    await axeCleanInOneWindow(page, 'help', info);
    await leave();
    await expect(featureBox(page, 'turbine wheel')).toBeFocused();
    // Where one writes, ? is written.
    await page.keyboard.press('?');
    await expect(featureBox(page, 'turbine wheel')).toHaveValue('exd?');
    await tabTo(page, page.getByRole('checkbox', { name: /^absent: turbine wheel/ }));
    await opensAt('Unit', 'Say what a unit is', '?');
    await leave();
    await expect(page.getByRole('checkbox', { name: /^absent: turbine wheel/ })).toBeFocused();

    // Over a question that waits for its answer, and gone with Back as with Escape.
    await page.keyboard.press('F2');
    const number = page.getByRole('dialog', { name: 'Part number' });
    await number.getByRole('searchbox').fill('OAR 57750/2');
    await page.keyboard.press('F1');
    await expect(help).toBeVisible();
    await page.goBack();
    await expect(help).toHaveCount(0);
    await expect(number.getByRole('searchbox')).toHaveValue('OAR 57750/2');
    await page.keyboard.press('Escape');

    for (const [hash, screen, head] of [
      ['#/table', 'Bring a spreadsheet', 'Bring a spreadsheet'],
      ['#/edit/makers', 'Edit the atlas', 'Add a maker, how it builds names, how it makes numbers'],
      ['#/nowhere', 'No such screen', 'What Kinplate answers'],
      ['#/history', 'History', 'Look at the history, and undo a change'],
    ] as const) {
      await begin(hash);
      await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
      await opensAt(screen, head);
      await leave();
    }

    // Nothing of help is left between one screen and the one before it.
    await page.goBack();
    await expect(page.getByRole('heading', { level: 1, name: 'There is no such screen' })).toBeVisible();

    // Along the headings, to where a recipe begins, and back to the recipe.
    await begin('#/stock');
    await page.getByRole('link', { name: 'Help', exact: true }).press('Enter');
    await tabTo(page, help.getByRole('navigation').getByRole('link', { name: 'Sign a pack, and read it in another shop' }), true);
    await page.keyboard.press('Enter');
    const recipe = help.getByRole('region', { name: 'Sign a pack, and read it in another shop' });
    await expect(recipe.getByRole('heading')).toBeFocused();
    await recipe.getByRole('link', { name: 'Packs' }).press('Enter');
    await expect(help).toHaveCount(0);
    await expect(page.getByRole('region', { name: 'Keys' })).toBeVisible();
    await page.goBack();
    await expect(recipe.getByRole('heading')).toBeFocused();
    await page.goBack();
    await expect(page.getByRole('heading', { level: 1, name: 'Stock' })).toBeVisible();

    // Opened by its address there is nothing to go back to, and it prints whole and alone.
    await begin('#/help/keyboard');
    await expect(help.getByRole('heading', { name: 'Keys', exact: true })).toBeFocused();
    await page.reload();
    await expect(help.getByRole('row', { name: /^F8 the next cell to mend/ })).toBeVisible();
    const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: true });
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBeGreaterThan(5);
    await page.emulateMedia({ media: 'print' });
    await expect(page.getByRole('main')).toBeHidden();
    await expect(help.getByRole('navigation')).toBeHidden();
    await page.emulateMedia({ media: 'screen' });
    await leave();
    await expect(page).toHaveURL(/#\/unit$/);
  },
);

reading('[V1] on a narrow window the columns follow each other and nothing is cut off', async ({ page }) => {
  await page.setViewportSize({ width: 760, height: 900 });
  await openSheet(page, sample);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBe(0);
  await expect(page.locator('h2.headline')).toBeVisible();
});
