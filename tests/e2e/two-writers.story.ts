import type { Browser, Locator, Page, TestInfo } from '@playwright/test';
import { jpeg } from '../unit/db/photos/pictures.ts';
import { axeClean } from './axe-clean.ts';
import { enterBy, expect, type RunningHost, reading, saving as test } from './fixtures.ts';
import { holdCall } from './hold-call.ts';
import { enter, entered, featureBox, openSheet, tabTo, typed } from './keyboard.ts';

test.use({ viewport: { width: 1024, height: 700 } });

const kept = {
  id: 'own-two',
  title: 'Two look at it',
  story: '',
  kind: 'found',
  claimed: null,
  claimedMaker: null,
  observations: [],
  absent: [],
  chosen: {},
} as const;

/** A case somebody has saved before either window opened it. */
const keepCase = (page: Page) =>
  page.evaluate(async (sheet) => {
    const reply = await window.desk.ask('sheets.save', { sheet, who: 'Jory', madeAgainst: null });
    if (!reply.ok) throw new Error(reply.trouble.sentence);
  }, kept);

/** Another window on the same program, in a browser of its own. */
const another = async (browser: Browser, host: RunningHost): Promise<Page> => {
  const context = await browser.newContext({ viewport: { width: 1024, height: 700 } });
  const page = await context.newPage();
  await enterBy(page, host);
  return page;
};

/** By keyboard: who looks is said, and the case is taken onto the bench. */
const openAs = async (page: Page, who: string): Promise<void> => {
  await tabTo(page, page.getByRole('link', { name: 'Sheets' }), true);
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('textbox', { name: 'Who looks' }));
  await page.keyboard.type(who);
  await openSheet(page, kept.title);
};

const typeOver = async (page: Page, field: Locator, text: string): Promise<void> => {
  await tabTo(page, field, true);
  await page.keyboard.press('Control+a');
  await page.keyboard.type(text);
};

const numberOf = (page: Page) =>
  page.evaluate(async (id) => {
    const reply = await window.desk.ask('sheets.open', { id });
    return reply.ok ? reply.value.saved?.number : '';
  }, kept.id);
const title = (page: Page) => page.getByRole('textbox', { name: 'Title of the sheet' });
const saved = (page: Page) => expect(page.getByRole('toolbar', { name: 'Sheet' }).getByText('Saved', { exact: true })).toBeVisible();
const historyOf = (page: Page) =>
  page.evaluate(async (sheet) => {
    const reply = await window.desk.ask('cases.open', { sheet });
    if (!reply.ok) throw new Error(reply.trouble.sentence);
    return reply.value.history.map((one) => `${one.who}: ${one.sheet.title}, ${one.sheet.observations.length}`);
  }, kept.id);

test('[H5] by keyboard: the second to save a sheet is told who saved it when, sees both, chooses, and nothing of either is lost', async ({
  page,
  host,
  browser,
}, info: TestInfo) => {
  await keepCase(page);
  await openAs(page, 'Marit');
  const other = await another(browser, host);
  await openAs(other, 'Osk');

  await featureBox(page, 'heat shield').focus();
  await enter(page, 'heat shield', 'slot count', typed('4'));
  await typeOver(page, title(page), 'From the pilot boat');
  await page.keyboard.press('Control+s');
  await saved(page);

  await test.step('whoever comes back to his window is told before he saves', async () => {
    await other.evaluate(() => window.dispatchEvent(new Event('focus')));
    await tabTo(other, other.getByRole('button', { name: 'Changed elsewhere…' }), true);
    await other.keyboard.press('Enter');
    await expect(other.getByRole('dialog', { name: 'This sheet was changed elsewhere' })).toContainText('2 things differ:');
    await other.keyboard.press('Escape');
  });

  await featureBox(other, 'turbine wheel').focus();
  await enter(other, 'turbine wheel', 'blade count', typed('10'));
  await typeOver(other, title(other), 'From the harbour tug');
  await other.keyboard.press('Control+s');
  const both = other.getByRole('dialog', { name: 'This sheet was changed elsewhere' });
  await expect(both).toContainText(/Marit saved it at .*, after it was opened here\. Nothing was overwritten\. 3 things differ:/);
  await expect(both.getByRole('row')).toHaveCount(4);
  await expect(both.getByRole('button', { name: 'Save both together' })).toBeDisabled();
  await axeClean(other, 'both sides of a sheet', info);

  await test.step('later: nothing is saved, and the entries stay', async () => {
    await other.keyboard.press('Escape');
    await expect(both).toHaveCount(0);
    await expect(other.getByRole('alert')).toContainText('was changed elsewhere');
    for (const [width, height] of [
      [1280, 800],
      [1024, 700],
    ] as const) {
      await other.setViewportSize({ width, height });
      expect(await other.evaluate(() => document.documentElement.scrollWidth - window.innerWidth), `the bar says so within ${width}`).toBe(
        0,
      );
    }
    await expect(title(other)).toHaveValue('From the harbour tug');
    expect(await historyOf(page)).toEqual(['Jory: Two look at it, 0', 'Marit: From the pilot boat, 1']);
  });

  await test.step('asked again, the title is chosen and both are saved together', async () => {
    await other.keyboard.press('Control+s');
    await tabTo(other, both.getByRole('radio', { name: /^Title: Here/ }));
    await other.keyboard.press('Space');
    await tabTo(other, both.getByRole('button', { name: 'Save both together' }));
    await other.keyboard.press('Enter');
    await saved(other);
    await expect(title(other)).toHaveValue('From the harbour tug');
    await expect(entered(other, /^slot count 4/)).toBeVisible();
    await expect(entered(other, /^blade count 10/)).toBeVisible();
    expect(await historyOf(page)).toEqual(['Jory: Two look at it, 0', 'Marit: From the pilot boat, 1', 'Osk: From the harbour tug, 2']);
  });

  await test.step('the first, who takes what is there, has it, and one step back his own', async () => {
    await typeOver(page, title(page), 'Mine after all');
    await page.keyboard.press('Control+s');
    const first = page.getByRole('dialog', { name: 'This sheet was changed elsewhere' });
    await tabTo(page, first.getByRole('button', { name: 'Take what is there' }));
    await page.keyboard.press('Enter');
    await expect(title(page)).toHaveValue('From the harbour tug');
    await saved(page);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect(title(page)).toHaveValue('Mine after all');
  });
});

test('[H5] by keyboard: a sheet removed elsewhere is not saved anew unasked, and one changed elsewhere is not removed unasked', async ({
  page,
  host,
  browser,
}, info: TestInfo) => {
  await keepCase(page);
  const other = await another(browser, host);
  await openAs(other, 'Osk');
  const number = await numberOf(page);
  await openAs(page, 'Marit');

  await typeOver(other, title(other), 'Looked at again');
  await other.keyboard.press('Control+s');
  await saved(other);
  await tabTo(page, page.getByRole('link', { name: 'Sheets' }), true);
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('button', { name: /^Remove/ }));
  await page.keyboard.press('Enter');
  const stale = page.getByRole('dialog', { name: 'This sheet was changed elsewhere. Remove it all the same?' });
  await expect(stale).toContainText(/Osk saved it last, at /);
  await tabTo(page, stale.getByRole('button', { name: 'Remove it all the same' }));
  await page.keyboard.press('Enter');
  await expect(page.getByText(/^Removed: /)).toBeVisible();

  await typeOver(other, title(other), 'Looked at a third time');
  await other.keyboard.press('Control+s');
  const gone = other.getByRole('dialog', { name: 'This sheet was removed elsewhere' });
  await expect(gone).toContainText(`case ${number},`);
  await expect(gone).toContainText('The number of its case is kept and not given again');
  await axeClean(other, 'a sheet removed elsewhere', info);
  await other.keyboard.press('Escape');
  await expect(title(other)).toHaveValue('Looked at a third time');
  await expect(other.getByRole('alert')).toContainText('was removed elsewhere');
  await other.keyboard.press('Control+s');
  await tabTo(other, gone.getByRole('button', { name: 'Save it as a new case' }));
  await other.keyboard.press('Enter');
  await saved(other);
  expect(await historyOf(other)).toEqual(['Osk: Looked at a third time, 0']);
  const next = await numberOf(other);
  expect([number, next].map((one) => one?.slice(-4))).toEqual(['0001', '0002']);
});

test('[H5] by keyboard: what two write on one case is kept of both, and asked about where it is the same field', async ({
  page,
  host,
  browser,
}, info: TestInfo) => {
  await keepCase(page);
  const other = await another(browser, host);
  const toCase = async (window: Page) => {
    await window.evaluate((sheet) => {
      location.hash = `#/case/${sheet}`;
    }, kept.id);
    await expect(window.getByRole('textbox', { name: 'Notes' })).toBeVisible();
  };
  await other.evaluate(() => localStorage.setItem('kinplate.who looks', 'Osk'));
  await toCase(page);
  await toCase(other);
  const said = (window: Page) => window.getByRole('region', { name: 'The case' }).getByRole('status');
  const write = async (window: Page, field: string, text: string) => {
    await window.getByRole('textbox', { name: field }).focus();
    await window.keyboard.press('Control+a');
    await window.keyboard.type(text);
    await window.keyboard.press('Tab');
  };
  await write(page, 'Notes', 'The oil feed is blocked.');
  await expect(said(page)).toHaveText('Saved');
  await write(other, 'Customer', 'Pilot station');
  await expect(said(other)).toHaveText('Saved, together with what was written elsewhere: notes');
  await expect(other.getByRole('textbox', { name: 'Notes' })).toHaveValue('The oil feed is blocked.');

  await write(other, 'Notes', 'The oil feed was cleaned.');
  await expect(said(other)).toHaveText('Saved');
  await write(page, 'Notes', 'The oil feed is torn.');
  const both = page.getByRole('dialog', { name: 'The case was written on elsewhere' });
  await expect(both).toContainText(/^The case was written on elsewhereOsk wrote on the case at /);
  await expect(both.getByRole('row')).toHaveCount(3);
  await axeClean(page, 'both sides of a case', info);
  await test.step('later, and even after the window was loaded anew: what was typed is still there, and is asked about again', async () => {
    await page.keyboard.press('Escape');
    await expect(said(page)).toHaveText('Saved when you leave the field');
    await expect(page.getByRole('textbox', { name: 'Notes' })).toHaveValue('The oil feed is torn.');
    await page.reload();
    await expect(both).toContainText('The oil feed is torn.');
  });
  await tabTo(page, both.getByRole('radio', { name: /^Notes: Here/ }));
  await page.keyboard.press('ArrowRight');
  await expect(both.getByRole('radio', { name: /^Notes: There/ })).toBeChecked();
  await tabTo(page, both.getByRole('button', { name: 'Save as marked' }));
  await page.keyboard.press('Enter');
  await expect(page.getByRole('textbox', { name: 'Notes' })).toHaveValue('The oil feed was cleaned.');
  await expect(page.getByRole('textbox', { name: 'Customer' })).toHaveValue('Pilot station');
});

test('[H5] by keyboard: what two say of one photograph, and of one course, is chosen field by field', async ({ page, host, browser }) => {
  await keepCase(page);
  await page.evaluate(async (picture) => {
    const photo = { sheet: 'own-two', name: 'a.jpg', data: picture, thumbnail: picture, caption: '', about: null };
    for (const reply of [
      await window.desk.ask('photos.add', photo),
      await window.desk.ask('drills.saveCourse', { name: 'First year', families: null, kinds: null, newPerDay: 5, madeAgainst: null }),
    ])
      if (!reply.ok) throw new Error(reply.trouble.sentence);
  }, jpeg.toString('base64'));
  const other = await another(browser, host);
  const windows = [page, other] as const;
  const go = (hash: string) =>
    Promise.all(
      windows.map((one) =>
        one.evaluate((to) => {
          location.hash = to;
        }, hash),
      ),
    );
  const caption = (window: Page) => window.getByRole('textbox', { name: /^Caption/ });

  await go(`#/case/${kept.id}`);
  for (const window of windows) await expect(caption(window)).toHaveValue('');
  await caption(page).focus();
  await page.keyboard.type('nose');
  await page.keyboard.press('Tab');
  await expect(caption(page)).toHaveAccessibleName('Caption of nose');
  await caption(other).focus();
  await other.keyboard.type('tail');
  await other.keyboard.press('Tab');
  const photo = other.getByRole('dialog', { name: 'This photograph was described elsewhere' });
  await tabTo(other, photo.getByRole('radio', { name: /^Caption: Here/ }));
  await other.keyboard.press('Space');
  await tabTo(other, photo.getByRole('button', { name: 'Save as marked' }));
  await other.keyboard.press('Enter');
  await expect(caption(other)).toHaveAccessibleName('Caption of tail');

  await go('#/drills/course');
  const change = async (window: Page, field: string, text: string) => {
    await tabTo(window, window.getByRole('button', { name: 'Change First year' }));
    await window.keyboard.press('Enter');
    await tabTo(window, window.getByLabel(field, { exact: true }), true);
    await window.keyboard.press('Control+a');
    await window.keyboard.type(text);
  };
  await change(other, 'First-time questions a day, at most', '9');
  await change(page, 'Name', 'Second year');
  await page.keyboard.press('Enter');
  await expect(page.getByText('The course “Second year” is set.')).toBeVisible();
  await other.keyboard.press('Enter');
  const both = other.getByRole('dialog', { name: 'This course was changed elsewhere' });
  await expect(both.getByRole('row')).toHaveCount(3);
  await expect(both.getByRole('region', { name: 'What differs' })).toBeFocused();
  await tabTo(other, both.getByRole('button', { name: 'Save as marked' }));
  await other.keyboard.press('Enter');
  await expect(other.getByText('The course “Second year” is set.')).toBeVisible();
  expect(
    await page.evaluate(async () => {
      const reply = await window.desk.ask('drills.courses', {});
      return reply.ok ? reply.value.map(({ name, newPerDay }) => [name, newPerDay]) : [];
    }),
  ).toEqual([['Second year', 9]]);
});

test('[H5] a field that is left while another is being saved is saved after it', async ({ page }) => {
  await keepCase(page);
  await page.evaluate(() => {
    location.hash = '#/case/own-two';
  });
  const goOn = await holdCall(page, 'cases.describe');
  await page.getByRole('textbox', { name: 'Customer' }).focus();
  await page.keyboard.type('Pilot station');
  await page.getByRole('textbox', { name: 'Notes' }).focus();
  await page.keyboard.type('The oil feed is blocked.');
  await page.keyboard.press('Tab');
  const said = page.getByRole('region', { name: 'The case' }).getByRole('status');
  await expect(said).toHaveText('Saving…');
  goOn();
  await expect(said).toHaveText('Saved');
  const words = await page.evaluate(async () => {
    const reply = await window.desk.ask('cases.open', { sheet: 'own-two' });
    return reply.ok ? [reply.value.customer, reply.value.notes] : [];
  });
  expect(words).toEqual(['Pilot station', 'The oil feed is blocked.']);
});

reading(
  '[H5] each window has a draft of its own, and what a window that was closed left unsaved comes back in the next',
  async ({ page, host }) => {
    await title(page).fill('In the first window');
    const second = await page.context().newPage();
    await enterBy(second, host);
    await expect(title(second)).toHaveValue('');
    await title(second).fill('In the second window');
    await title(second).fill('');
    page.once('dialog', (dialog) => dialog.accept());
    await page.reload();
    await expect(title(page)).toHaveValue('In the first window');
    await page.close({ runBeforeUnload: false });
    const third = await second.context().newPage();
    await enterBy(third, host);
    await expect(title(third)).toHaveValue('In the first window');
    await expect(third.getByText('Unsaved entries brought back.')).toBeVisible();
  },
);
