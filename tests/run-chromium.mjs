import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { say } from '../electron/start/say.mjs';

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];
const usual = ['/Applications/Google Chrome.app/Contents/MacOS/Google Chrome', '/Applications/Chromium.app/Contents/MacOS/Chromium'];

/** The installed Chromium (or what $KINPLATE_CHROMIUM names), or null. */
export const findChromium = () => {
  const named = process.env.KINPLATE_CHROMIUM;
  if (named) return existsSync(named) ? named : null;
  const folders = (process.env.PATH ?? '').split(path.delimiter);
  const places = [...names.flatMap((name) => folders.map((folder) => path.join(folder, name))), ...usual];
  return places.find((place) => existsSync(place)) ?? null;
};

/** Finds a Chromium, or installs the system's own where that is allowed, or says what to do and gives null. */
export const installChromium = () => {
  const found = findChromium();
  if (found !== null) return found;
  if (process.platform === 'linux' && process.getuid() === 0 && existsSync('/usr/bin/apt-get')) {
    say('Installing Chromium from the system’s packages for the end-to-end tests (once) …');
    const apt = (...args) =>
      spawnSync('apt-get', args, { stdio: ['ignore', 'ignore', 'inherit'], env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } });
    apt('update', '-q');
    apt('install', '-y', '-q', '--no-install-recommends', 'chromium');
    const installed = findChromium();
    if (installed !== null) return installed;
  }
  console.error(
    [
      'The end-to-end tests need a Chromium, and none was found.',
      '  Debian, Ubuntu:  apt-get install chromium   (npm test does it itself when run as root)',
      '  elsewhere:       install Chromium or Chrome, or name one: KINPLATE_CHROMIUM=/path/to/chromium npm test',
    ].join('\n'),
  );
  return null;
};
