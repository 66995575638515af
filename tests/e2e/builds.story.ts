import type { Locator, Page } from '@playwright/test';
import { axeCleanInOneWindow } from './axe-clean.ts';
import { expect, reading, test } from './fixtures.ts';
import { enter, entered, featureBox, tabTo, typed } from './keyboard.ts';

/**
 * The tuner's story, without a mouse: a Tarnwick compressor housing is wanted on a Tern core. Everything is asked of the
 * running program over the demo atlas.
 */
test.use({ viewport: { width: 1280, height: 800 } });

const planSettled = (page: Page) => expect(page.getByRole('region', { name: 'The plan' })).toHaveAttribute('data-state', 'answered');

const beginWithTern = (page: Page): Promise<void> => beginWith(page, 'Tern 7');

const beginWith = async (page: Page, model: string): Promise<void> => {
  await tabTo(page, page.getByRole('link', { name: 'Build', exact: true }));
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('combobox', { name: 'Model whose core to start from' }));
  await page.keyboard.type(model);
  await page.keyboard.press('Enter');
  await planSettled(page);
};

test('[F2] a Tarnwick housing on a Tern core: the machining with its finished size, the open slots filled, its honest name, the sheet printed', async ({
  page,
}, info) => {
  const plan = page.getByRole('region', { name: 'The plan' });
  await test.step('the core of a Tern goes on the bench; its housings are still to be chosen', async () => {
    await beginWithTern(page);
    const slots = page.getByRole('list', { name: 'Slots' });
    await expect(slots.getByRole('button', { name: /^compressor housing/ })).toContainText('not chosen');
    await expect(slots.getByRole('button', { name: /^shaft/ })).toContainText('drops in');
    await expect(plan.getByRole('heading', { level: 2 }).first()).toContainText('Tern 7');
  });

  await test.step('of the housings, those that drop in stand before those that need work, and the rest says why it does not', async () => {
    const choice = page.getByRole('region', { name: 'For the compressor housing' });
    await expect(choice).toHaveAttribute('data-state', 'answered');
    const kinds = (await choice.getByRole('heading', { level: 3 }).allTextContents()).map((text) => text.replace(/[\d ]*part.*$/, ''));
    const order = ['drops in', 'after work', 'not known', 'will not fit'];
    const places = kinds.map((kind) => order.findIndex((each) => kind.includes(each)));
    expect(places).toEqual([...places].sort());
    expect(places).toContain(order.indexOf('after work'));
    await expect(choice.getByRole('list', { name: 'Will not fit' }).getByRole('listitem').first()).toContainText(/asked for|not the same/);
    const alder = choice.getByRole('list', { name: 'After work' }).getByRole('button', { name: /^Alder III compressor housing Tarnwick/ });
    await expect(alder).toContainText('operation');
    await tabTo(page, alder);
    await page.keyboard.press('Enter');
    await planSettled(page);
  });

  await test.step('the joint says after work with its numbers, and the work names part, finished size, tolerance and hours', async () => {
    const joints = plan.getByRole('region', { name: 'Joints' });
    const joint = joints.getByRole('row', { name: /compressor housing on backplate/ });
    await expect(joint).toContainText('after work');
    await expect(joint).toContainText(/\d+\.\d{3} to \d+\.\d{3}/);
    // Only the housing is worked on; the wheel and the backplate it goes onto drop in as they are.
    const slots = page.getByRole('list', { name: 'Slots' });
    await expect(slots.getByRole('button', { name: /^compressor housing/ })).toContainText('after work');
    for (const met of [/^backplate/, /^compressor wheel/]) await expect(slots.getByRole('button', { name: met })).toContainText('drops in');
    await expect(slots.getByText('after work')).toHaveCount(1);
    const fold = joint.getByRole('button');
    await tabTo(page, fold);
    await page.keyboard.press('Enter');
    await expect(fold).toHaveAttribute('aria-expanded', 'true');
    await expect(joints).toContainText('Number of holes');
    const work = plan.getByRole('region', { name: 'Work' });
    await expect(work.getByRole('rowheader').first()).toContainText('Alder III compressor housing');
    await expect(work.locator('.finished').first()).toHaveText(/^\d+(\.\d+)? (± \d|[+−]?\d)/);
    await expect(work.getByRole('row').nth(1)).toContainText(/ h$/);
    await expect(plan.getByRole('heading', { name: 'Cautions' })).toBeVisible();
  });

  await test.step('the list beside the graph says the same as the joints and walks by arrows', async () => {
    const list = plan.getByRole('list', { name: 'The graph in words' });
    const first = list.getByRole('button').first();
    await expect(first).toContainText('after work');
    await tabTo(page, first);
    await page.keyboard.press('ArrowDown');
    await expect(list.getByRole('button').nth(1)).toBeFocused();
    await page.keyboard.press('Enter');
    await expect(list.getByRole('button').nth(1)).toHaveAttribute('aria-pressed', 'true');
    await expect(plan.getByRole('img', { name: /drawn as a graph/ })).toHaveAttribute('data-drawn', 'true');
    await axeCleanInOneWindow(page, 'the work and the graph');
  });

  await test.step('the open slots are filled within constraints; the list says whether it is complete', async () => {
    await tabTo(page, page.getByRole('link', { name: 'Fill the open slots' }), true);
    await page.keyboard.press('Enter');
    await page.getByRole('combobox', { name: 'Parts added are of' }).selectOption({ label: 'Merrowby only' });
    await tabTo(page, page.getByRole('textbox', { name: 'Operations at most' }));
    await page.keyboard.type('two');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('alert')).toContainText('“two” is no number of operations');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('4');
    await page.keyboard.press('Enter');
    const found = page.getByRole('region', { name: 'Builds found' });
    await expect(found).toHaveAttribute('data-state', 'done');
    await expect(found.getByRole('status')).toContainText('The list is complete');
    await axeCleanInOneWindow(page, 'builds found');
    const choose = found.getByRole('button', { name: 'Put on the bench build 1' });
    await tabTo(page, choose);
    await page.keyboard.press('Enter');
    await planSettled(page);
    await expect(page.getByRole('list', { name: 'Slots' }).getByRole('button', { name: /^turbine housing/ })).not.toContainText(
      'not chosen',
    );
  });

  let honest = '';
  await test.step('its honest name stands: a core with a stranger’s housing, never the model', async () => {
    const name = plan.getByRole('list', { name: 'Honest name' });
    await expect(name).toContainText('stands');
    await expect(name).toContainText(/core of Merrowby Tern 7.* with a compressor housing of Tarnwick Alder/);
    honest = (await plan.getByRole('heading', { level: 2 }).first().locator('xpath=text()').allTextContents()).join('');
    await expect(plan.locator('.ticket-text.is-may')).toContainText('Alder III compressor housing, machined');
    await expect(plan.locator('.ticket-text.is-must-not')).toContainText('as a Tarnwick unit');
  });

  await test.step('it is saved as other sheets are', async () => {
    await page.keyboard.press('Control+s');
    await expect(page.getByText('Saved', { exact: true })).toBeVisible();
    await page.reload();
    await planSettled(page);
    await expect(page.getByRole('textbox', { name: 'Title of the build' })).toHaveValue('Tern 7 core, new build');
  });

  await test.step('the build sheet prints on A4: parts, operations with sizes, cautions, what it may be called; nothing of the window', async () => {
    await tabTo(page, page.getByRole('link', { name: 'Build sheet' }));
    await page.keyboard.press('Enter');
    const sheet = page.getByRole('article', { name: 'Build sheet' });
    await expect(sheet).toContainText(honest);
    await axeCleanInOneWindow(page, 'the build sheet');
    await page.emulateMedia({ media: 'print', colorScheme: 'light' });
    for (const heading of ['Parts', 'Joints', 'How it may be described', 'How it must not be described', 'Before it runs']) {
      await expect(sheet.getByRole('heading', { name: heading, exact: true })).toBeVisible();
    }
    await expect(sheet.getByRole('row', { name: /^nameplate only the maker issues one/ })).toBeVisible();
    await expect(sheet.getByRole('heading', { name: /^Machining: compressor housing, .*Alder III/ })).toBeVisible();
    await expect(sheet.getByRole('columnheader', { name: 'Measured', exact: true }).first()).toBeVisible();
    await expect(sheet).toContainText(/balanced/);
    await expect(page.locator('.bar')).toBeHidden();
    await expect(page.locator('.build-places')).toBeHidden();
    const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: true });
    const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
    expect(pages).toBeGreaterThanOrEqual(1);
    expect(pages).toBeLessThanOrEqual(2);
    await info.attach('build-sheet.pdf', { body: pdf, contentType: 'application/pdf' });
  });
});

reading(
  '[F4] variants of a search beside a saved build: what differs stands first, what is not known says so, the rest is said once',
  async ({ page }) => {
    await page.setViewportSize({ width: 1024, height: 700 });
    await beginWith(page, 'Gannet 12');
    const frame = page.getByRole('region', { name: 'Builds side by side' });
    const row = (name: RegExp) => frame.getByRole('row', { name });
    const adder = page.getByRole('combobox', { name: 'Add a build' });
    const press = async (target: Locator, key: string, backwards = false): Promise<void> => {
      await tabTo(page, target, backwards);
      await page.keyboard.press(key);
    };

    await test.step('the build on the bench beside a saved one', async () => {
      await press(page.getByRole('link', { name: 'Compare' }), 'Enter', true);
      await tabTo(page, adder);
      await page.keyboard.type('A Tarnwick housing on');
      await page.keyboard.press('Enter');
      await expect(row(/^May be called/)).toContainText('compressor housing of Tarnwick Rowan');
      await expect(row(/^Compressor housing not/)).toContainText('not chosen yet');
      await expect(frame.getByRole('row', { name: 'Not known whether they differ' })).toBeVisible();
      await expect(
        row(/^Total/)
          .getByRole('cell')
          .first(),
      ).toContainText('at least');
      await expect(frame.locator('.is-same')).toHaveCount(0);
      await press(page.getByRole('checkbox', { name: 'show what is alike' }), 'Space');
      const rows = await frame
        .locator('tbody tr:not(.group-row)')
        .evaluateAll((all) => all.map((one) => one.classList.contains('is-same')));
      expect(rows).toContain(true);
      expect(rows.lastIndexOf(false)).toBeLessThan(rows.indexOf(true));
      await expect(row(/^Bearing set Merrowby/).getByRole('cell')).toHaveCount(1);
      await press(page.getByRole('checkbox', { name: 'show what is alike' }), 'Space');
    });

    await test.step('two variants are ticked in the table of the search and stand before them', async () => {
      await press(page.getByRole('link', { name: 'Fill the open slots' }), 'Enter', true);
      await press(page.getByRole('button', { name: 'Fill the open slots' }), 'Enter');
      await expect(page.getByRole('region', { name: 'Builds found' })).toHaveAttribute('data-state', 'done');
      await press(page.getByRole('checkbox', { name: 'Compare variant 1' }), 'Space');
      await press(page.getByRole('checkbox', { name: 'Compare variant 3' }), 'Space');
      await press(page.getByRole('button', { name: 'Compare those ticked' }), 'Enter', true);
      await expect(row(/^Total/).getByRole('cell')).toHaveCount(4);
      await expect(frame).toBeFocused();
      await press(frame.getByRole('button', { name: /^Take out Gannet 12 core/ }), 'Enter');
      await expect(adder).toBeFocused();
      await expect(frame.getByRole('columnheader')).toHaveText([
        /^What$/,
        /^Variant 1/,
        /^Variant 3/,
        /^A Tarnwick housing on a Gannet core/,
      ]);
      await expect(row(/^Compressor housing/)).toContainText(/\d crowns; none in stock/);
      await axeCleanInOneWindow(page, 'builds side by side');
    });

    await test.step('on paper the window’s own buttons are gone; the one that is wanted goes onto the bench', async () => {
      await page.emulateMedia({ media: 'print' });
      await expect(frame.getByRole('button')).toHaveCount(0);
      await expect(row(/^May be called/)).toBeVisible();
      await page.emulateMedia({ media: 'screen' });
      await press(frame.getByRole('button', { name: 'Put on the bench Variant 3' }), 'Enter');
      await planSettled(page);
      const slots = page.getByRole('list', { name: 'Slots' });
      await expect(slots.getByRole('button', { name: /^turbine housing/ })).not.toContainText('not chosen');
    });
  },
);

reading('[F1] what was measured on a part in hand stands in place of its limits, and goes out with the part', async ({ page }, info) => {
  await beginWithTern(page);
  const plan = page.getByRole('region', { name: 'The plan' });
  const line = page.getByRole('list', { name: 'Slots' }).getByRole('button', { name: /^compressor wheel/ });
  await tabTo(page, line);
  await page.keyboard.press('Enter');
  const choice = page.getByRole('region', { name: 'For the compressor wheel' });
  await expect(choice).toHaveAttribute('data-state', 'answered');
  const joint = plan.getByRole('row', { name: /compressor wheel on shaft/ });
  await expect(joint).not.toContainText('will not fit');
  const limits = await joint.textContent();
  await tabTo(page, featureBox(page, 'compressor wheel'));
  await enter(page, 'compressor wheel', 'bore', typed('5.5'));
  await expect(entered(page, /^bore 5.5 mm/)).toBeVisible();
  await expect(joint).not.toHaveText(limits ?? '');
  await expect(joint).toContainText('will not fit');
  await expect(line.getByText('not as listed')).toBeInViewport();
  await axeCleanInOneWindow(page, 'a part in hand measured');
  await info.attach('measured on the part in hand', { body: await page.screenshot(), contentType: 'image/png' });

  const part = await line.locator('.slot-line-part').textContent();
  const other = choice.locator('.option-line[aria-pressed="false"]').first();
  await tabTo(page, other);
  await page.keyboard.press('Enter');
  await expect(choice.getByRole('status')).toContainText('1 entry');
  await expect(entered(page, /^bore/)).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(entered(page, /^bore 5.5 mm/)).toBeVisible();
  await expect(line.locator('.slot-line-part')).toHaveText(part ?? '');
  await expect(choice.getByRole('status')).toHaveCount(0);
});

reading('[J2] two models side by side, by keyboard', async ({ page }) => {
  await page.getByRole('link', { name: 'Build', exact: true }).click();
  await page.getByRole('link', { name: 'Compare' }).click();
  await page.getByRole('radio', { name: 'two models' }).check();
  await tabTo(page, page.getByRole('combobox', { name: 'One model' }));
  await page.keyboard.type('Tern 7');
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('combobox', { name: 'The other model' }));
  await page.keyboard.type('Tern 10');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('columnheader', { name: /Tern 7/ })).toBeVisible();
  await expect(page.getByRole('columnheader', { name: /Tern 10/ })).toBeVisible();
  await expect(page.locator('.complete-word')).toContainText(/\d+ differences?/);
});

test('[O1] a planned build opens from the sheets on its bench; saved there, it is opened again after the program was started anew', async ({
  page,
  host,
}) => {
  await page.getByRole('link', { name: 'Sheets' }).click();
  await page.getByRole('button', { name: 'An Alder housing on a Tern core, after machining', exact: true }).click();
  await planSettled(page);
  const title = page.getByRole('textbox', { name: 'Title of the build' });
  const turbineHousing = page.getByRole('list', { name: 'Slots' }).getByRole('button', { name: /^turbine housing/ });
  await expect(turbineHousing).toContainText('Tern large turbine housing');
  await title.fill('Alder on Tern, without its hot end');
  await turbineHousing.click();
  await page.getByRole('button', { name: 'Take out' }).click();
  await planSettled(page);
  await page.keyboard.press('Control+s');
  await expect(page.getByText('Saved', { exact: true })).toBeVisible();

  await page.goto('about:blank');
  await host.restart();
  await page.goto(await host.address());
  await page.getByRole('link', { name: 'Sheets' }).click();
  const own = page.getByRole('region', { name: 'The shop’s own' });
  await own.getByRole('button', { name: 'Alder on Tern, without its hot end', exact: true }).click();
  await planSettled(page);
  await expect(title).toHaveValue('Alder on Tern, without its hot end');
  await expect(turbineHousing).toContainText('not chosen');
  await expect(page.getByRole('list', { name: 'Slots' }).getByRole('button', { name: /^compressor housing/ })).toContainText('Alder III');
});
