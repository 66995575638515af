import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, realpathSync, rmSync } from 'node:fs';
import { homedir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { writeWindowNote } from './window-note.ts';

const chromiums = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];

export interface Opened {
  /** For the terminal. */
  readonly line: string;
  /** The browser, where its window is ours alone: a Chromium with a profile of its own. It ends when its window is closed. */
  readonly own: ChildProcess | null;
  /** To be called when a window has been let in, and when the program ends: nothing leads to the address any more. */
  forget(): void;
}

/**
 * Opens the address in the installed browser: in a window of its own where a Chromium is there, else in whatever opens web pages. No command line holds the address: the
 * browser is given a file that leads there (`window-note.ts`), in the data folder, or where a browser in a sandbox of its own can read it.
 */
export const openBrowser = (address: string, data: string): Opened => {
  const chromium = process.platform === 'linux' ? onPath(chromiums) : null;
  const opener = openerOf();
  if (chromium === null && opener === null) return unopened('No browser was found: open the address above in one.');
  try {
    if (chromium !== null) {
      const home = homeOf(chromium, data);
      const note = writeWindowNote(home, address);
      const root = process.getuid?.() === 0;
      const own = launch(chromium, [
        `--app=${pathToFileURL(note.file).href}`,
        `--user-data-dir=${path.join(home, 'browser')}`,
        '--no-first-run',
        '--no-default-browser-check',
        ...(root ? ['--no-sandbox'] : []),
      ]);
      const line = root ? `Opening ${chromium} (without its sandbox, which does not start for root).` : `Opening ${chromium}.`;
      return { line, own, forget: note.remove };
    }
    // A browser that a package keeps in a sandbox sees no folder whose name begins with a dot, and no /tmp of ours.
    const folder = process.platform === 'linux' ? mkdtempSync(path.join(homedir(), 'kinplate-window-')) : data;
    const note = writeWindowNote(folder, address);
    launch(...(opener as Opener)(note.file)).unref();
    const forget = () => (folder === data ? note.remove() : rmSync(folder, { recursive: true, force: true }));
    return { line: 'Opening the browser.', own: null, forget };
  } catch (error) {
    return unopened(`The browser was not opened (${error instanceof Error ? error.message : error}): open the address above in one.`);
  }
};

const unopened = (line: string): Opened => ({ line, own: null, forget: () => {} });

type Opener = (file: string) => readonly [program: string, args: readonly string[]];

const openerOf = (): Opener | null => {
  if (process.platform === 'win32') return (file) => ['cmd', ['/c', 'start', '', file]];
  if (process.platform === 'darwin') return (file) => ['open', [file]];
  const opener = onPath(['xdg-open']);
  return opener === null ? null : (file) => [opener, [file]];
};

/** Where a Chromium may read and keep what is its own: of one from a snap, the folder snapd gives it; else the data folder. */
const homeOf = (chromium: string, data: string): string =>
  realpathSync(chromium).split(path.sep).includes('snap') || path.basename(realpathSync(chromium)) === 'snap'
    ? path.join(homedir(), 'snap', path.basename(chromium), 'common', 'kinplate')
    : data;

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
