import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from '@playwright/test';
import { unzipSync } from 'fflate';
import { wharfPack, writeWharf } from '../unit/db/wharf-pack.ts';
import { axeClean, axeCleanInOneWindow } from './axe-clean.ts';
import { test as base, expect } from './fixtures.ts';
import { tabTo, verdictSettled } from './keyboard.ts';

/** A data folder nothing was ever kept in. */
const test = base.extend({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads a fixture's needs from this pattern
  data: async ({}, use) => {
    const folder = mkdtempSync(path.join(tmpdir(), 'kinplate-begin-'));
    await use(folder);
    rmSync(folder, { recursive: true, force: true });
  },
});
test.use({ viewport: { width: 1280, height: 800 } });

const parts = (maker: string, name = 'Gale compressor wheel for a Petrel') => `id,slot,name,maker,numbers,pattern_of,supersedes,source
gale-wheel,compressor-wheel,${name},${maker},GUST 4/1,,,gale-book
`;
const newName = 'Gale compressor wheel of the second casting';
const files: Readonly<Record<string, string>> = {
  'pack.json': JSON.stringify({
    format: 'kinplate atlas pack',
    version: 1,
    id: 'gale',
    title: 'Wheels of the Gale works',
    edition: '2026-05-01',
    invented: false,
    note: 'Measured on our own bench.',
    leansOn: ['trade-vocabulary'],
  }),
  'sources.json': JSON.stringify([{ id: 'gale-book', title: 'The bench book', kind: 'measured in the shop' }]),
  'makers.json': JSON.stringify([{ id: 'gale', name: 'Gale works', tradeNames: [], plateRule: false, grammar: null, source: 'gale-book' }]),
  'parts.csv': parts('gail'),
  'facts.csv': 'part,feature,value,lower,upper,code,source\n',
  'allowed.csv': 'model,slot,part,role\n',
  'notes.txt': 'Not part of it.',
  ...Object.fromEntries(
    ['stages', 'slots', 'ports', 'features', 'joints', 'families', 'generations', 'models'].map((name) => [`${name}.json`, '[]']),
  ),
};

const press = async (page: Page, name: string): Promise<void> => {
  await tabTo(page, page.getByRole('button', { name, exact: true }));
  await page.keyboard.press('Enter');
};
const said = (page: Page, text: string) => expect(page.getByRole('main').getByRole('status').filter({ hasText: text })).toBeVisible();

/** Nothing is wider than a small window. */
const fitsSmall = async (page: Page, screen: string): Promise<void> => {
  await page.setViewportSize({ width: 1024, height: 700 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth), `${screen}, small: width`).toBe(0);
  await page.setViewportSize({ width: 1280, height: 800 });
};

test('[V1] [A8] a shop begins empty; the invented atlas comes and goes with a press, and is told from the shop’s own; a pack is brought with a fault, mended, and written out', async ({
  page,
  data,
}, info) => {
  const mark = page.getByRole('link', { name: /^invented/ });
  const pack = path.join(data, 'gale');
  mkdirSync(pack);
  for (const [name, text] of Object.entries(files)) writeFileSync(path.join(pack, name), text);

  await test.step('the first start asks; begun empty, there are words and no maker, and every screen says so in peace', async () => {
    await expect(page.getByRole('heading', { name: 'What shall this atlas begin with?' })).toBeVisible();
    await axeCleanInOneWindow(page, 'the first start', info);
    await fitsSmall(page, 'the first start');
    await press(page, 'Begin an empty one');
    await expect(page.getByRole('article').getByText('No maker, model or part is in it yet')).toBeVisible();
    await expect(mark).toHaveText('invented figures');
    for (const name of ['Unit', 'Build', 'Sheets', 'Tree', 'Tell apart', 'Key', 'Drills']) {
      await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name, exact: true }).click();
      await expect(page.getByRole('main')).toBeVisible();
      if (name === 'Unit') await verdictSettled(page);
      await expect(page.getByText('Something went wrong inside the program')).toHaveCount(0);
    }
    await page.reload();
    await expect(mark, 'an atlas that holds packs does not ask').toBeVisible();
  });

  await test.step('the invented atlas comes with one press, and keeps in the words it leans on', async () => {
    await mark.focus();
    await page.keyboard.press('Enter');
    await press(page, 'Put in Saltmarsh demo atlas');
    await said(page, 'Put in: Saltmarsh demo atlas');
    await expect(mark).toHaveText('invented data');
    const words = page.getByRole('article', { name: 'Vocabulary of the trade' });
    await expect(words).toContainText('Saltmarsh demo atlas leans on it');
    await expect(words.getByRole('button', { name: /^Take out/ })).toHaveCount(0);
    await expect(page.getByRole('article', { name: 'Saltmarsh demo atlas' })).toContainText(
      /Taken out, it takes with it \d+ parts, \d+ models/,
    );
    await fitsSmall(page, 'packs');
  });

  await test.step('a pack with a fault says where it is; mended, it shows what it adds and is put in', async () => {
    await page.getByLabel('Folder of a pack').setInputFiles(pack);
    const fault = page.getByRole('region', { name: 'Faults' }).getByRole('row').nth(1);
    await expect(fault).toContainText('parts.csv');
    await expect(fault.getByRole('cell').nth(0)).toHaveText('2');
    await expect(fault.getByRole('cell').nth(1)).toHaveText('maker');
    await expect(fault.getByRole('cell').nth(2)).toHaveText('"gail"');
    await expect(page.getByText('Left alone, being no files of a pack: gale/notes.txt')).toBeVisible();
    await axeCleanInOneWindow(page, 'a pack with a fault', info);
    writeFileSync(path.join(pack, 'parts.csv'), parts('gale'));
    await page.getByLabel('Folder of a pack').setInputFiles(pack);
    await expect(
      page.getByRole('table', { name: 'What it adds, alters and takes away' }).getByRole('row', { name: /^parts/ }),
    ).toContainText('1');
    await axeCleanInOneWindow(page, 'a pack that is sound', info);
    await press(page, 'Put it in');
    await said(page, 'Put in: Wheels of the Gale works');
  });

  await test.step('what is invented is told from what is not, wherever both are found', async () => {
    await page.getByRole('link', { name: 'Atlas', exact: true }).click();
    await page.getByRole('searchbox').fill('petrel compressor wheel');
    const hits = page.getByRole('listitem').filter({ has: page.locator('.detail') });
    await expect(hits.filter({ hasText: 'Gale compressor wheel for a Petrel' })).not.toContainText('invented');
    await expect(hits.filter({ hasNotText: 'Gale' }).first()).toContainText('invented');
    await hits.filter({ hasNotText: 'Gale' }).first().getByRole('link').click();
    await expect(page.getByRole('heading', { name: 'Sits in' })).toBeVisible();
    await expect(page.getByText('invented: no real maker, name or figure is in it')).toBeVisible();
    await axeCleanInOneWindow(page, 'an invented part beside the shop’s own', info);
    await page.getByRole('link', { name: 'Gale compressor wheel for a Petrel' }).click();
    await expect(page.getByRole('heading', { name: 'Gale compressor wheel for a Petrel' })).toBeVisible();
    await expect(page.getByText('invented: no real maker, name or figure is in it')).toHaveCount(0);
  });

  await test.step('the invented atlas goes with one press', async () => {
    await mark.focus();
    await page.keyboard.press('Enter');
    const invented = page.getByRole('article', { name: 'Saltmarsh demo atlas' });
    await tabTo(page, invented.locator('summary').filter({ hasText: 'What would follow once it is taken out' }));
    await page.keyboard.press('Enter');
    await expect(invented).toContainText(/Names that would be gone: .*; and \d+ more\./);
    await axeClean(page, 'what would follow once a pack is taken out', info);
    await press(page, 'Take out Saltmarsh demo atlas');
    await said(page, 'Taken out: Saltmarsh demo atlas');
    await expect(mark).toHaveText('invented figures');
  });

  await test.step('a newer edition says a third thing of what the shop said: decided, and put in', async () => {
    const made = await page.evaluate(async () => {
      const seen = await window.desk.ask('changes.look', { edits: [{ list: 'parts', drop: 'gale-wheel' }] });
      const part = {
        id: 'gale-wheel',
        slot: 'compressor-wheel',
        name: 'Our Gale wheel',
        maker: 'gale',
        numbers: ['GUST 4/1'],
        facts: {},
        source: 'gale-book',
      };
      const head = seen.ok ? seen.value.head : '';
      return window.desk.ask('changes.make', { edits: [{ list: 'parts', put: part }], who: '', why: '', source: '', head });
    });
    expect(made).toMatchObject({ ok: true });
    writeFileSync(path.join(pack, 'pack.json'), (files['pack.json'] ?? '').replace('2026-05-01', '2026-06-01'));
    writeFileSync(path.join(pack, 'parts.csv'), parts('gale', newName));
    await page.getByLabel('Folder of a pack').setInputFiles(pack);
    await expect(page.getByText('It takes the place of edition 2026-05-01.')).toBeVisible();
    await expect(page.getByRole('button', { name: 'Put it in' })).toBeDisabled();
    await axeCleanInOneWindow(page, 'a newer edition that disputes the shop’s word', info);
    const standing = page.getByRole('combobox', { name: 'What shall stand of Our Gale wheel: Name' });
    await tabTo(page, standing);
    await standing.selectOption('what the pack says');
    await press(page, 'Put it in');
    await said(page, 'edition 2026-06-01');
  });

  await test.step('the pack is written out as what was brought, to the byte', async () => {
    const written = page.waitForEvent('download');
    await press(page, 'Write out Wheels of the Gale works');
    const file = path.join(data, 'gale.zip');
    const download = await written;
    expect(download.suggestedFilename()).toBe('gale-2026-06-01.zip');
    await download.saveAs(file);
    const inside = unzipSync(readFileSync(file));
    expect(new TextDecoder().decode(inside['gale/parts.csv'])).toBe(parts('gale', newName));
    await page.getByLabel('Pack in one ZIP').setInputFiles(file);
    await expect(page.getByText('The atlas holds exactly this already, so there is nothing to put in.')).toBeVisible();
  });

  await test.step('[P16] another shop’s pack calls what we have by other words: ours stand in their place, one is decided, and it is held as mapped', async () => {
    await page.getByLabel('Folder of a pack').setInputFiles(writeWharf(path.join(data, 'wharf'), wharfPack()));
    const words = page.getByRole('region', { name: 'Words we may have already' });
    await expect(words).toContainText('7 of them are taken for words we have');
    await expect(page.getByText('It would be held as mapped: 7 words stand under ids of ours.')).toBeVisible();
    await tabTo(page, words.getByText('Taken for ours: 7 words'));
    await page.keyboard.press('Enter');
    await expect(words.getByRole('row', { name: /^diameter of the exducer/ })).toContainText(
      'Both are called by the same words: diameter, exducer.',
    );
    const counted = words.getByRole('row', { name: /^number of full blades/ });
    await expect(counted).toContainText('There it counts blades, here full blades.');
    await axeCleanInOneWindow(page, 'a pack in other words', info);
    await fitsSmall(page, 'a pack in other words');
    await press(page, 'It is “full blade count”');
    await expect(page.getByRole('button', { name: 'Put it in' })).toBeDisabled();
    const colour = words.getByRole('combobox', { name: /^What “colour of the back” is here/ });
    await expect(colour).toHaveCount(0);
    await press(page, 'Look again with this');
    await expect(page.getByText('It would be held as mapped: 8 words stand under ids of ours.')).toBeVisible();
    await press(page, 'Put it in');
    await said(page, 'Put in: The list of the Osterhal wharf');
    await expect(page.getByRole('article', { name: 'The list of the Osterhal wharf' })).toContainText(
      'held as mapped: 8 words of it stand under ids of ours',
    );
    await page.getByLabel('Folder of a pack').setInputFiles(path.join(data, 'wharf'));
    await expect(page.getByText('The atlas holds exactly this already, so there is nothing to put in.')).toBeVisible();
  });
});
