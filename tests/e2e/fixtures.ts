import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { test as base, expect, type Page } from '@playwright/test';
import { Connection } from '../../db/driver/connection.ts';
import { putBack } from '../unit/db/put-back.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The loopback host as it runs for a user, over a data folder. */
export interface RunningHost {
  /** The address for the next window, once the terminal has said one that was not given out before; its key works once. */
  address(): Promise<string>;
  /** Where it listens. */
  origin(): string;
  /** Everything it has said in its terminal. */
  said(): string;
  /** Stops it as Ctrl-C does; resolves to its exit code. */
  stop(): Promise<number | null>;
  /** Stops it and starts it again on the same data folder. */
  restart(): Promise<void>;
}

interface Fixtures {
  /** A fresh data folder with the demo atlas in it, gone after the test. */
  readonly data: string;
  readonly host: RunningHost;
  /** Lines the page wrote to its console as errors, and errors it threw. A story fails at its end when there is one. */
  readonly complaints: string[];
}

interface WorkerFixtures {
  /** A filled data folder made once, copied for every test; another than the demo world's where a run gives one. */
  readonly filled: string;
  /** A host that is started once and stays up for every story that only reads, or saves and leaves the program running. */
  readonly sharedHost: SharedHost;
}

interface SharedHost {
  readonly data: string;
  readonly host: RunningHost;
  /** A number that is another one after anything was written into the atlas file. */
  written(): Promise<number>;
  /** Undoes what the story before has saved. */
  asFilled(): Promise<void>;
}

/** A story with a program and a data folder of its own: it saves, starts anew, stops the program, or counts what is on the shelf. */
export const test = base.extend<Fixtures, WorkerFixtures>({
  filled: [
    // biome-ignore lint/correctness/noEmptyPattern: Playwright reads a fixture's needs from this pattern
    async ({}, use) => {
      const given = process.env.KINPLATE_FILLED;
      if (given !== undefined) return use(given);
      const folder = mkdtempSync(path.join(tmpdir(), 'kinplate-filled-'));
      execFileSync(process.execPath, [path.join(root, 'build', 'kinplate.js'), 'begin', 'invented', '--data', folder], { stdio: 'pipe' });
      await use(folder);
      rmSync(folder, { recursive: true, force: true });
    },
    { scope: 'worker' },
  ],

  sharedHost: [
    async ({ filled }, use) => {
      const data = mkdtempSync(path.join(tmpdir(), 'kinplate-shared-'));
      cpSync(filled, data, { recursive: true });
      const host = await startHost(data);
      const watch = await Connection.open(path.join(data, 'atlas.sqlite'), { mode: 'read', busyMs: 10_000 });
      const written = async () => (await watch.all<{ data_version: number }>('pragma data_version'))[0]?.data_version ?? Number.NaN;
      let clean = await written();
      const asFilled = async (): Promise<void> => {
        if ((await written()) === clean) return;
        for (const name of readdirSync(data))
          if (!stays.test(name) && !existsSync(path.join(filled, name))) rmSync(path.join(data, name), { recursive: true });
        await putBack(path.join(filled, 'atlas.sqlite'), path.join(data, 'atlas.sqlite'));
        clean = await written();
      };
      await use({ data, host, written, asFilled });
      // The last to close the file is the program, which leaves no journal beside it.
      await watch.close();
      await host.stop();
      rmSync(data, { recursive: true, force: true });
    },
    { scope: 'worker' },
  ],

  data: async ({ filled }, use) => {
    const folder = mkdtempSync(path.join(tmpdir(), 'kinplate-e2e-'));
    cpSync(filled, folder, { recursive: true });
    await use(folder);
    rmSync(folder, { recursive: true, force: true });
  },

  host: async ({ data }, use) => {
    const host = await startHost(data);
    await use(host);
    await host.stop();
  },

  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads a fixture's needs from this pattern
  complaints: async ({}, use) => {
    const complaints: string[] = [];
    await use(complaints);
    expect(complaints, 'the page wrote errors to its console').toEqual([]);
  },

  page: async ({ page, host, complaints }, use) => {
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(String(error)));
    // A chooser is handed to whoever listens only some time after the listening began; before, Chromium opens one of its own, which nobody answers.
    page.on('filechooser', () => undefined);
    await enterBy(page, host);
    await use(page);
  },
});

/** What a running program keeps beside its atlas. */
const stays = /^(atlas\.sqlite-(wal|shm)|logs|port|kept-reading-.*)$/;

/**
 * A story that saves, but leaves the atlas and the program as they are: it shares one program with every other such story of its worker, in a browser window of its
 * own. What it saved is undone before the next begins.
 */
export const saving = test.extend({
  data: async ({ sharedHost }, use) => use(sharedHost.data),

  host: async ({ sharedHost }, use) => {
    await sharedHost.asFilled();
    await use(sharedHost.host);
  },
});

/** A story that only reads, beside those that save. What it types stays in its window. It fails when anything was saved. */
export const reading = test.extend({
  data: async ({ sharedHost }, use) => use(sharedHost.data),

  host: async ({ sharedHost }, use) => {
    await sharedHost.asFilled();
    const before = await sharedHost.written();
    await use(sharedHost.host);
    expect(await sharedHost.written(), 'a story that only reads has saved something in the program it shares').toBe(before);
  },
});

/** Opens the window by the newest address, and waits until it has been let in: only then is there an address for another. */
export const enterBy = async (page: Page, host: RunningHost): Promise<void> => {
  await page.goto(await host.address());
  await page.waitForFunction(() => Object.keys(sessionStorage).some((key) => key !== 'kinplate.window'));
};

export { expect };

/** Starts `build/host.js` and waits until it has said its address, or has ended. */
export const startHost = async (
  data: string,
  more: readonly string[] = [],
  env: NodeJS.ProcessEnv = {},
  user: { readonly uid?: number; readonly gid?: number } = {},
): Promise<RunningHost> => {
  let child: ChildProcess;
  let said = '';
  let given = '';
  let heard = (): void => undefined;
  const newest = () => [...said.matchAll(/http:\/\/127\.0\.0\.1:\d+\/#\S+(?=\s)/g)].at(-1)?.[0] ?? '';
  const start = () => {
    said = '';
    child = spawn(process.execPath, [path.join(root, 'build', 'host.js'), '--data', data, ...more], {
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, ...env },
      ...user,
    });
    return new Promise<void>((resolve, reject) => {
      const hear = (chunk: Buffer) => {
        said += String(chunk);
        heard();
        if (/ at http:\/\/\S+\n/.test(said)) resolve();
      };
      child.stdout?.on('data', hear);
      child.stderr?.on('data', hear);
      child.once('error', reject);
      child.once('close', (code) => reject(new Error(`the host ended with ${code} before it was up:\n${said}`)));
    });
  };
  const stop = () =>
    new Promise<number | null>((resolve) => {
      if (child.exitCode !== null) return resolve(child.exitCode);
      child.once('close', (code) => resolve(code));
      child.kill('SIGINT');
    });
  await start();
  return {
    said: () => said,
    address: () =>
      new Promise((resolve) => {
        heard = () => {
          if (newest() === '' || newest() === given) return;
          given = newest();
          heard = () => undefined;
          resolve(given);
        };
        heard();
      }),
    origin: () => new URL(newest()).origin,
    stop,
    restart: async () => {
      await stop();
      await start();
    },
  };
};
