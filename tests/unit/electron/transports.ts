import { vi } from 'vitest';
import type { Bridge } from '../../../electron/bridge/contract.ts';
import type { Staff } from '../../../electron/desk/staff/staff.ts';
import { serve } from '../../../electron/hosts/loopback/serve.ts';

/** One way from a window's `window.desk` to a desk. */
export interface Transport {
  readonly bridge: Bridge;
  close(): Promise<void>;
}

export const transports: Readonly<Record<string, (staff: Staff) => Promise<Transport>>> = {
  'Electron IPC': (staff) => overIpc(staff),
  'loopback HTTP': (staff) => overHttp(staff),
};

type Handler = (event: unknown, ...args: unknown[]) => Promise<unknown>;
const handlers = new Map<string, Handler>();
const exposed = new Map<string, unknown>();
const heard = new Map<string, (event: unknown, message: unknown) => void>();
const sender = {
  id: 1,
  once: () => {},
  on: () => {},
  isDestroyed: () => false,
  send: (channel: string, message: unknown) => heard.get(channel)?.(null, structuredClone(message)),
};
const event = { sender, senderFrame: { url: 'kinplate://window/index.html', parent: null } };
vi.mock('electron', () => ({
  ipcMain: { handle: (channel: string, handler: Handler) => handlers.set(channel, handler) },
  ipcRenderer: {
    on: (channel: string, listener: (event: unknown, message: unknown) => void) => heard.set(channel, listener),
    invoke: async (channel: string, ...args: unknown[]) => structuredClone(await handlers.get(channel)?.(event, ...structuredClone(args))),
  },
  contextBridge: { exposeInMainWorld: (name: string, value: unknown) => exposed.set(name, value) },
}));

/** The real preload and the real main side, with Electron's channel between them doubled: what crosses is cloned, as Electron does. */
const overIpc = async (staff: Staff): Promise<Transport> => {
  const { setupDesk } = await import('../../../electron/hosts/electron/setup-desk.ts');
  setupDesk(staff);
  await import('../../../electron/hosts/electron/preload/preload.ts');
  return { bridge: exposed.get('desk') as Bridge, close: async () => void handlers.clear() };
};

/** The real host on a real port, and the real script it gives the page, with the browser's own few objects doubled. */
const overHttp = async (staff: Staff): Promise<Transport> => {
  const host = await serve({
    staff,
    rendered: new Map(),
    pageDesk: new Uint8Array(),
    port: 0,
    logBug: (_place, error) => Promise.reject(error),
  });
  const address = new URL(host.address());
  const kept = new Map<string, string>();
  const window: { desk?: Bridge } = {};
  const real = fetch;
  vi.resetModules();
  vi.stubGlobal('window', window);
  vi.stubGlobal('location', { hash: address.hash, pathname: '/', search: '' });
  vi.stubGlobal('history', { replaceState: () => {} });
  // A newer address in the same tab is a browser's affair; tests/e2e/start-faults.story.ts holds it.
  vi.stubGlobal('addEventListener', () => {});
  vi.stubGlobal('sessionStorage', {
    setItem: (key: string, value: string) => kept.set(key, value),
    getItem: (key: string) => kept.get(key) ?? null,
  });
  // A browser says where a call comes from; here the test says it for the page.
  vi.stubGlobal('fetch', (path: string, init: RequestInit) =>
    real(new URL(path, address.origin), { ...init, headers: { ...(init.headers as Record<string, string>), origin: address.origin } }),
  );
  await import('../../../electron/hosts/loopback/page/desk.ts');
  // The page's script enters at once, while the doubles are in place; its calls go on using them.
  return {
    bridge: window.desk as Bridge,
    close: async () => {
      vi.unstubAllGlobals();
      await host.close();
    },
  };
};
