import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { unzipSync } from 'fflate';
import { makeOwnKey } from '../../db/signing/own-key.ts';
import { fingerprintOf, keyText } from '../../db/signing/public-key.ts';
import { axeClean, axeCleanInOneWindow } from './axe-clean.ts';
import { test as base, expect } from './fixtures.ts';
import { tabTo } from './keyboard.ts';

const program = fileURLToPath(new URL('../../build/kinplate.js', import.meta.url));
const kinplate = (...args: readonly string[]) => execFileSync(process.execPath, [program, ...args], { stdio: 'pipe' });

/** A data folder with the words of the trade in its atlas, and nothing else. */
const test = base.extend({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads a fixture's needs from this pattern
  data: async ({}, use) => {
    const folder = mkdtempSync(path.join(tmpdir(), 'kinplate-keys-'));
    kinplate('begin', 'empty', '--data', folder);
    await use(folder);
    rmSync(folder, { recursive: true, force: true });
  },
});
test.use({ viewport: { width: 1280, height: 800 } });

const head = {
  format: 'kinplate atlas pack',
  version: 1,
  id: 'squall',
  title: 'Wheels of the Squall works',
  edition: '2026-05-01',
  invented: false,
  note: 'Measured on our own bench.',
  licence: 'CC-BY-4.0',
  by: 'Squall works',
  leansOn: ['trade-vocabulary'],
};
const files: Readonly<Record<string, string>> = {
  'pack.json': JSON.stringify(head),
  'sources.json': JSON.stringify([{ id: 'squall-book', title: 'The bench book', kind: 'measured in the shop' }]),
  'makers.json': JSON.stringify([
    { id: 'squall', name: 'Squall works', tradeNames: [], plateRule: false, grammar: null, source: 'squall-book' },
  ]),
  'parts.csv':
    'id,slot,name,maker,numbers,pattern_of,supersedes,source\nsquall-wheel,compressor-wheel,Squall compressor wheel,squall,GUST 9/1,,,squall-book\n',
  'facts.csv': 'part,feature,value,lower,upper,code,source\n',
  'allowed.csv': 'model,slot,part,role\n',
  ...Object.fromEntries(
    ['stages', 'slots', 'ports', 'features', 'joints', 'families', 'generations', 'models'].map((name) => [`${name}.json`, '[]']),
  ),
};

const press = async (page: Page, name: string): Promise<void> => {
  await tabTo(page, page.getByRole('button', { name, exact: true }));
  await page.keyboard.press('Enter');
};
const said = (page: Page, text: string) => expect(page.getByRole('main').getByRole('status').filter({ hasText: text })).toBeVisible();
const aloud = (fingerprint: string): string => fingerprint.replaceAll('-', ' ');

test('[V1] [P15] a shop makes its key, is asked about a stranger’s pack, trusts him by what he reads to it, signs a pack of its own and withdraws a key', async ({
  page,
  data,
}, info) => {
  // Another shop, with a key and a pack it signed.
  const [theirs, pack] = [path.join(data, 'theirs'), path.join(data, 'squall')];
  for (const folder of [theirs, pack]) mkdirSync(folder);
  for (const [name, text] of Object.entries(files)) writeFileSync(path.join(pack, name), text);
  const tern = await makeOwnKey(theirs, 'Tern Works', null);
  kinplate('begin', 'empty', '--data', theirs);
  kinplate('pack', 'sign', pack, '--data', theirs);
  const card = path.join(data, 'tern.txt');
  writeFileSync(card, keyText(tern));
  const print = aloud(fingerprintOf(tern.key));

  await page.getByRole('link', { name: /^invented/ }).focus();
  await page.keyboard.press('Enter');
  const keys = page.getByRole('region', { name: 'Keys' });

  await test.step('the key is made under the shop’s name, once', async () => {
    await expect(keys).toContainText('This shop has no key to sign with yet.');
    await expect(page.getByRole('button', { name: /^Sign / })).toHaveCount(0);
    await tabTo(page, keys.getByLabel('Name of the shop'));
    await page.keyboard.type('Saltmarsh Rotor');
    const made = await page.evaluate(async () => {
      const source = { id: 'letter', title: 'A letter', kind: 'measured in the shop' };
      const seen = await window.desk.ask('changes.look', { edits: [{ list: 'sources', put: source }] });
      const head = seen.ok ? seen.value.head : '';
      return window.desk.ask('changes.make', { edits: [{ list: 'sources', put: source }], who: '', why: '', source: '', head });
    });
    expect(made).toMatchObject({ ok: true });
    await expect(page.getByRole('article', { name: 'This shop’s own atlas' }), 'the page has read the atlas anew').toBeVisible();
    await page.keyboard.type(' & Fuel');
    await axeCleanInOneWindow(page, 'packs, with a key to be made', info);
    await page.keyboard.press('Enter');
    await expect(keys).toContainText('This shop signs as Saltmarsh Rotor & Fuel.');
    await expect(keys.getByLabel('Name of the shop')).toHaveCount(0);
  });

  await test.step('a stranger’s pack is told and asked about; once his key is trusted it is not', async () => {
    await page.getByLabel('Folder of a pack').setInputFiles(pack);
    const asked = page.getByRole('region', { name: 'The pack that was chosen' });
    await expect(page.getByRole('alert')).toContainText(
      `is signed by somebody the keyring does not hold, who calls himself Tern Works (${fingerprintOf(tern.key)})`,
    );
    await axeCleanInOneWindow(page, 'a stranger’s pack', info);
    await page.getByLabel('File of a public key').setInputFiles(card);
    const dialog = page.getByRole('dialog', { name: 'Trust the key of Tern Works?' });
    await expect(dialog).toContainText(print);
    await axeCleanInOneWindow(page, 'a key to be trusted', info);
    await page.keyboard.press('Enter');
    await expect(keys.getByRole('row', { name: /^Tern Works/ })).toContainText(print);
    await page.getByLabel('Folder of a pack').setInputFiles(pack);
    await expect(asked).toContainText('whom the shop trusts.');
    await expect(page.getByRole('alert')).toHaveCount(0);
    await press(page, 'Put it in');
    await said(page, 'Put in: Wheels of the Squall works');
    await expect(page.getByRole('article', { name: head.title })).toContainText(
      `answered for by Squall works · licence CC-BY-4.0 · signed by Tern Works ${print}`,
    );
    await expect(page.getByRole('button', { name: `Sign ${head.title}` })).toHaveCount(0);
  });

  await test.step('a pack nobody signed is signed here, and goes out so', async () => {
    await press(page, 'Sign Vocabulary of the trade');
    await expect(page.getByRole('dialog')).toContainText('Saltmarsh Rotor & Fuel then answers for all that stands in it.');
    await axeCleanInOneWindow(page, 'a pack to be signed', info);
    await page.keyboard.press('Enter');
    await said(page, 'Signed: Vocabulary of the trade');
    const written = page.waitForEvent('download');
    await press(page, 'Write out Vocabulary of the trade');
    const file = path.join(data, 'words.zip');
    await (await written).saveAs(file);
    const inside = unzipSync(readFileSync(file));
    expect(JSON.parse(new TextDecoder().decode(inside['trade-vocabulary/signature.json']))).toMatchObject({
      signer: 'Saltmarsh Rotor & Fuel',
    });
  });

  await test.step('a key that is withdrawn stays in the list as that', async () => {
    await press(page, 'Withdraw the key of Tern Works');
    await press(page, 'Withdraw it');
    await expect(keys.getByRole('row', { name: /^Tern Works/ })).toContainText('withdrawn');
    await page.setViewportSize({ width: 1024, height: 700 });
    await keys.scrollIntoViewIfNeeded();
    await axeClean(page, 'keys, small', info);
    await page.getByLabel('Folder of a pack').setInputFiles(pack);
    await expect(page.getByRole('region', { name: 'The pack that was chosen' })).toContainText('a key the shop has withdrawn.');
  });
});
