import { chmodSync, existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from '@playwright/test';
import { expect, startHost, test } from './fixtures.ts';

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

  test('[P5] an atlas that is gone: terminal and window say what there is and what can be done, and none is made', async ({
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
    await expect(page.getByRole('heading', { name: 'Kinplate could not start' })).toBeVisible();
    await expect(page.getByText('there was an atlas here')).toBeVisible();
    await expect(page.getByText('To begin anew with an empty shelf')).toBeVisible();
    expect(await host.stop()).toBe(3);
    expect(existsSync(file)).toBe(false);
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
