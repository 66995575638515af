import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type Opened, openBrowser } from '../../../electron/hosts/loopback/open-browser.ts';

const key = 'Wm9vIGtlZXBzIGEgc2VjcmV0IGtleSBmb3IgdXMhISE';
const address = `http://127.0.0.1:9/#${key}`;

let folder: string;
let data: string;
let opened: Opened | null = null;
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'kinplate-browser-'));
  data = path.join(folder, 'data');
  for (const each of ['bin', 'home', 'data']) mkdirSync(path.join(folder, each), { mode: 0o755 });
  vi.stubEnv('PATH', path.join(folder, 'bin'));
  vi.stubEnv('HOME', path.join(folder, 'home'));
});
afterEach(() => {
  opened?.own?.kill('SIGKILL');
  opened?.forget();
  opened = null;
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true, force: true });
});

/** A stand-in for a browser: writes down what others can see of it while it runs, and reads the page it was given. */
const standIn = (name: string) => {
  const file = path.join(folder, 'bin', name);
  const said = path.join(folder, 'said');
  const program = `
const fs = require('node:fs');
const given = process.argv.find((each) => each.includes('open-window'));
const file = given.replace(/^--app=/, '').replace(/^file:\\/\\//, '');
const seen = { cmdline: fs.readFileSync('/proc/' + process.pid + '/cmdline', 'utf8').split('\\0'), file: decodeURIComponent(file), page: fs.readFileSync(decodeURIComponent(file), 'utf8'), environ: fs.readFileSync('/proc/self/environ', 'utf8') };
fs.writeFileSync(${JSON.stringify(`${said}.part`)}, JSON.stringify(seen));
fs.renameSync(${JSON.stringify(`${said}.part`)}, ${JSON.stringify(said)});
setTimeout(() => {}, 10000);
`;
  writeFileSync(`${file}.cjs`, program);
  writeFileSync(file, `#!/bin/sh\nexec ${process.execPath} ${file}.cjs "$@"\n`, { mode: 0o755 });
  return async () => {
    await vi.waitFor(() => expect(existsSync(said)).toBe(true), { timeout: 60_000, interval: 20 });
    return JSON.parse(readFileSync(said, 'utf8')) as { cmdline: string[]; file: string; page: string; environ: string };
  };
};
const modeOf = (at: string) => (statSync(at).mode & 0o777).toString(8);

describe.skipIf(process.platform !== 'linux')('the window’s key', () => {
  test.each(['chromium', 'chromium-browser', 'google-chrome', 'xdg-open'])(
    '[R7] stands on no command line: %s is given a file only its user may read, which leads to the window and then goes',
    async (name) => {
      const seen = standIn(name);
      opened = openBrowser(address, data);
      const { cmdline, file, page, environ } = await seen();
      expect(cmdline.join(' ')).not.toContain(key);
      expect(environ).not.toContain(key);
      expect(page).toContain(`url=${address}"`);
      expect([modeOf(file), modeOf(path.dirname(file))].join()).toBe(name === 'xdg-open' ? '600,700' : '600,755');
      if (opened.own !== null) expect(readFileSync(`/proc/${opened.own.pid}/cmdline`, 'utf8')).not.toContain(key);
      opened.forget();
      expect(existsSync(file)).toBe(false);
      expect(readdirSync(path.join(folder, 'home'))).toEqual([]);
      opened.own?.kill('SIGKILL');
    },
  );

  test('[R7] a browser in a sandbox of its own is given its file where it can read it', async () => {
    mkdirSync(path.join(folder, 'bin', 'snap'));
    vi.stubEnv('PATH', path.join(folder, 'bin', 'snap'));
    const seen = standIn('snap/chromium');
    opened = openBrowser(address, data);
    const { file } = await seen();
    expect(path.dirname(file)).toBe(path.join(folder, 'home', 'snap', 'chromium', 'common', 'kinplate'));
  });

  test('[R7] where no file can be written, nothing is opened, and it is said', () => {
    standIn('chromium');
    writeFileSync(path.join(folder, 'no folder'), '');
    opened = openBrowser(address, path.join(folder, 'no folder'));
    expect(opened).toMatchObject({ own: null, line: expect.stringContaining('open the address above') });
    expect(opened.line).not.toContain(key);
  });

  test('[R7] without a browser it is said, and nothing is left behind', () => {
    opened = openBrowser(address, data);
    expect(opened.line).toBe('No browser was found: open the address above in one.');
    expect(readdirSync(data)).toEqual([]);
  });
});
