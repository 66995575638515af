import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { _electron, expect } from '@playwright/test';
import { test } from './fixtures.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const home = path.join(root, 'node_modules', 'electron');

/** Why Electron cannot run here, or null. */
const cannotRun = (): string | null => {
  const name = path.join(home, 'path.txt');
  if (!existsSync(name) || !existsSync(path.join(home, 'dist', readFileSync(name, 'utf8').trim())))
    return 'Electron’s binary is not installed here (npx install-electron fetches it)';
  if (process.platform === 'linux' && !process.env.DISPLAY && !process.env.WAYLAND_DISPLAY) return 'there is no display here';
  if (process.platform === 'linux' && process.getuid?.() === 0) return 'Electron’s sandbox does not start for root';
  return null;
};

test('[R3] the Electron window answers calls, is isolated, and goes nowhere else', async ({ data }) => {
  const why = cannotRun();
  test.skip(why !== null, why ?? '');
  const app = await _electron.launch({ args: [path.join(root, 'build', 'main.js'), '--data', data] });
  try {
    const page = await app.firstWindow();
    expect(page.url()).toBe('kinplate://window/index.html');
    await expect(page.getByRole('heading').first()).toBeVisible();
    expect(await page.evaluate(() => window.desk.ask('atlas.vocabulary', {}))).toMatchObject({ ok: true });
    expect(
      await page.evaluate(() => [
        typeof (globalThis as { require?: unknown }).require,
        typeof (globalThis as { process?: unknown }).process,
      ]),
    ).toEqual(['undefined', 'undefined']);
    await page.evaluate(() => {
      location.href = 'https://elsewhere.example/';
      window.open('https://elsewhere.example/');
    });
    expect(page.url()).toMatch(/^kinplate:\/\/window\//);
    expect(app.windows()).toHaveLength(1);
    expect(await page.evaluate(() => Notification.requestPermission())).toBe('denied');
  } finally {
    await app.close();
  }
});
