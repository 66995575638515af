import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { say } from '../electron/start/say.mjs';
import { root } from '../electron/start/sources.mjs';

// First the one without a user interface: a story takes it half the processor time.
const names = ['chromium-headless-shell', 'chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];
const usual = ['/Applications/Google Chrome.app/Contents/MacOS/Google Chrome', '/Applications/Chromium.app/Contents/MacOS/Chromium'];

/** The installed Chromium (or what $KINPLATE_CHROMIUM names), or null. */
export const findChromium = () => {
  const named = process.env.KINPLATE_CHROMIUM;
  if (named) return existsSync(named) ? named : null;
  const folders = (process.env.PATH ?? '').split(path.delimiter);
  const places = [...names.flatMap((name) => folders.map((folder) => path.join(folder, name))), ...usual];
  return places.find((place) => existsSync(place)) ?? null;
};

/** Sees to a Chromium: the installed one, else the system's package where that is allowed, else Playwright's own. False when there is none. */
export const readyChromium = () => {
  if (findChromium() !== null) return true;
  if (process.platform === 'linux' && process.getuid() === 0 && existsSync('/usr/bin/apt-get')) {
    say('Installing Chromium from the system’s packages for the end-to-end tests (once) …');
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    const apt = (...args) => spawnSync('/usr/bin/apt-get', args, { stdio: ['ignore', 'ignore', 2], env });
    apt('update', '-q');
    apt('install', '-y', '-q', '--no-install-recommends', 'chromium-headless-shell');
    if (findChromium() === null) apt('install', '-y', '-q', '--no-install-recommends', 'chromium');
    if (findChromium() !== null) return true;
  }
  say('Fetching the Chromium of the test library for the end-to-end tests (once; about 150 MB) …');
  const fetched = spawnSync(process.execPath, ['node_modules/@playwright/test/cli.js', 'install', 'chromium'], {
    cwd: root,
    stdio: ['ignore', 'ignore', 2],
  });
  if (fetched.status === 0) return true;
  console.error(
    [
      'The end-to-end tests need a Chromium; none was found and none could be installed.',
      '  Debian, Ubuntu:  apt-get install chromium   (npm test does it itself when run as root)',
      '  elsewhere:       install Chromium or Chrome, or name one: KINPLATE_CHROMIUM=/path/to/chromium npm test',
    ].join('\n'),
  );
  return false;
};
