import { EventEmitter } from 'node:events';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import type { CallName } from '../../../electron/bridge/contract.ts';
import type { Desk } from '../../../electron/bridge/desk.ts';
import { well } from '../../../electron/bridge/reply.ts';
import type { Staff } from '../../../electron/desk/staff/staff.ts';
import { staffOf } from './staff-of.ts';

/** Electron doubled: it records what the modules ask of it, so that every lock can be tried. */
const doubled = vi.hoisted(() => {
  const handlers = new Map<string, (...args: unknown[]) => unknown>();
  return {
    handlers,
    schemes: [] as unknown[],
    exposed: new Map<string, unknown>(),
    invoked: [] as unknown[][],
    listened: [] as string[],
    windows: [] as { options: Record<string, unknown>; loaded: string[] }[],
  };
});
vi.mock('electron', () => ({
  app: { on: (name: string, handler: (...args: unknown[]) => unknown) => doubled.handlers.set(`app ${name}`, handler) },
  protocol: {
    registerSchemesAsPrivileged: (schemes: unknown[]) => doubled.schemes.push(...schemes),
    handle: (scheme: string, handler: (...args: unknown[]) => unknown) => doubled.handlers.set(`scheme ${scheme}`, handler),
  },
  ipcMain: { handle: (channel: string, handler: (...args: unknown[]) => unknown) => doubled.handlers.set(`ipc ${channel}`, handler) },
  ipcRenderer: {
    on: (channel: string) => doubled.listened.push(channel),
    invoke: (...args: unknown[]) => {
      doubled.invoked.push(args);
      return Promise.resolve(new TextEncoder().encode(JSON.stringify({ ok: true, value: null })));
    },
  },
  contextBridge: { exposeInMainWorld: (name: string, value: unknown) => doubled.exposed.set(name, value) },
  BrowserWindow: class {
    readonly record: { options: Record<string, unknown>; loaded: string[] };
    constructor(options: Record<string, unknown>) {
      this.record = { options, loaded: [] };
      doubled.windows.push(this.record);
    }
    once() {}
    show() {}
    loadURL(address: string) {
      this.record.loaded.push(address);
      return Promise.resolve();
    }
  },
}));

const { declareScheme, setupScheme } = await import('../../../electron/hosts/electron/setup-scheme.ts');
const { setupLocks } = await import('../../../electron/hosts/electron/setup-locks.ts');
const { setupDesk } = await import('../../../electron/hosts/electron/setup-desk.ts');
const { openWindow } = await import('../../../electron/hosts/electron/setup-window.ts');
const { isOurs } = await import('../../../electron/hosts/electron/address.ts');

const handler = (name: string) => {
  const found = doubled.handlers.get(name);
  if (found === undefined) throw new Error(`nothing was set for ${name}`);
  return found;
};

beforeEach(() => {
  doubled.handlers.clear();
  doubled.windows.length = 0;
});

const strangers = [
  'https://window/index.html',
  'http://127.0.0.1/',
  'file:///etc/passwd',
  'kinplate://elsewhere/index.html',
  'kinplate://window.elsewhere/',
  'kinplate://window:8080/',
  'kinplate://user@window/',
  'javascript:alert(1)',
  'data:text/html,x',
  'about:blank',
  'not an address',
  '',
];

describe('addresses', () => {
  test.each(strangers)('[R3] %s is not ours', (address) => expect(isOurs(address)).toBe(false));
  test('[R3] the window’s own pages are ours', () => {
    expect(isOurs('kinplate://window/index.html#/atlas')).toBe(true);
    expect(isOurs('kinplate://window')).toBe(true);
  });
});

describe('the scheme', () => {
  const file = { type: 'text/html; charset=utf-8', body: new TextEncoder().encode('<!doctype html>') };
  const fetchPage = async (url: string, method = 'GET') => (await handler('scheme kinplate')(new Request(url, { method }))) as Response;
  beforeEach(() => setupScheme(new Map([['/index.html', file]])));

  test('[R3] the scheme is standard and secure, and may not bypass the security policy', () => {
    declareScheme();
    expect(doubled.schemes).toEqual([
      { scheme: 'kinplate', privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
    ]);
  });

  test('[R3] the page comes with its security policy', async () => {
    const page = await fetchPage('kinplate://window/');
    expect(await page.text()).toBe('<!doctype html>');
    expect(page.headers.get('content-security-policy')).toContain("script-src 'self';");
    expect(page.headers.get('content-security-policy')).not.toContain('unsafe');
  });

  test('[R3] only exact files of the built window are served', async () => {
    for (const path of ['/../package.json', '/%2e%2e/package.json', '/nothing.js', '//etc/passwd'])
      expect((await fetchPage(`kinplate://window${path}`)).status).toBe(404);
    expect((await fetchPage('kinplate://elsewhere/index.html')).status).toBe(403);
    expect((await fetchPage('kinplate://window/index.html', 'POST')).status).toBe(403);
  });
});

describe('locks', () => {
  type Handlers = Map<string, (...args: never[]) => unknown>;
  const makeSession = () => {
    const set: Handlers = new Map();
    const keep = (name: string) => (given: (...args: never[]) => unknown) => set.set(name, given);
    return {
      set,
      session: {
        setPermissionRequestHandler: keep('request'),
        setPermissionCheckHandler: keep('check'),
        setDevicePermissionHandler: keep('device'),
        on: (name: string, given: (...args: never[]) => unknown) => set.set(name, given),
      } as never,
    };
  };
  const makeContents = () => {
    const set: Handlers = new Map();
    const contents = {
      setWindowOpenHandler: (given: () => unknown) => set.set('open', given),
      on: (name: string, given: (...args: never[]) => unknown) => set.set(name, given),
    };
    handler('app web-contents-created')({}, contents);
    return set;
  };
  const attempt = (set: Handlers, name: string, url: string): boolean => {
    let prevented = false;
    (set.get(name) as (event: unknown) => void)({ url, preventDefault: () => (prevented = true) });
    return prevented;
  };

  test('[R3] every permission and every device is refused', () => {
    const { set, session } = makeSession();
    setupLocks(session);
    for (const permission of ['media', 'geolocation', 'notifications', 'clipboard-read', 'openExternal', 'something new']) {
      let answer: boolean | null = null;
      (set.get('request') as (...args: unknown[]) => void)(null, permission, (allowed: boolean) => {
        answer = allowed;
      });
      expect(answer).toBe(false);
      expect((set.get('check') as (...args: unknown[]) => unknown)(null, permission)).toBe(false);
    }
    expect((set.get('device') as (...args: unknown[]) => unknown)({ deviceType: 'usb' })).toBe(false);
  });

  test.each(strangers.filter((address) => address !== ''))('[R3] no page goes to %s, by link, frame or redirect', (address) => {
    setupLocks(makeSession().session);
    const set = makeContents();
    for (const way of ['will-navigate', 'will-frame-navigate', 'will-redirect']) expect(attempt(set, way, address)).toBe(true);
  });

  test('[R3] the window may move among its own pages', () => {
    setupLocks(makeSession().session);
    expect(attempt(makeContents(), 'will-navigate', 'kinplate://window/index.html')).toBe(false);
  });

  test('[R3] no second window is opened and no page embedded', () => {
    setupLocks(makeSession().session);
    const set = makeContents();
    expect((set.get('open') as (...args: unknown[]) => unknown)({ url: 'kinplate://window/index.html' })).toEqual({ action: 'deny' });
    expect(attempt(set, 'will-attach-webview', '')).toBe(true);
  });

  test('[R3] only a file the window made itself may be saved to disk', () => {
    const { set, session } = makeSession();
    setupLocks(session);
    const download = (url: string) => {
      let prevented = false;
      (set.get('will-download') as (...args: unknown[]) => void)({ preventDefault: () => (prevented = true) }, { getURL: () => url });
      return !prevented;
    };
    expect(download('blob:kinplate://window/0a1b')).toBe(true);
    for (const url of [
      'https://elsewhere.example/x',
      'blob:https://elsewhere.example/x',
      'blob:kinplate://elsewhere/x',
      'data:text/plain,x',
    ])
      expect(download(url)).toBe(false);
  });
});

describe('the desk’s channel', () => {
  const asked: unknown[] = [];
  const search = async (args: unknown) => {
    asked.push(args);
    return well([]);
  };
  const desk = { 'atlas.search': search } as unknown as Desk;
  const frame = (url: string, parent: unknown = null) => ({
    senderFrame: { url, parent },
    sender: { id: 1, once: () => {}, on: () => {} },
  });
  const ask = async (event: unknown, name: unknown, args: unknown) =>
    JSON.parse(
      new TextDecoder().decode((await handler('ipc desk')(event, name, JSON.stringify(args), { ask: 1, place: null })) as Uint8Array),
    );
  beforeEach(() => {
    asked.length = 0;
    setupDesk(staffOf(desk, () => {}));
  });
  const good = { text: 'tern', limit: 5 };

  test('[R3] the window’s top frame is answered', async () => {
    expect(await ask(frame('kinplate://window/index.html'), 'atlas.search' satisfies CallName, good)).toEqual({ ok: true, value: [] });
    expect(asked).toEqual([good]);
  });

  test.each([
    ['a page of another address', frame('https://elsewhere.example/')],
    ['another host of our scheme', frame('kinplate://elsewhere/')],
    ['a frame inside our page', frame('kinplate://window/', { url: 'kinplate://window/' })],
    ['a frame that has gone away', { senderFrame: null }],
  ])('[R3] %s is refused and the desk is not asked', async (_who, event) => {
    expect(await ask(event, 'atlas.search', good)).toMatchObject({ ok: false, trouble: { code: 'refused' } });
    expect(asked).toEqual([]);
  });

  test('[B3] [B5] a window that is loaded anew, breaks down or is closed takes its questions with it; the others are told of another atlas', async () => {
    const left: string[] = [];
    let changed = (): void => {};
    const staff: Staff = {
      ...staffOf(desk, () => {}),
      leave: (window) => left.push(window),
      onAtlasChanged: (listener) => {
        changed = listener;
        return () => {};
      },
    };
    setupDesk(staff);
    const windowOf = (id: number) => {
      const sent: unknown[] = [];
      return {
        sent,
        window: Object.assign(new EventEmitter(), { id, isDestroyed: () => false, send: (...all: unknown[]) => sent.push(all) }),
      };
    };
    const [one, other] = [windowOf(7), windowOf(8)];
    for (const { window } of [one, other, one]) await ask({ ...frame('kinplate://window/'), sender: window }, 'atlas.search', good);
    one.window.emit('did-navigate');
    one.window.emit('render-process-gone');
    expect(left).toEqual(['7', '7']);
    changed();
    one.window.emit('destroyed');
    expect(left).toEqual(['7', '7', '7']);
    changed();
    const news = ['desk-news', { kind: 'atlas changed' }];
    expect([one.sent, other.sent]).toEqual([[news], [news, news]]);
  });

  test('[R3] what arrives is unknown until parsed: neither name nor argument is trusted', async () => {
    for (const name of ['__proto__', 'toString', 7, null, { toString: () => 'atlas.search' }])
      expect(await ask(frame('kinplate://window/'), name, good)).toMatchObject({ ok: false, trouble: { code: 'no-such-call' } });
    for (const args of [undefined, null, 7, [], { text: 7, limit: 5 }, { text: 'x', limit: 5, more: 1 }, { text: 'x', limit: 1e9 }])
      expect(await ask(frame('kinplate://window/'), 'atlas.search', args)).toMatchObject({ ok: false, trouble: { code: 'malformed' } });
    expect(asked).toEqual([]);
  });
});

describe('the window', () => {
  test('[R3] it is sandboxed and isolated and sees Node nowhere', async () => {
    await openWindow('/build');
    expect(doubled.windows[0]?.options.webPreferences).toMatchObject({
      preload: '/build/preload.cjs',
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
    });
    expect(doubled.windows[0]?.loaded).toEqual(['kinplate://window/index.html']);
  });

  test('[R3] the preload gives the page three functions and no way to another channel', async () => {
    await import('../../../electron/hosts/electron/preload/preload.ts');
    expect([...doubled.exposed.keys()]).toEqual(['desk']);
    const desk = doubled.exposed.get('desk') as {
      ask(name: string, args: unknown, how?: unknown): Promise<unknown>;
      cancel(place: string): void;
    };
    expect(Object.keys(desk)).toEqual(['ask', 'cancel', 'onAtlasChanged']);
    expect(await desk.ask('shell.open', { path: '/' })).toEqual({ ok: true, value: null });
    await desk.ask('shell.open', {}, { place: 'here', onProgress: () => {} });
    desk.cancel('here');
    expect(doubled.invoked).toEqual([
      ['desk', 'shell.open', '{"path":"/"}', { ask: 1, place: null }],
      ['desk', 'shell.open', '{}', { ask: 2, place: 'here' }],
      ['desk-cancel', { ask: 2, place: 'here' }],
    ]);
    expect(doubled.listened).toEqual(['desk-news']);
  });
});
