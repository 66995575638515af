import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Locator, Page } from '@playwright/test';
import Papa from 'papaparse';
import { spoiltCells, spoiltRows } from '../unit/db/tables/weather-rows.ts';
import { test as base, enterBy, expect, startHost } from './fixtures.ts';
import { Hand } from './hand.ts';
import { caseLink, enter, tabTo, typed, verdictSettled } from './keyboard.ts';

/** A data folder nothing was ever kept in. */
const test = base.extend({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads a fixture's needs from this pattern
  data: async ({}, use) => {
    const folder = mkdtempSync(path.join(tmpdir(), 'kinplate-keeper-'));
    await use(folder);
    rmSync(folder, { recursive: true, force: true });
  },
});
test.use({ viewport: { width: 1280, height: 800 } });

const tables = ['stages', 'slots', 'ports', 'features', 'joints', 'families', 'generations', 'models'];

/** Another shop’s pack of one wheel, in an edition that says these sizes of it. */
const writePack = (folder: string, edition: string, inducer: number, exducer: number, blades: number): string => {
  const files: Readonly<Record<string, string>> = {
    'pack.json': JSON.stringify({
      format: 'kinplate atlas pack',
      version: 1,
      id: 'squall',
      title: 'Wheels of the Squall works',
      edition,
      invented: false,
      note: 'Measured on our own bench.',
      leansOn: ['trade-vocabulary'],
    }),
    'sources.json': JSON.stringify([{ id: 'squall-book', title: 'The bench book', kind: 'measured in the shop' }]),
    'makers.json': JSON.stringify([
      { id: 'squall', name: 'Squall works', tradeNames: [], plateRule: false, grammar: null, source: 'squall-book' },
    ]),
    'parts.csv': `id,slot,name,maker,numbers,pattern_of,supersedes,source
squall-wheel,compressor-wheel,Squall compressor wheel,squall,KNOT 9/1,,,squall-book
`,
    'facts.csv': `part,feature,value,lower,upper,code,source
squall-wheel,compressor-wheel-full-blades,${blades},,,,squall-book
squall-wheel,compressor-wheel-inducer,${inducer},-0.05,0.05,,squall-book
squall-wheel,compressor-wheel-exducer,${exducer},-0.05,0.05,,squall-book
`,
    'allowed.csv': 'model,slot,part,role\n',
    ...Object.fromEntries(tables.map((name) => [`${name}.json`, '[]'])),
  };
  const pack = path.join(folder, 'squall');
  mkdirSync(pack, { recursive: true });
  for (const [name, text] of Object.entries(files)) writeFileSync(path.join(pack, name), text);
  return pack;
};

test('[H1] [H2] [H3] [I2] [E2] [P15] the keeper, by keyboard from an empty folder: a spreadsheet, a maker with its models, a claim judged, a strange part, a pack beside and out again, a newer edition, a change undone, and all of it signed and read by another shop', async ({
  page,
  browser,
  data,
}, info) => {
  const hand = new Hand(page, info);
  const { keyboard } = page;
  const main = page.getByRole('main');
  const mark = page.getByRole('link', { name: /^invented/ });
  const go = async (target: Locator, backwards = false): Promise<void> => {
    await tabTo(page, target, backwards);
    await keyboard.press('Enter');
  };
  const button = (name: string | RegExp, within: Page | Locator = page): Locator =>
    within.getByRole('button', { name, exact: typeof name === 'string' });
  const screen = (name: string) => go(page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name, exact: true }), true);
  const said = (text: string) => expect(main.getByRole('status').filter({ hasText: text })).toBeVisible();
  const choose = async (name: string, file: string): Promise<void> => {
    await tabTo(page, button(name));
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), keyboard.press('Enter')]);
    hand.chooses();
    await chooser.setFiles(file);
  };
  const write = async (target: Locator, text: string): Promise<void> => {
    await tabTo(page, target);
    await keyboard.press('ControlOrMeta+a');
    await keyboard.type(text);
  };
  const text = (name: string, nth = 0): Locator => page.getByRole('textbox', { name, exact: true }).nth(nth);
  /** Found by some of its name, and taken at once. */
  const pick = async (name: string, some: string): Promise<void> => {
    await tabTo(page, page.getByRole('combobox', { name, exact: true }));
    await keyboard.type(some);
    await keyboard.press('Enter');
  };
  const made = async (): Promise<void> => {
    await expect(page.getByText('Ctrl+S makes it.')).toBeVisible();
    await keyboard.press('Control+s');
    await expect(page.getByText('The change was made.')).toBeVisible();
  };
  const edit = async (add: string): Promise<void> => {
    await screen('Atlas');
    await go(page.getByRole('link', { name: 'Edit the atlas' }));
    await go(page.getByRole('link', { name: add, exact: true }));
    await expect(page.getByRole('heading', { level: 1, name: /^A new / })).toBeVisible();
  };

  const findPart = async (number: string): Promise<void> => {
    await screen('Atlas');
    await tabTo(page, page.getByRole('searchbox', { name: 'Name or part number' }));
    await keyboard.type(number);
    await expect(page.getByText('1 found')).toBeVisible();
    await keyboard.press('ArrowDown');
    await keyboard.press('Enter');
  };

  await hand.does('begins with an empty atlas', async () => {
    await go(button('Begin an empty one'));
    await expect(page.getByText('No maker, model or part is in it yet')).toBeVisible();
  });

  await hand.does('brings a spreadsheet of 300 parts, mends ten cells and makes the change', async () => {
    const file = path.join(data, 'stock list.csv');
    writeFileSync(file, Papa.unparse(spoiltRows(), { newline: '\r\n' }));
    const state = page.locator('[data-state="answered"]');
    const active = page.locator('[data-active]');
    await go(page.getByRole('link', { name: /^Bring a spreadsheet/ }));
    await choose('Choose a spreadsheet…', file);
    await expect(page.getByRole('row', { name: 'exducer dia' })).toContainText('exducer diameter');
    await go(button('Read the cells'));
    await expect(state).toContainText(/^300 rows.*308 cells to mend/);
    await keyboard.press('F8');
    await expect(active).toBeFocused();
    for (const [maker, left] of [
      ['Sirocco & Daughter', '208 cells'],
      ['HOARFROST', '10 cells'],
    ] as const) {
      await go(button(`Add “${maker}” as a new maker`));
      await expect(state).toContainText(left);
      await expect(active).toBeFocused();
      await keyboard.press('F8');
    }
    for (const [at, [, , , meant]] of spoiltCells.entries()) {
      await expect(active).toHaveAttribute('aria-invalid', 'true');
      await keyboard.press('Enter');
      await keyboard.press('ControlOrMeta+a');
      await keyboard.type(meant);
      await keyboard.press('Enter');
      const left = spoiltCells.length - 1 - at;
      await expect(state).toContainText(left === 0 ? '300 new. Nothing is to be mended.' : `${left} cell`);
      await keyboard.press('F8');
    }
    await go(button('Look at the change'));
    await expect(page.getByText(/parts: 300 new/i)).toBeVisible();
    await tabTo(page, text('Who'));
    await keyboard.type('Ines');
    await go(button('Make this change'));
    await expect(page.getByRole('region', { name: 'Brought in' })).toContainText('parts: 300 new');
  });

  await hand.does('adds a maker, with a grammar that reads its names', async () => {
    await edit('add a maker');
    await write(text('Name'), 'Drizzle Works');
    await pick('Source', 'stock');
    // The first word of a name is the family.
    await go(button('Say it'));
    await write(text('What it is called'), 'family');
    await write(text('Word'), 'Mizzle');
    // The second is a size, which stands for a wheel.
    await go(button('Add another to The words of a name'));
    await write(text('What it is called', 1), 'size');
    await write(text('What stands before it', 1), ' ');
    await tabTo(page, page.getByRole('combobox', { name: 'What it reads: kind' }).nth(1));
    await keyboard.type('whole');
    await write(text('From'), '1');
    await write(text('To'), '3');
    await go(button('Add one to What it promises of the parts').nth(1));
    await keyboard.type('measure');
    await tabTo(page, page.getByRole('combobox', { name: 'Feature' }));
    await keyboard.type('exducer diameter compressor wheel');
    await keyboard.press('Enter');
    await tabTo(page, text('What each stands for: another'));
    for (const [size, exducer] of [
      ['1', '52.4'],
      ['2', '51.2'],
      ['3', '50.2'],
    ] as const) {
      await keyboard.type(size);
      await keyboard.press('Enter');
      await keyboard.type(exducer);
      await keyboard.press('Enter');
    }
    await write(text('Off by at most'), '0.3');
    await tabTo(page, text('Try a name or a number'), true);
    await keyboard.type('Mizzle 2');
    await expect(page.getByText('As a name: Mizzle (family), 2 (size).')).toBeVisible();
    await made();
  });

  await hand.does('adds a family and three models with what sits in them', async () => {
    await edit('add a family');
    await write(text('Name'), 'Mizzle');
    await pick('Maker', 'driz');
    await made();
    await edit('add a model');
    await write(text('Name'), 'Mizzle 1');
    await pick('Family', 'mizz');
    for (const [slot, number, name] of [
      ['compressor wheel', 'GUST 1000', 'comp wheel 0'],
      ['turbine wheel', 'GUST 1007', 'turbine wheel 1'],
    ] as const) {
      await pick(`${slot}: add a part`, number);
      await expect(page.getByRole('combobox', { name: `role of ${name}` })).toBeFocused();
    }
    await made();
    for (const [name, ...parts] of [
      ['Mizzle 2', ['compressor wheel', 'comp wheel 0', 'GUST 1084'], ['turbine wheel', 'turbine wheel 1', 'GUST 1021']],
      ['Mizzle 3', ['compressor wheel', 'comp wheel 12', 'GUST 1014'], ['turbine wheel', 'turbine wheel 3', 'GUST 1035']],
    ] as const) {
      await go(page.getByRole('link', { name: 'Another like it' }), true);
      await write(text('Name'), name);
      for (const [slot, before, after] of parts) {
        await go(button(`take away ${before}`));
        await expect(page.getByRole('combobox', { name: `${slot}: add a part`, exact: true })).toBeFocused();
        await keyboard.type(after);
        await keyboard.press('Enter');
        await expect(page.getByRole('combobox', { name: /^role of / }).and(page.locator(':focus'))).toBeVisible();
      }
      await made();
    }
    await expect(page.getByRole('heading', { level: 1, name: 'Mizzle 3' })).toBeVisible();
  });

  const claim = page.getByRole('region', { name: 'Verdict' }).locator('.claim-line');
  await hand.does('judges a unit that is offered as one of them', async () => {
    await screen('Unit');
    await write(page.getByRole('textbox', { name: 'Title of the sheet' }), 'Grey unit of the pilot boat');
    await tabTo(page, page.getByRole('combobox', { name: 'Maker it is offered under' }));
    await keyboard.type('Drizzle');
    await write(page.getByRole('textbox', { name: 'Offered as' }), 'Mizzle 2');
    await verdictSettled(page);
    await expect(claim).toContainText('open');
    await expect(page.getByRole('heading', { name: 'The unit disagrees with itself' })).toHaveCount(0);
    await tabTo(page, page.getByRole('combobox', { name: 'Add to compressor wheel' }));
    await enter(page, 'compressor wheel', 'exducer diameter', typed('47.3'));
    await enter(page, 'compressor wheel', 'full blade count', typed('9'));
    await verdictSettled(page);
    await expect(claim).toContainText('ruled out');
    await keyboard.press('Control+s');
    await expect(page.getByText('Saved', { exact: true })).toBeVisible();
  });

  await hand.does('makes the strange wheel on it a part of the atlas', async () => {
    await go(caseLink(page), true);
    await go(button('Make it a part of the atlas: compressor wheel'));
    await expect(text('What it is called')).toBeFocused();
    await keyboard.type('Nine-blade wheel of the pilot boat');
    await expect(page.getByRole('complementary', { name: 'What this would change' })).toContainText('Parts: 1 new.');
    await go(button('Make it a part of the atlas'));
    await expect(
      page
        .getByRole('region', { name: 'Into the atlas' })
        .getByRole('status')
        .filter({ hasText: 'Now a part of the atlas: Nine-blade wheel of the pilot boat.' }),
    ).toBeVisible();
    await expect(page.locator('.edition')).toContainText('301 parts');
  });

  await hand.does('puts the invented atlas beside it, and takes it out', async () => {
    await go(mark, true);
    await go(button('Put in Saltmarsh demo atlas'));
    await said('Put in: Saltmarsh demo atlas');
    await expect(mark).toHaveText('invented data');
    await go(button('Take out Saltmarsh demo atlas'));
    await said('Taken out: Saltmarsh demo atlas');
    await expect(page.locator('.edition')).toContainText('301 parts');
  });

  await hand.does('takes another shop’s pack, measures three sizes otherwise, and decides them when a newer edition comes', async () => {
    await choose('Choose a folder…', writePack(path.join(data, 'first'), '2026-05-01', 44, 61, 6));
    await go(button('Put it in'));
    await said('Put in: Wheels of the Squall works');
    await findPart('KNOT 9/1');
    await go(page.getByRole('article').getByRole('link', { name: 'Edit', exact: true }));
    const facts = page.getByRole('region', { name: 'What is known of it' });
    for (const [feature, value] of [
      ['full blade count', '7'],
      ['inducer diameter', '44.3 ±0.05'],
      ['exducer diameter', '61.2 ±0.05'],
    ] as const)
      await write(facts.getByRole('textbox', { name: feature }).first(), value);
    await expect(page.getByRole('complementary', { name: 'What this would change' })).toContainText('3 altered');
    await made();

    await go(mark, true);
    await choose('Choose a folder…', writePack(path.join(data, 'second'), '2026-06-01', 44.6, 61.4, 8));
    await expect(page.getByText('It takes the place of edition 2026-05-01.')).toBeVisible();
    await expect(button('Put it in')).toBeDisabled();
    for (const [feature, stands] of [
      ['full blade count', 'what we'],
      ['inducer diameter', 'what the'],
      ['exducer diameter', 'what the'],
    ] as const) {
      await tabTo(page, page.getByRole('combobox', { name: `What shall stand of Squall compressor wheel: ${feature}` }));
      await keyboard.type(stands);
    }
    await go(button('Put it in'));
    await said('edition 2026-06-01');
    await findPart('KNOT 9/1');
    const part = page.getByRole('article');
    for (const stands of ['7 full blades', '44.6 mm', '61.4 mm']) await expect(part).toContainText(stands);
  });

  await hand.does('undoes one change', async () => {
    await screen('Atlas');
    await go(page.getByRole('link', { name: /^Every change of the atlas/ }));
    const rows = page.getByRole('table', { name: 'Changes, the newest first' }).getByRole('row');
    await go(button(/^Look at it/, rows.filter({ hasText: 'Mizzle 3' })));
    await go(button('Undo it…'));
    await go(button('Undo it'));
    await expect(page.getByText(/^Undone, as change \d+\.$/)).toBeVisible();
    await expect(rows.filter({ hasText: 'Mizzle 3' }).filter({ hasText: 'undone since' })).toBeVisible();
  });

  const [ours, key] = [path.join(data, 'ours.zip'), path.join(data, 'key.txt')];
  await hand.does('makes the shop’s key, signs its atlas and writes both out', async () => {
    await go(mark, true);
    const keys = page.getByRole('region', { name: 'Keys' });
    await write(keys.getByLabel('Name of the shop'), 'Windward Turbo Repair');
    await keyboard.press('Enter');
    await expect(keys).toContainText('This shop signs as Windward Turbo Repair.');
    await go(button('Sign This shop’s own atlas'), true);
    await expect(page.getByRole('dialog')).toContainText('Windward Turbo Repair then answers for all that stands in it.');
    await keyboard.press('Enter');
    await said('Signed: This shop’s own atlas');
    for (const [name, file] of [
      ['Write out This shop’s own atlas', ours],
      ['Write out the public key', key],
    ] as const) {
      const written = page.waitForEvent('download');
      await go(button(name));
      await (await written).saveAs(file);
    }
  });

  await hand.does('reads it in another shop', async () => {
    const folder = path.join(data, 'another shop');
    const other = await startHost(folder);
    const window = await browser.newPage();
    // As the fixture does for the first window: a chooser nobody listens for yet is Chromium’s own.
    window.on('filechooser', () => undefined);
    try {
      await enterBy(window, other);
      const their = hand.at(window);
      await tabTo(window, button('Begin an empty one', window));
      await their.press('Enter');
      await expect(window.getByText('No maker, model or part is in it yet')).toBeVisible();
      await tabTo(window, window.getByRole('link', { name: /^invented/ }));
      await their.press('Enter');
      for (const [name, file] of [
        ['Trust another key…', key],
        ['Choose a ZIP…', ours],
      ] as const) {
        await tabTo(window, button(name, window), name === 'Choose a ZIP…');
        const [chooser] = await Promise.all([window.waitForEvent('filechooser'), their.press('Enter')]);
        hand.chooses();
        await chooser.setFiles(file);
        if (name === 'Choose a ZIP…') continue;
        await expect(window.getByRole('dialog', { name: 'Trust the key of Windward Turbo Repair?' })).toBeVisible();
        await their.press('Enter');
        await expect(window.getByRole('row', { name: /^Windward Turbo Repair/ })).toBeVisible();
      }
      const brought = window.getByRole('region', { name: 'The pack that was chosen' });
      await expect(brought).toContainText('whom the shop trusts.');
      await tabTo(window, button('Put it in', window));
      await their.press('Enter');
      await expect(window.getByRole('article', { name: 'This shop’s own atlas' })).toContainText('signed by Windward Turbo Repair');
      await expect(window.locator('.edition')).toContainText('301 parts');
    } finally {
      await window.close();
      await other.stop();
    }
  });

  await hand.tells();
});
