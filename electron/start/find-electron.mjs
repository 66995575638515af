import { spawn } from 'node:child_process';
import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { say } from './say.mjs';
import { root } from './sources.mjs';

const home = path.join(root, 'node_modules', 'electron');

/** The Electron binary, or null. */
export const electronBinary = () => {
  const name = path.join(home, 'path.txt');
  if (!existsSync(name)) return null;
  const binary = path.join(home, 'dist', readFileSync(name, 'utf8').trim());
  return existsSync(binary) ? binary : null;
};

/** Whether a window can be shown at all. Linux says so by its variables; elsewhere a desktop is taken for granted. */
export const hasDisplay = () => process.platform !== 'linux' || Boolean(process.env.DISPLAY || process.env.WAYLAND_DISPLAY);

/** Written beside the packages when a fetch failed: without a network every start would wait for nothing. */
const triedFile = path.join(root, 'node_modules', '.kinplate-electron-tried');
const triedToday = () => existsSync(triedFile) && Date.now() - statSync(triedFile).mtimeMs < 24 * 3_600_000;

/**
 * Fetches the binary with the package's own installer when its host answers within five seconds. One try a day,
 * and a failed fetch is no failure: the loopback window does the same job.
 */
export const fetchElectron = async () => {
  if (triedToday()) return null;
  const binary = await tryToFetch();
  if (binary === null) {
    try {
      writeFileSync(triedFile, '');
    } catch {
      // Packages another user installed: the next start asks again.
    }
  }
  return binary;
};

const tryToFetch = async () => {
  const { version } = JSON.parse(readFileSync(path.join(home, 'package.json'), 'utf8'));
  const mirror =
    process.env.ELECTRON_MIRROR ?? process.env.npm_config_electron_mirror ?? 'https://github.com/electron/electron/releases/download/';
  try {
    const answer = await fetch(`${mirror.replace(/\/?$/, '/')}v${version}/SHASUMS256.txt`, {
      method: 'HEAD',
      signal: AbortSignal.timeout(5000),
    });
    if (!answer.ok) return null;
  } catch {
    return null;
  }
  say('Fetching Electron (once; about 100 MB) …');
  await new Promise((resolve) => {
    const child = spawn(process.execPath, ['install.js'], { cwd: home, stdio: 'ignore', timeout: 15 * 60_000 });
    child.once('close', resolve);
    child.once('error', resolve);
  });
  return electronBinary();
};
