import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { limits } from '../../../reasoner/plain/limits.ts';
import type { News } from '../../bridge/news.ts';
import type { LogBug } from '../../bridge/receive.ts';
import { refusal } from '../../bridge/reply.ts';
import type { Staff } from '../../desk/staff/staff.ts';
import type { RenderedFile } from '../rendered.ts';
import { securityHeaders } from '../security-headers.ts';
import { Gate, type Refusal, refuseCall, refuseStranger, tokenHeader } from './gate.ts';
import { askHeader, placeHeader, windowHeader } from './headers.ts';

const longestPlace = 900;

export interface HostOptions {
  /** Null when there is nothing to ask: the page tells of a failed start. */
  readonly staff: Staff | null;
  readonly rendered: ReadonlyMap<string, RenderedFile>;
  /** The script that puts `window.desk` in place before the window's own. */
  readonly pageDesk: Uint8Array<ArrayBuffer>;
  /** 0 for any free port. */
  readonly port: number;
  readonly logBug: LogBug;
  /** Told the address of the next window each time one has been opened. */
  readonly onOpened?: (nextAddress: string) => void;
}

export interface Host {
  readonly port: number;
  /** What to open: the page, with a key that works once in its fragment. */
  address(): string;
  close(): Promise<void>;
}

/** Starts the loopback host. It listens on 127.0.0.1 and on nothing else. */
export const serve = async (options: HostOptions): Promise<Host> => {
  const gate = new Gate();
  const pages = options.staff === null ? options.rendered : withPageDesk(options.rendered, options.pageDesk);
  let port = 0;
  const address = () => `http://127.0.0.1:${port}/#${gate.key}`;

  const server = createServer({ requestTimeout: 60_000, headersTimeout: 20_000, maxHeaderSize: 16 * 1024 }, (request, response) => {
    answer(request, response).catch((error: unknown) => {
      // Who hangs up in the middle wants no answer, and it is no fault of this program.
      if (hungUp(error)) return;
      options.logBug(`${request.method} ${request.url}`, error);
      if (!response.headersSent) plain(response, 500, 'Something went wrong inside the program.');
      else response.destroy();
    });
  });

  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const stranger = refuseStranger(request, port);
    if (stranger !== null) return refuse(request, response, stranger);
    const path = pathOf(request.url);
    if (path === '/enter') return enter(request, response);
    if (path.startsWith('/ask/')) return ask(request, response, path.slice('/ask/'.length));
    if (path === '/news') return news(request, response);
    if (path === '/cancel') return cancel(request, response);
    return page(request, response, path);
  };

  const enter = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const refusal = refuseCall(request, port);
    if (refusal !== null) return refuse(request, response, refusal);
    const body = await readJson(request, limits.bareCallBytes);
    const key = body.ok && typeof body.value === 'object' && body.value !== null && 'key' in body.value ? body.value.key : null;
    const token = typeof key === 'string' ? gate.admit(key) : null;
    if (token === null)
      return refuse(request, response, { status: 401, because: 'This address has been used, or is from an earlier run.' });
    json(response, 200, { token });
    options.onOpened?.(address());
  };

  /** The window a call comes from, or why it is turned away. A window is a page that was let in: of one tab the next is another. */
  const callerOf = (request: IncomingMessage): string | Refusal => {
    const refusal = refuseCall(request, port);
    if (refusal !== null) return refusal;
    const token = request.headers[tokenHeader];
    if (typeof token !== 'string' || !gate.holds(token)) return { status: 401, because: 'Open Kinplate by the address in its terminal.' };
    return `${token} ${request.headers[windowHeader] ?? ''}`;
  };

  const ask = async (request: IncomingMessage, response: ServerResponse, name: string): Promise<void> => {
    const window = callerOf(request);
    if (typeof window !== 'string') return refuse(request, response, window);
    const body = await readBytes(request, limits.callBytes);
    if (!body.ok) return cutOff(request, response, body);
    const { staff } = options;
    if (staff === null) return json(response, 200, refusal('not-started', null, 'Kinplate could not start.'));
    const order = orderIn(request.headers[askHeader]);
    const { text, read } = await staff.ask({
      window,
      place: placeIn(request.headers[placeHeader]),
      order,
      name,
      args: body.value,
      onProgress: (progress) => tell(window, { kind: 'progress', ask: order, progress }),
    });
    if (!read) response.setHeader('connection', 'close');
    sent(response, read ? 200 : 400, text);
  };

  /** What windows are told without asking: an answer that does not end, a line for each. When it breaks off, the window is gone. */
  const listening = new Map<string, ServerResponse>();
  const tell = (window: string, one: News): void => void listening.get(window)?.write(`${JSON.stringify(one)}\n`);
  const news = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const window = callerOf(request);
    if (typeof window !== 'string') return refuse(request, response, window);
    const body = await readBytes(request, limits.bareCallBytes);
    if (!body.ok) return cutOff(request, response, body);
    response.writeHead(200, { ...securityHeaders, 'content-type': 'application/x-ndjson; charset=utf-8' });
    response.flushHeaders();
    listening.set(window, response);
    response.once('close', () => {
      if (listening.get(window) !== response) return;
      listening.delete(window);
      options.staff?.leave(window);
    });
  };
  const stopListening = options.staff?.onAtlasChanged(() => {
    for (const window of listening.keys()) tell(window, { kind: 'atlas changed' });
  });

  const cancel = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const window = callerOf(request);
    if (typeof window !== 'string') return refuse(request, response, window);
    const body = await readBytes(request, limits.bareCallBytes);
    if (!body.ok) return cutOff(request, response, body);
    const place = placeIn(request.headers[placeHeader]);
    if (place !== null) options.staff?.cancel(window, place, orderIn(request.headers[askHeader]));
    json(response, 200, null);
  };

  const page = async (request: IncomingMessage, response: ServerResponse, path: string): Promise<void> => {
    if (request.method !== 'GET' && request.method !== 'HEAD')
      return refuse(request, response, { status: 405, because: 'Pages are only read.' });
    // A page is asked for with nothing beside; what comes all the same is not waited for.
    if (request.headers['transfer-encoding'] !== undefined || request.headers['content-length'] !== undefined)
      response.setHeader('connection', 'close');
    const file = pages.get(path === '/' ? '/index.html' : path);
    if (file === undefined) return plain(response, 404, 'There is no such page.');
    response.writeHead(200, { ...securityHeaders, 'content-type': file.type, 'content-length': file.body.byteLength });
    response.end(request.method === 'HEAD' ? undefined : file.body);
  };

  await listen(server, options.port);
  port = (server.address() as AddressInfo).port;
  return {
    port,
    address,
    close: async () => {
      stopListening?.();
      // Ended, not broken off: a page whose answer breaks off writes an error to its console.
      await Promise.all([...listening.values()].map(ended));
      await new Promise<void>((resolve, reject) => {
        server.close((error) => (error === undefined ? resolve() : reject(error)));
        server.closeAllConnections();
      });
    },
  };
};

/** Resolves once the end is sent, or the other side is gone. */
const ended = (response: ServerResponse): Promise<void> =>
  new Promise((resolve) => {
    response.once('close', () => resolve());
    response.end(() => resolve());
  });

const listen = (server: Server, port: number): Promise<void> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => {
      server.off('error', reject);
      resolve();
    });
  });

const pathOf = (url: string | undefined): string => {
  const path = (url ?? '/').split(/[?#]/, 1)[0] ?? '/';
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
};

/** The window's page with the desk's script before its own. */
const withPageDesk = (
  rendered: ReadonlyMap<string, RenderedFile>,
  pageDesk: Uint8Array<ArrayBuffer>,
): ReadonlyMap<string, RenderedFile> => {
  const pages = new Map(rendered);
  const index = rendered.get('/index.html');
  if (index !== undefined) {
    const html = new TextDecoder().decode(index.body).replace(/<head>/i, '<head>\n    <script src="/page-desk.js"></script>');
    pages.set('/index.html', { type: index.type, body: new TextEncoder().encode(html) });
  }
  pages.set('/page-desk.js', { type: 'text/javascript; charset=utf-8', body: pageDesk });
  return pages;
};

/** The connection was broken off from the other side. */
const hungUp = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && (error.code === 'ECONNRESET' || error.code === 'EPIPE');

/** So much of a call that was cut off is thrown away before the connection is closed: more than is read in one turn of the loop. */
const thrownAway = 4 * 1024 * 1024;

/**
 * Says why. What still comes of the call is thrown away, and when it does not end soon the connection is closed: closed at once, with bytes nobody has taken,
 * the answer would be lost on its way to whoever is still writing.
 */
const cutOff = (request: IncomingMessage, response: ServerResponse, { status, because }: Extract<Read<unknown>, { ok: false }>): void => {
  let left = thrownAway;
  request.on('data', (chunk: Buffer) => {
    left -= chunk.byteLength;
    if (left < 0) request.socket.destroy();
  });
  json(response, status, refusal('malformed', null, because));
};

type Read<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly status: 400 | 413; readonly because: string };

/** The bytes of a call, in memory of their own: they are handed over whole to whoever answers. */
const readBytes = async (request: IncomingMessage, limit: number): Promise<Read<Uint8Array<ArrayBuffer>>> => {
  const tooLong = { ok: false, status: 413, because: `The call is longer than ${limit} bytes.` } as const;
  if (Number(request.headers['content-length'] ?? 0) > limit) return tooLong;
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
    size += chunk.byteLength;
    if (size > limit) return tooLong;
    chunks.push(chunk);
  }
  const value = new Uint8Array(size);
  let at = 0;
  for (const chunk of chunks) {
    value.set(chunk, at);
    at += chunk.byteLength;
  }
  return { ok: true, value };
};

const readJson = async (request: IncomingMessage, limit: number): Promise<Read<unknown>> => {
  const bytes = await readBytes(request, limit);
  if (!bytes.ok) return bytes;
  try {
    return { ok: true, value: JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes.value)) as unknown };
  } catch {
    return { ok: false, status: 400, because: 'The call is not JSON.' };
  }
};

const orderIn = (header: string | string[] | undefined): number => {
  const order = Number(header);
  return Number.isSafeInteger(order) ? order : 0;
};

const placeIn = (header: string | string[] | undefined): string | null => {
  if (typeof header !== 'string' || header.length > longestPlace) return null;
  try {
    return decodeURIComponent(header);
  } catch {
    return null;
  }
};

const json = (response: ServerResponse, status: number, value: unknown): void =>
  sent(response, status, new TextEncoder().encode(JSON.stringify(value)));

const sent = (response: ServerResponse, status: number, body: Uint8Array): void => {
  response.writeHead(status, { ...securityHeaders, 'content-type': 'application/json; charset=utf-8', 'content-length': body.byteLength });
  response.end(body);
};

const plain = (response: ServerResponse, status: number, text: string): void => {
  response.writeHead(status, { ...securityHeaders, 'content-type': 'text/plain; charset=utf-8' });
  response.end(`${text}\n`);
};

/** Turns a request away without reading what it carries. */
const refuse = (request: IncomingMessage, response: ServerResponse, refusal: Refusal): void => {
  response.setHeader('connection', 'close');
  plain(response, refusal.status, refusal.because);
  if (!request.complete) request.resume();
};
