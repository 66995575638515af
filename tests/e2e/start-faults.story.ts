import { chmodSync, existsSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from '@playwright/test';
import { axeClean } from './axe-clean.ts';
import { expect, startHost, test } from './fixtures.ts';
import { tabTo } from './keyboard.ts';

const saved = {
  id: 'own-01',
  title: 'Kept over a bad day',
  story: '',
  kind: 'found',
  claimed: null,
  claimedMaker: null,
  observations: [],
  absent: [],
  chosen: {},
} as const;
const save = (page: Page) => page.evaluate((sheet) => window.desk.ask('sheets.save', { sheet, madeAgainst: null }), saved);

/** With `--open` and no browser to be found, the host stays up and shows its page to whoever comes. */
const noBrowser = { PATH: '/nowhere' };

test.describe('an atlas that cannot be opened', () => {
  test('[R4] a damaged atlas: the terminal and the window say so, the file stays as it was', async ({ data, browser }) => {
    const file = path.join(data, 'atlas.sqlite');
    const bytes = readFileSync(file).fill(0x5a, 0, 8192);
    writeFileSync(file, bytes);

    const refused = await startHost(data).catch((error: Error) => error.message);
    expect(refused).toContain('ended with 3');
    expect(refused).toContain('The atlas file is damaged');

    const host = await startHost(data, ['--open'], noBrowser);
    const page = await (await browser.newContext()).newPage();
    await page.goto(await host.address());
    await expect(page.getByRole('heading', { name: 'Kinplate could not start' })).toBeVisible();
    await expect(page.getByText('The atlas file is damaged')).toBeVisible();
    expect(await page.locator('script').count()).toBe(0);
    expect(await host.stop()).toBe(3);
    expect(readFileSync(file).equals(bytes)).toBe(true);
  });

  test('[P5] an atlas that is gone: terminal and window say what there is and what can be done, and none is made unasked', async ({
    data,
    browser,
  }) => {
    const file = path.join(data, 'atlas.sqlite');
    rmSync(file);
    const refused = await startHost(data).catch((error: Error) => error.message);
    expect(refused).toContain('ended with 3');
    expect(refused).toContain('The atlas file is gone, and there was an atlas here');
    expect(refused).toContain(`restore newest --yes --data "${data}"`);

    const host = await startHost(data, ['--open'], noBrowser);
    const page = await (await browser.newContext()).newPage();
    await page.goto(await host.address());
    await expect(page.getByRole('heading', { name: 'The atlas is gone' })).toBeVisible();
    await expect(page.getByText('there was an atlas here')).toBeVisible();
    await expect(page.getByText('There is no backup here that can be read.')).toBeVisible();
    // Whatever else is asked is told why it cannot be answered, and a file is not named by its path.
    const ask = (name: string) => page.evaluate((named) => window.desk.ask('backups.restore', { name: named, madeAgainst: null }), name);
    expect(await page.evaluate(() => window.desk.ask('sheets.list', {}))).toMatchObject({ ok: false, trouble: { code: 'atlas-missing' } });
    for (const name of ['newest', path.join(data, 'began-here.txt')])
      expect(await ask(name)).toMatchObject({ ok: false, trouble: { code: 'not-found' } });
    expect(await host.stop()).toBe(3);
    expect(existsSync(file)).toBe(false);
  });

  test('[P5] an atlas that is gone: a backup is put back from the window, the newest or another, or another atlas is begun; nothing is deleted', async ({
    page,
    host,
    data,
    browser,
  }, info) => {
    const file = path.join(data, 'atlas.sqlite');
    const made = () => page.evaluate(() => window.desk.ask('backups.make', {}));
    expect(await made()).toMatchObject({ ok: true });
    expect(await save(page)).toMatchObject({ ok: true });
    expect(await made()).toMatchObject({ ok: true });
    await page.close();
    expect(await host.stop()).toBe(0);
    const backups = () => readdirSync(path.join(data, 'backups')).sort();
    const before = backups();
    expect(before).toHaveLength(2);
    const away = `${file}.moved`;
    const gone = async () => {
      renameSync(file, away);
      const started = await startHost(data, ['--open'], noBrowser);
      const context = await browser.newContext({ viewport: { width: 1024, height: 700 } });
      const window = await context.newPage();
      await window.goto(await started.address());
      await expect(window.getByRole('heading', { name: 'The atlas is gone' })).toBeVisible();
      return { started, window };
    };
    const sheet = (of: Page) => of.evaluate((id) => window.desk.ask('sheets.open', { id }), saved.id);

    const newest = await gone();
    await expect(newest.window.getByText('A copy of it becomes the atlas; the backup stays where it is.')).toBeVisible();
    await axeClean(newest.window, 'an atlas that is gone', info);
    await tabTo(newest.window, newest.window.getByRole('button', { name: 'Put the newest backup back' }));
    await newest.window.keyboard.press('Enter');
    await expect(newest.window.getByRole('navigation', { name: 'Screens' })).toBeVisible();
    expect(await sheet(newest.window)).toMatchObject({ ok: true, value: { sheet: saved } });
    // It is the atlas from now on: what is entered is kept, and another window finds it.
    const second = await newest.window.context().newPage();
    await second.goto(await newest.started.address());
    await expect(second.getByRole('navigation', { name: 'Screens' })).toBeVisible();
    expect(await newest.started.stop()).toBe(0);
    expect(backups()).toEqual(before);
    rmSync(away);

    const another = await gone();
    await tabTo(another.window, another.window.getByRole('button', { name: 'Choose another backup…' }));
    await another.window.keyboard.press('Enter');
    const older = another.window.getByRole('button', { name: /^What would come back/ }).last();
    await older.press('Enter');
    await expect(another.window.getByRole('table', { name: 'What would come back, go, and be as it was then' })).toBeVisible();
    await another.window.getByRole('button', { name: 'Put it back…' }).press('Enter');
    await another.window.getByRole('dialog').getByRole('button', { name: 'Put it back', exact: true }).press('Enter');
    await expect(another.window.getByRole('navigation', { name: 'Screens' })).toBeVisible();
    expect(await sheet(another.window)).toMatchObject({ ok: false, trouble: { code: 'not-found' } });
    expect(await another.started.stop()).toBe(0);
    rmSync(away);

    const anew = await gone();
    await tabTo(anew.window, anew.window.getByRole('button', { name: 'Begin anew' }));
    await anew.window.keyboard.press('Enter');
    await expect(anew.window.getByRole('heading', { name: 'What shall this atlas begin with?' })).toBeVisible();
    expect(await anew.started.stop()).toBe(0);
    expect([existsSync(file), existsSync(away)]).toEqual([true, true]);
    expect(backups()).toEqual(before);
  });

  test('[R4] a read-only atlas is shown and judged from; saving says why it cannot, and loses nothing', async ({ data, browser }) => {
    test.skip(process.platform === 'win32', 'permissions are set otherwise there');
    const root = process.getuid?.() === 0;
    for (const name of readdirSync(data)) chmodSync(path.join(data, name), 0o444);
    chmodSync(data, 0o555);
    const host = await startHost(data, [], {}, root ? { uid: 65_534, gid: 65_534 } : {}).catch((error: Error) => {
      // Root's own clone may lie where no other user can read it; nobody then cannot run the program at all.
      test.skip(root && /EACCES|Cannot find module|permission denied/i.test(error.message), 'another user cannot read this clone');
      throw error;
    });
    try {
      const page = await (await browser.newContext()).newPage();
      await page.goto(await host.address());
      expect(await page.evaluate(() => window.desk.ask('atlas.vocabulary', {}))).toMatchObject({ ok: true });
      expect(await save(page)).toMatchObject({ ok: false, trouble: { code: 'database-read-only' } });
      expect(await page.evaluate(() => window.desk.ask('sheets.list', {}))).toMatchObject({ ok: true });
    } finally {
      await host.stop();
      chmodSync(data, 0o755);
    }
  });
});

test.describe('stopping', () => {
  test('[R4] Ctrl-C closes the atlas: no journal is left beside it, and what was saved is there next time', async ({
    page,
    host,
    data,
    complaints,
  }) => {
    expect(await save(page)).toMatchObject({ ok: true });
    expect(await host.stop()).toBe(0);
    expect(readdirSync(data).filter((name) => name.startsWith('atlas'))).toEqual(['atlas.sqlite']);
    await host.restart();
    await page.goto(await host.address());
    // The same tab, the same port: only the key in the address is new, and the window takes it up.
    await expect
      .poll(() => page.evaluate((id) => window.desk.ask('sheets.open', { id }), saved.id).catch(() => null))
      .toMatchObject({ ok: true, value: { sheet: saved } });
    // While the program was gone the window may have asked it in vain.
    complaints.length = 0;
  });

  test('[R4] a port in use is said, and nothing is left behind', async ({ host, data }) => {
    const { port } = new URL(host.origin());
    const refused = await startHost(data, ['--port', port]).catch((error: Error) => error.message);
    expect(refused).toContain(`Port ${port} is in use`);
    expect(statSync(data).isDirectory()).toBe(true);
  });
});
