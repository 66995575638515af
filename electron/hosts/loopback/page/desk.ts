import type { Bridge, CallArgs, CallName, How, Reply } from '../../../bridge/contract.ts';
import type { News } from '../../../bridge/news.ts';
import { refusal } from '../../../bridge/reply.ts';

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

/** This page, of all that share a token: after a reload it is another. */
const page = crypto.randomUUID();

const post = (path: string, body: unknown, token: string | null, more: Readonly<Record<string, string>> = {}): Promise<Response> =>
  fetch(path, {
    method: 'POST',
    headers: {
      'content-type': 'application/json',
      ...(token === null ? {} : { 'x-kinplate-token': token, 'x-kinplate-window': page }),
      ...more,
    },
    body: JSON.stringify(body),
    credentials: 'omit',
    redirect: 'error',
  });

const entered = enter().catch(() => null);
/** Once it is known a question goes out at once, not behind whatever else the key that asks it does. */
let known: string | null | undefined;
void entered.then((token) => {
  known = token;
});

// The port is the same after a new start, so a newer address given to this tab changes nothing but what follows the hash.
addEventListener('hashchange', () => {
  if (keyInAddress() !== null) location.reload();
});

let last = 0;
const waiting = new Map<number, NonNullable<How['onProgress']>>();
const listeners = new Set<() => void>();

let listening = false;
let heardBefore = false;
/** News come as lines of one answer that does not end. Where it broke off, the next question begins it again: what happened meanwhile may be that the atlas has changed. */
const listen = async (token: string): Promise<void> => {
  if (listening) return;
  listening = true;
  try {
    const { body, ok } = await post('/news', {}, token);
    if (!ok || body === null) return;
    if (heardBefore) hear({ kind: 'atlas changed' });
    heardBefore = true;
    let rest = '';
    const reader = body.pipeThrough(new TextDecoderStream()).getReader();
    for (let part = await reader.read(); !part.done; part = await reader.read()) {
      const lines = (rest + part.value).split('\n');
      rest = lines.pop() ?? '';
      for (const line of lines) hear(JSON.parse(line) as News);
    }
  } catch {
    // The program has ended, or this page has: the next question says so.
  } finally {
    listening = false;
  }
};

const hear = (news: News): void => {
  if (news.kind === 'progress') waiting.get(news.ask)?.(news.progress);
  else for (const listener of listeners) listener();
};

const desk = {
  async ask<C extends CallName>(name: C, args: CallArgs<C>, how: How = {}): Promise<Reply<C>> {
    last += 1;
    const ask = last;
    const token = known === undefined ? await entered : known;
    if (token === null)
      return refusal('not-admitted', null, 'This window has not been let in. Open Kinplate by the newest address in its terminal.');
    void listen(token);
    if (how.onProgress !== undefined) waiting.set(ask, how.onProgress);
    try {
      const place = how.place === undefined ? {} : { 'x-kinplate-place': encodeURIComponent(how.place) };
      const response = await post(`/ask/${name}`, args, token, { 'x-kinplate-ask': String(ask), ...place });
      if (response.status === 401)
        return refusal('not-admitted', null, 'Kinplate was started anew. Open it by the newest address in its terminal.');
      if (response.headers.get('content-type')?.startsWith('application/json') !== true)
        return refusal('refused', null, `The program refused the call: ${(await response.text()).trim()}`);
      return (await response.json()) as Reply<C>;
    } catch {
      return refusal('unreachable', null, 'Kinplate does not answer. Start it again with npm start; what was saved is still there.');
    } finally {
      waiting.delete(ask);
    }
  },
  cancel(place: string): void {
    const of = { 'x-kinplate-ask': String(last), 'x-kinplate-place': encodeURIComponent(place) };
    void entered.then((token) => (token === null ? null : post('/cancel', null, token, of))).catch(() => {});
  },
  onAtlasChanged(listener: () => void): () => void {
    listeners.add(listener);
    void entered.then((token) => (token === null ? undefined : listen(token)));
    return () => listeners.delete(listener);
  },
} satisfies Bridge;

Object.defineProperty(window, 'desk', { value: Object.freeze(desk), writable: false, configurable: false });
