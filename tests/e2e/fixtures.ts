import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { test as base, expect } from '@playwright/test';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The loopback host as it runs for a user, over a data folder of its own. */
export interface RunningHost {
  /** The address for the next window; its key works once. */
  address(): string;
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
  /** A filled data folder made once, copied for every test. */
  readonly filled: string;
}

export const test = base.extend<Fixtures, WorkerFixtures>({
  filled: [
    // biome-ignore lint/correctness/noEmptyPattern: Playwright reads a fixture's needs from this pattern
    async ({}, use) => {
      const folder = mkdtempSync(path.join(tmpdir(), 'kinplate-filled-'));
      const host = await startHost(folder);
      expect(await host.stop(), 'the host closes its atlas when it is asked to stop').toBe(0);
      await use(folder);
      rmSync(folder, { recursive: true, force: true });
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
    await page.goto(host.address());
    await use(page);
  },
});

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
    address: () => [...said.matchAll(/http:\/\/127\.0\.0\.1:\d+\/#\S+/g)].at(-1)?.[0] ?? '',
    stop,
    restart: async () => {
      await stop();
      await start();
    },
  };
};
