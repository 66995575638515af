import type { Bridge, CallArgs, CallName, Reply } from '../../../bridge/contract.ts';
import { trouble } from '../../../bridge/reply.ts';

/**
 * Puts `window.desk` in place in a browser, as the preload does under Electron. The key in the address is taken out of
 * it at once and handed in for this window's token, which session storage keeps over a reload: it belongs to this
 * origin, port included, and to this tab.
 */
const kept = 'kinplate-token';

/** The key the address holds, if it holds one; the window's own places begin with a stroke. */
const keyInAddress = (): string | null => {
  const key = location.hash.slice(1);
  return key === '' || key.startsWith('/') ? null : key;
};

const enter = async (): Promise<string | null> => {
  const key = keyInAddress();
  if (key !== null) {
    history.replaceState(null, '', location.pathname + location.search);
    const response = await post('/enter', { key }, null);
    if (response.ok) {
      const { token } = (await response.json()) as { token: string };
      sessionStorage.setItem(kept, token);
    }
  }
  return sessionStorage.getItem(kept);
};

const post = (path: string, body: unknown, token: string | null): Promise<Response> =>
  fetch(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...(token === null ? {} : { 'x-kinplate-token': token }) },
    body: JSON.stringify(body),
    credentials: 'omit',
    redirect: 'error',
  });

const entered = enter().catch(() => null);

// The port is the same after a new start, so a newer address given to this tab changes nothing but what follows the hash.
addEventListener('hashchange', () => {
  if (keyInAddress() !== null) location.reload();
});

const desk = {
  async ask<C extends CallName>(name: C, args: CallArgs<C>): Promise<Reply<C>> {
    const token = await entered;
    if (token === null)
      return trouble('not-admitted', null, 'This window has not been let in. Open Kinplate by the newest address in its terminal.');
    try {
      const response = await post(`/ask/${name}`, args, token);
      if (response.status === 401)
        return trouble('not-admitted', null, 'Kinplate was started anew. Open it by the newest address in its terminal.');
      if (response.headers.get('content-type')?.startsWith('application/json') !== true)
        return trouble('refused', null, `The program refused the call: ${(await response.text()).trim()}`);
      return (await response.json()) as Reply<C>;
    } catch {
      return trouble('unreachable', null, 'Kinplate does not answer. Start it again with npm start; what was saved is still there.');
    }
  },
} satisfies Bridge;

Object.defineProperty(window, 'desk', { value: Object.freeze(desk), writable: false, configurable: false });
