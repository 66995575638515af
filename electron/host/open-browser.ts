import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';

const chromiums = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];

/**
 * Opens the address in the installed browser: in a window of its own where a Chromium is there, else in whatever opens
 * web addresses. Resolves to a line for the terminal. The address holds a key that works once, so that reading
 * this command line from another account is of no use.
 */
export const openBrowser = (address: string, profile: string): string => {
  if (process.platform === 'win32') {
    launch('cmd', ['/c', 'start', '', address]);
    return 'Opening the browser.';
  }
  if (process.platform === 'darwin') {
    launch('open', [address]);
    return 'Opening the browser.';
  }
  const chromium = onPath(chromiums);
  if (chromium !== null) {
    const root = process.getuid?.() === 0;
    launch(chromium, [
      `--app=${address}`,
      `--user-data-dir=${profile}`,
      '--no-first-run',
      '--no-default-browser-check',
      ...(root ? ['--no-sandbox'] : []),
    ]);
    return root ? `Opening ${chromium} (without its sandbox, which does not start for root).` : `Opening ${chromium}.`;
  }
  const opener = onPath(['xdg-open']);
  if (opener === null) return 'No browser was found: open the address above in one.';
  launch(opener, [address]);
  return 'Opening the browser.';
};

const onPath = (names: readonly string[]): string | null =>
  names
    .flatMap((name) => (process.env.PATH ?? '').split(path.delimiter).map((folder) => path.join(folder, name)))
    .find((place) => existsSync(place)) ?? null;

/** Started and left alone: the browser's own lines do not belong in our terminal, and it may outlive us. */
const launch = (program: string, args: readonly string[]): void => {
  const child = spawn(program, args, { detached: true, stdio: 'ignore' });
  child.once('error', (error) => console.error(`The browser did not start (${error.message}): open the address above in one.`));
  child.unref();
};
