import type { EventEmitter } from 'node:events';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { startMain } from '../../../electron/hosts/electron/start-main.ts';
import { builtWorker } from './built-worker.ts';

/** Electron doubled as far as the life of the process needs it; what was asked of it, in order, is in `asked`. */
const doubled = vi.hoisted(() => ({
  asked: [] as string[],
  alone: true,
  handlers: new Map<string, (...args: unknown[]) => unknown>(),
  app: null as unknown as EventEmitter,
  exited: null as number | null,
  exit: (_code: number) => {},
}));
vi.mock('electron', async () => {
  const { EventEmitter } = await import('node:events');
  const app = Object.assign(new EventEmitter(), {
    setPath: (name: string, to: string) => doubled.asked.push(`path ${name} ${path.basename(to)}`),
    enableSandbox: () => doubled.asked.push('sandbox'),
    requestSingleInstanceLock: () => doubled.alone,
    whenReady: async () => void doubled.asked.push('ready'),
    exit: (code: number) => {
      doubled.exited = code;
      doubled.exit(code);
    },
    quit: () => app.emit('will-quit', { preventDefault: () => doubled.asked.push('quit held') }),
  });
  doubled.app = app;
  const session = Object.assign(new EventEmitter(), {
    setPermissionRequestHandler: () => doubled.asked.push('permissions'),
    setPermissionCheckHandler: () => {},
    setDevicePermissionHandler: () => {},
  });
  return {
    app,
    session: { defaultSession: session },
    protocol: {
      registerSchemesAsPrivileged: () => doubled.asked.push('scheme declared'),
      handle: (name: string, handler: (...args: unknown[]) => unknown) => {
        doubled.asked.push('scheme');
        doubled.handlers.set(name, handler);
      },
    },
    ipcMain: {
      handle: (name: string, handler: (...args: unknown[]) => unknown) => {
        doubled.asked.push(name);
        doubled.handlers.set(name, handler);
      },
    },
    BrowserWindow: class {
      once() {}
      show() {}
      isMinimized = () => false;
      focus = () => doubled.asked.push('focus');
      loadURL = async (address: string) => void doubled.asked.push(`load ${address}`);
    },
  };
});

const smallPack = path.join(import.meta.dirname, '../db/fixtures/small-pack');
let scratch: string;
let data: string;
beforeEach(() => {
  scratch = mkdtempSync(path.join(tmpdir(), 'kinplate-main-'));
  data = path.join(scratch, 'data');
  cpSync(smallPack, path.join(scratch, 'packs', 'small-pack'), { recursive: true });
  mkdirSync(path.join(scratch, 'build', 'renderer'), { recursive: true });
  writeFileSync(path.join(scratch, 'build', 'renderer', 'index.html'), '<!doctype html><title>the window</title>');
  Object.assign(doubled, { asked: [], alone: true, exited: null, exit: () => {} });
  doubled.handlers.clear();
  // The test's own process has a channel of its own to whoever runs it.
  vi.spyOn(process, 'send').mockImplementation((message: unknown) => {
    doubled.asked.push(`said ${JSON.stringify(message)}`);
    return true;
  });
  vi.spyOn(console, 'log').mockImplementation(() => {});
  vi.spyOn(console, 'error').mockImplementation(() => {});
});
afterEach(() => {
  doubled.app.removeAllListeners();
  rmSync(scratch, { recursive: true, force: true });
  vi.restoreAllMocks();
});

const start = async (...more: string[]) =>
  startMain(['--data', data, ...more], path.join(scratch, 'build'), path.join(scratch, 'packs'), await builtWorker());
const end = () =>
  new Promise<number>((resolve) => {
    doubled.exit = resolve;
    doubled.app.emit('window-all-closed');
  });
const page = async () => {
  const serve = doubled.handlers.get('kinplate');
  if (serve === undefined) throw new Error('nothing serves the window');
  return ((await serve(new Request('kinplate://window/'))) as Response).text();
};
const ask = async (name: string): Promise<unknown> => {
  const event = { senderFrame: { url: 'kinplate://window/', parent: null }, sender: { id: 1, once: () => {}, on: () => {} } };
  const text = (await doubled.handlers.get('desk')?.(event, name, '{}', { ask: 1, place: null })) as Uint8Array;
  return JSON.parse(new TextDecoder().decode(text));
};

test('[R4] sandbox and scheme come before ready, locks before the window', async () => {
  await start();
  expect(doubled.asked).toEqual([
    'path userData window',
    'sandbox',
    'scheme declared',
    'ready',
    'permissions',
    'scheme',
    'desk',
    'desk-cancel',
    'load kinplate://window/index.html',
    'said {"kind":"window open"}',
  ]);
  expect(await page()).toContain('the window');
  expect(await ask('atlas.vocabulary')).toMatchObject({ ok: true, value: { packs: [] } });
  await end();
});

test('[R4] closing the last window closes the atlas first: no journal is left beside it', async () => {
  await start();
  expect(await end()).toBe(0);
  expect(doubled.asked.at(-1)).toBe('quit held');
  // Beside it only what was slow is written down.
  expect(readdirSync(data).filter((name) => name.startsWith('atlas'))).toEqual(['atlas.sqlite']);
});

test('[R4] an atlas that cannot be opened: the window tells it, no call is answered, and the exit code says so', async () => {
  mkdirSync(data);
  writeFileSync(path.join(data, 'atlas.sqlite'), 'a letter to the harbour master, long enough to be no database at all');
  await start();
  expect(await page()).toContain('Kinplate could not start');
  expect(doubled.handlers.has('desk')).toBe(false);
  expect(console.error).toHaveBeenCalledWith(expect.stringMatching(/atlas/));
  expect(await end()).toBe(3);
});

test('[R4] a second start on one data folder makes way for the first', async () => {
  doubled.alone = false;
  await start();
  expect(doubled.exited).toBe(0);
  expect(doubled.asked).not.toContain('ready');
  expect(existsSync(data)).toBe(false);
});

test('[R4] the first window comes forward when a second start was asked for', async () => {
  await start();
  doubled.app.emit('second-instance');
  expect(doubled.asked.at(-1)).toBe('focus');
  await end();
});

test('[T1] a command line it cannot read ends it before anything is opened', async () => {
  await start('--colour');
  expect(doubled.exited).toBe(64);
  expect(doubled.asked).toEqual([]);
});
