import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';

const chromiums = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];

export interface Opened {
  /** For the terminal. */
  readonly line: string;
  /** The browser, where its window is ours alone: a Chromium with a profile of its own. It ends when its window is closed. */
  readonly own: ChildProcess | null;
}

/**
 * Opens the address in the installed browser: in a window of its own where a Chromium is there, else in whatever opens
 * web addresses. The address holds a key that works once, so that reading this command line from another account is of no use.
 */
export const openBrowser = (address: string, profile: string): Opened => {
  if (process.platform === 'win32') return elsewhere('cmd', ['/c', 'start', '', address]);
  if (process.platform === 'darwin') return elsewhere('open', [address]);
  const chromium = onPath(chromiums);
  if (chromium !== null) {
    const root = process.getuid?.() === 0;
    const own = launch(chromium, [
      `--app=${address}`,
      `--user-data-dir=${profile}`,
      '--no-first-run',
      '--no-default-browser-check',
      ...(root ? ['--no-sandbox'] : []),
    ]);
    return { line: root ? `Opening ${chromium} (without its sandbox, which does not start for root).` : `Opening ${chromium}.`, own };
  }
  const opener = onPath(['xdg-open']);
  return opener === null ? { line: 'No browser was found: open the address above in one.', own: null } : elsewhere(opener, [address]);
};

const elsewhere = (program: string, args: readonly string[]): Opened => {
  launch(program, args).unref();
  return { line: 'Opening the browser.', own: null };
};

const onPath = (names: readonly string[]): string | null =>
  names
    .flatMap((name) => (process.env.PATH ?? '').split(path.delimiter).map((folder) => path.join(folder, name)))
    .find((place) => existsSync(place)) ?? null;

/** The browser's own lines do not belong in our terminal, and Ctrl-C there is not for it. */
const launch = (program: string, args: readonly string[]): ChildProcess => {
  const child = spawn(program, args, { detached: true, stdio: 'ignore' });
  child.once('error', (error) => console.error(`The browser did not start (${error.message}): open the address above in one.`));
  return child;
};
