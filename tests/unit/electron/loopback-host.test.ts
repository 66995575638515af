import { once } from 'node:events';
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type CallName, contract } from '../../../electron/bridge/contract.ts';
import type { Desk } from '../../../electron/bridge/desk.ts';
import { well } from '../../../electron/bridge/reply.ts';
import { type Host, serve } from '../../../electron/hosts/loopback/serve.ts';
import { limits } from '../../../reasoner/plain/limits.ts';
import { staffOf } from './staff-of.ts';

/** A desk that answers every call with its own name, and one that throws: the doors are tested here, not what is behind them. */
const names = Object.keys(contract) as CallName[];
const desk = Object.fromEntries(names.map((name) => [name, async () => well(name)])) as unknown as Desk;
const text = (body: string) => new TextEncoder().encode(body);
const rendered = new Map([
  ['/index.html', { type: 'text/html; charset=utf-8', body: text('<!doctype html><html><head><title>window</title></head></html>') }],
  ['/assets/window.js', { type: 'text/javascript; charset=utf-8', body: text('export {};') }],
]);

let host: Host;
let bugs: unknown[];
let opened: string[];
const start = async (with_: Partial<Desk> = {}) => {
  bugs = [];
  opened = [];
  host = await serve({
    staff: staffOf({ ...desk, ...with_ }, (place, error) => bugs.push([place, error])),
    rendered,
    pageDesk: text('/* desk */'),
    port: 0,
    logBug: (place, error) => bugs.push([place, error]),
    onOpened: (address) => opened.push(address),
  });
};
beforeEach(() => start());
afterEach(() => host.close());

interface Answer {
  readonly status: number;
  readonly headers: string;
  readonly body: string;
}

/** Speaks HTTP by hand: fetch would not let a test lie about Host or Origin. */
const speak = async (head: readonly string[], body: string | Uint8Array = '', port = host.port, address = '127.0.0.1'): Promise<Answer> => {
  const socket = connect(port, address);
  await once(socket, 'connect');
  let heard = '';
  socket.setEncoding('utf8').on('data', (chunk) => {
    heard += chunk;
  });
  // A host that refuses may hang up while we still write; what it said before counts.
  const over = new Promise<void>((resolve) => socket.on('error', () => {}).once('close', () => resolve()));
  socket.write(Buffer.concat([Buffer.from(`${head.join('\r\n')}\r\nConnection: close\r\n\r\n`), Buffer.from(body)]));
  await over;
  const [headers = '', ...rest] = heard.split('\r\n\r\n');
  return { status: Number(headers.split(' ')[1]), headers: headers.toLowerCase(), body: rest.join('\r\n\r\n') };
};

const home = () => `127.0.0.1:${host.port}`;
const post = (path: string, body: string, change: Record<string, string | null> = {}) => {
  const headers: Record<string, string | null> = {
    Host: home(),
    Origin: `http://${home()}`,
    'Content-Type': 'application/json',
    'Content-Length': String(Buffer.byteLength(body)),
    ...change,
  };
  const lines = Object.entries(headers).flatMap(([name, value]) => (value === null ? [] : [`${name}: ${value}`]));
  return speak([`POST ${path} HTTP/1.1`, ...lines], body);
};
const get = (path: string, change: readonly string[] = [`Host: ${home()}`]) => speak([`GET ${path} HTTP/1.1`, ...change]);

const enter = async (): Promise<string> => {
  const key = new URL(host.address()).hash.slice(1);
  return (JSON.parse((await post('/enter', JSON.stringify({ key }))).body) as { token: string }).token;
};
const asked = (token: string, change: Record<string, string | null> = {}) =>
  post('/ask/atlas.vocabulary', '{}', { 'X-Kinplate-Token': token, ...change });

describe('who is let in', () => {
  test('[R3] a window let in by its key gets its calls answered', async () => {
    const answer = await asked(await enter());
    expect(answer.status).toBe(200);
    expect(JSON.parse(answer.body)).toEqual({ ok: true, value: 'atlas.vocabulary' });
  });

  test('[R3] a call without a token is refused', async () => {
    expect((await post('/ask/atlas.vocabulary', '{}')).status).toBe(401);
  });

  test('[R3] a call with a token that was never given is refused', async () => {
    await enter();
    expect((await asked('A'.repeat(43))).status).toBe(401);
    expect((await asked('')).status).toBe(401);
  });

  test.each(['/news', '/cancel'])('[R3] %s too is for a window that was let in, from our own page, and for nobody else', async (path) => {
    const token = await enter();
    const mine = { 'X-Kinplate-Token': token };
    expect((await post(path, '{}')).status).toBe(401);
    expect((await post(path, '{}', { 'X-Kinplate-Token': 'A'.repeat(43) })).status).toBe(401);
    expect((await post(path, '{}', { ...mine, Origin: 'https://elsewhere.example' })).status).toBe(403);
    expect((await post(path, '{}', { ...mine, 'Content-Type': 'text/plain' })).status).toBe(415);
    expect((await get(path)).status).toBe(405);
  });

  test('[R3] a word that nobody looks is taken with any place and count, and what is no place is none', async () => {
    const mine = { 'X-Kinplate-Token': await enter() };
    for (const more of [
      {},
      { 'X-Kinplate-Place': 'a%20place', 'X-Kinplate-Ask': '3' },
      { 'X-Kinplate-Place': '%E0%A4%A' },
      { 'X-Kinplate-Ask': 'many' },
    ])
      expect((await post('/cancel', 'null', { ...mine, ...more })).status).toBe(200);
  });

  test('[R3] a key opens one window and is worth nothing afterwards', async () => {
    const key = new URL(host.address()).hash.slice(1);
    expect((await post('/enter', JSON.stringify({ key }))).status).toBe(200);
    expect((await post('/enter', JSON.stringify({ key }))).status).toBe(401);
    expect(opened).toEqual([host.address()]);
    expect(host.address()).not.toContain(key);
  });

  test('[R3] a guessed key, a token for a key, and no key at all open nothing', async () => {
    const token = await enter();
    for (const body of [{ key: 'guess' }, { key: token }, { key: null }, { key: ['x'] }, {}, null, 7])
      expect((await post('/enter', JSON.stringify(body))).status).toBe(401);
  });

  test('[R3] keys and tokens carry 256 random bits and never repeat', async () => {
    const seen = new Set<string>();
    for (let round = 0; round < 50; round += 1) {
      seen.add(new URL(host.address()).hash.slice(1));
      seen.add(await enter());
    }
    expect(seen.size).toBe(100);
    for (const secret of seen) expect(Buffer.from(secret, 'base64url').byteLength).toBe(32);
  });

  test('[R3] the key stands in the fragment of the address, which no browser sends', () => {
    const address = new URL(host.address());
    expect(address.hash.length).toBe(44);
    expect(`${address.pathname}${address.search}`).toBe('/');
  });
});

describe('who is turned away', () => {
  test.each([
    ['another name that was made to resolve to this machine', 'rebound.example'],
    ['the same with our port', 'rebound.example:PORT'],
    ['localhost, which a hosts file may point elsewhere', 'localhost:PORT'],
    ['the address without its port', '127.0.0.1'],
    ['the address with another port', '127.0.0.1:1'],
    ['the address with a dot after it', '127.0.0.1.:PORT'],
    ['the address written as one number', '2130706433:PORT'],
  ])('[R3] a page is refused under %s', async (_what, name) => {
    const answer = await get('/', [`Host: ${name.replace('PORT', String(host.port))}`]);
    expect(answer.status).toBe(421);
    expect(answer.body).not.toContain('window');
  });

  test('[R3] a call is refused under another Host, whatever token it has', async () => {
    const token = await enter();
    expect((await asked(token, { Host: `rebound.example:${host.port}` })).status).toBe(421);
    expect((await asked(token, { Host: `rebound.example:${host.port}`, Origin: `http://rebound.example:${host.port}` })).status).toBe(421);
  });

  test('[R3] a request with no Host at all is refused', async () => {
    expect((await speak(['GET / HTTP/1.0'])).status).toBe(421);
    expect((await speak(['GET / HTTP/1.1'])).status).toBe(400);
  });

  test.each([
    ['another site', 'https://elsewhere.example'],
    ['another port of this machine', 'http://127.0.0.1:1'],
    ['a file or a sandboxed frame', 'null'],
    ['our address over https', 'https://127.0.0.1:PORT'],
    ['localhost', 'http://localhost:PORT'],
    ['no origin at all', null],
  ])('[R3] a call from %s is refused, whatever token it has', async (_what, origin) => {
    const token = await enter();
    expect((await asked(token, { Origin: origin?.replace('PORT', String(host.port)) ?? null })).status).toBe(403);
  });

  test('[R3] a page another site tries to embed or fetch is refused', async () => {
    for (const site of ['cross-site', 'same-site'])
      expect((await get('/', [`Host: ${home()}`, `Sec-Fetch-Site: ${site}`])).status).toBe(403);
    expect((await get('/', [`Host: ${home()}`, 'Sec-Fetch-Site: none'])).status).toBe(200);
  });

  test('[R3] [R7] a window may be led to the page itself, as by a file, and to nothing else; the page then stands alone', async () => {
    const led = (path: string, mode = 'navigate', dest = 'document', method = 'GET') =>
      speak([
        `${method} ${path} HTTP/1.1`,
        `Host: ${home()}`,
        'Sec-Fetch-Site: cross-site',
        `Sec-Fetch-Mode: ${mode}`,
        `Sec-Fetch-Dest: ${dest}`,
      ]);
    const page = await led('/');
    expect(page.status).toBe(200);
    expect(page.headers).toContain('cross-origin-opener-policy: same-origin');
    expect(page.headers).toContain("frame-ancestors 'none'");
    for (const other of [
      led('/page-desk.js'),
      led('/index.html'),
      led('/', 'no-cors', 'script'),
      led('/', 'navigate', 'iframe'),
      led('/', 'cors', 'empty'),
      led('/', 'navigate', 'document', 'POST'),
      led('/enter', 'navigate', 'document', 'POST'),
    ])
      expect((await other).status).toBe(403);
  });

  test('[R3] a plain form of another page cannot make a call: JSON only, POST only', async () => {
    const token = await enter();
    for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data', null])
      expect((await asked(token, { 'Content-Type': type })).status).toBe(415);
    expect((await get('/ask/atlas.vocabulary', [`Host: ${home()}`, `Origin: http://${home()}`])).status).toBe(405);
    expect((await speak(['OPTIONS /ask/atlas.vocabulary HTTP/1.1', `Host: ${home()}`, 'Origin: https://elsewhere.example'])).status).toBe(
      403,
    );
  });

  test('[R3] no answer gives another origin leave to read it', async () => {
    for (const answer of [await get('/'), await asked(await enter()), await asked('x')])
      expect(answer.headers).not.toContain('access-control-');
  });

  test('[R3] the host listens on 127.0.0.1 and on no other address of the machine', async () => {
    const others = Object.values(networkInterfaces())
      .flatMap((all) => all ?? [])
      .filter((one) => one.address !== '127.0.0.1' && !one.address.startsWith('fe80'))
      .map((one) => one.address);
    for (const address of others)
      await expect(speak(['GET / HTTP/1.1', `Host: ${home()}`], '', host.port, address)).rejects.toThrow(
        /ECONNREFUSED|EADDRNOTAVAIL|ENETUNREACH/,
      );
  });
});

describe('what is served', () => {
  test('[R3] every answer carries the security policy, without inline script or eval', async () => {
    for (const answer of [
      await get('/'),
      await get('/assets/window.js'),
      await get('/nothing'),
      await asked('x'),
      await asked(await enter()),
    ]) {
      const policy = /content-security-policy: (.*)/.exec(answer.headers)?.[1] ?? '';
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("script-src 'self';");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).not.toContain('unsafe');
      expect(answer.headers).toContain('x-content-type-options: nosniff');
      expect(answer.headers).toContain('referrer-policy: no-referrer');
      expect(answer.headers).toContain('cross-origin-resource-policy: same-origin');
    }
  });

  test('[R3] the page loads the desk before its own script, from a file', async () => {
    const page = await get('/');
    expect(page.body).toMatch(/<head>\s*<script src="\/page-desk.js"><\/script>/);
    expect((await get('/page-desk.js')).body).toBe('/* desk */');
  });

  test.each([
    '/../package.json',
    '/assets/../../package.json',
    '/..%2fpackage.json',
    '/%2e%2e/package.json',
    '//etc/passwd',
    '/assets/%00',
    '/%',
    '/assets/',
    '/constructor',
  ])('[R3] %s leads to no file', async (path) => {
    expect((await get(path)).status).toBe(404);
  });

  test('[R3] a call longer than any sheet is refused before it is kept', async () => {
    const token = await enter();
    expect((await asked(token, { 'Content-Length': String(17 * 1024 * 1024) })).status).toBe(413);
    const long = JSON.stringify({ text: 'x'.repeat(16 * 1024 * 1024), file: 'long.json' });
    const refused = await post('/ask/sheets.read', long, { 'X-Kinplate-Token': token });
    expect(refused.status === 413 || refused.headers === '').toBe(true);
    expect((await asked(token)).status).toBe(200);
  });

  test('[R3] nor does one that never says how long it is: it is counted as it comes', async () => {
    const streamed = (path: string, body: string, token: string) => {
      const chunk = `${Buffer.byteLength(body).toString(16)}\r\n${body}\r\n0\r\n\r\n`;
      const head = { 'Content-Length': null, 'Transfer-Encoding': 'chunked', 'X-Kinplate-Token': token };
      return post(path, chunk, head);
    };
    const key = new URL(host.address()).hash.slice(1);
    const entering = (length: number) => JSON.stringify({ key }).padEnd(length, ' ');
    // Where to enter is open to whoever finds the port, so it takes a key and no more: 4096 bytes.
    expect((await streamed('/enter', entering(4097), '')).status).toBe(401);
    const entered = await streamed('/enter', entering(4096), '');
    expect(entered.status, 'the key is still good').toBe(200);
    const { token } = JSON.parse(entered.body) as { token: string };
    expect((await streamed('/ask/atlas.vocabulary', '{}', token)).status).toBe(200);
    const refused = await streamed('/ask/atlas.vocabulary', '{}'.padEnd(16 * 1024 * 1024 + 1, ' '), token);
    expect(refused.status === 413 || refused.headers === '').toBe(true);
    expect((await asked(token)).status).toBe(200);
  });

  test('[R3] a call that is no JSON, or no call of the contract, gets trouble and the host goes on', async () => {
    const token = await enter();
    expect((await post('/ask/atlas.vocabulary', '{', { 'X-Kinplate-Token': token })).status).toBe(400);
    for (const name of ['atlas.everything', 'constructor', '__proto__', '']) {
      const answer = JSON.parse((await post(`/ask/${name}`, '{}', { 'X-Kinplate-Token': token })).body);
      expect(answer).toMatchObject({ ok: false, trouble: { code: 'no-such-call' } });
    }
    expect((await asked(token)).status).toBe(200);
  });

  test('[R6] a call that is not UTF-8 is refused as such, not read as something else', async () => {
    const token = await enter();
    for (const bad of ['\xff', '\xc3', '\xed\xa0\x80', '\xc0\xaf']) {
      const body = `{"text":"tern${bad}"}`;
      const answer = await speak(
        [
          'POST /ask/atlas.search HTTP/1.1',
          ...[`Host: ${home()}`, `Origin: http://${home()}`, 'Content-Type: application/json', `Content-Length: ${body.length}`],
          `X-Kinplate-Token: ${token}`,
        ],
        Buffer.from(body, 'latin1'),
      );
      expect(answer.status).toBe(400);
      expect(JSON.parse(answer.body)).toMatchObject({
        ok: false,
        trouble: { code: 'malformed', sentence: 'The call is not text in UTF-8.' },
      });
    }
    expect(bugs).toEqual([]);
  });

  test('[R4] who hangs up in the middle of a call is no bug', async () => {
    const token = await enter();
    for (const path of ['/enter', '/ask/atlas.vocabulary', '/news', '/cancel']) {
      const socket = connect(host.port, '127.0.0.1');
      await once(socket, 'connect');
      const head = [`POST ${path} HTTP/1.1`, `Host: ${home()}`, `Origin: http://${home()}`, 'Content-Type: application/json'];
      socket.write(`${[...head, `X-Kinplate-Token: ${token}`, 'Content-Length: 100'].join('\r\n')}\r\n\r\n{"key":`);
      // Until the host has begun to read.
      await new Promise((resolve) => setTimeout(resolve, 20));
      socket.resetAndDestroy();
      await once(socket, 'close');
    }
    for (let i = 0; i < 5; i += 1) expect((await asked(token)).status).toBe(200);
    expect(bugs).toEqual([]);
  });

  test('[R3] a bug behind a call is written down here and told to the window without its particulars', async () => {
    await host.close();
    await start({ 'atlas.vocabulary': () => Promise.reject(new Error('secret of the inside')) });
    const answer = await asked(await enter());
    expect(JSON.parse(answer.body)).toMatchObject({ ok: false, trouble: { code: 'bug', place: null } });
    expect(answer.body).not.toContain('secret');
    expect(bugs).toEqual([['atlas.vocabulary', new Error('secret of the inside')]]);
  });

  test('[R3] an argument is parsed before the desk sees it, and its fault is named by field', async () => {
    const token = await enter();
    const answer = await post('/ask/atlas.search', JSON.stringify({ text: 'tern', limit: 'many' }), { 'X-Kinplate-Token': token });
    expect(JSON.parse(answer.body)).toMatchObject({ ok: false, trouble: { code: 'malformed', place: 'limit' } });
    const more = await post('/ask/atlas.search', JSON.stringify({ text: 'tern', limit: 3, also: 1 }), { 'X-Kinplate-Token': token });
    expect(JSON.parse(more.body)).toMatchObject({ ok: false, trouble: { code: 'malformed' } });
  });
});

/** Writes a body that does not end, as fast as it is taken, up to a most; how much was taken before the host hung up, and what it said. */
const pour = async (path: string, change: Record<string, string | null>, most: number, method = 'POST') => {
  const socket = connect(host.port, '127.0.0.1');
  await once(socket, 'connect');
  let heard = '';
  socket.setEncoding('latin1').on('data', (chunk) => {
    heard += chunk;
  });
  let open = true;
  const over = new Promise<void>((resolve) => {
    socket
      .on('error', () => {})
      .once('close', () => {
        open = false;
        resolve();
      });
  });
  const head = { Host: home(), Origin: `http://${home()}`, 'Content-Type': 'application/json', 'Transfer-Encoding': 'chunked', ...change };
  const lines = Object.entries(head).flatMap(([name, value]) => (value === null ? [] : [`${name}: ${value}`]));
  socket.write(`${method} ${path} HTTP/1.1\r\n${lines.join('\r\n')}\r\n\r\n`);
  const piece = `10000\r\n${' '.repeat(0x10000)}\r\n`;
  let poured = 0;
  while (open && poured < most) {
    poured += 0x10000;
    if (!socket.write(piece)) await Promise.race([once(socket, 'drain').catch(() => {}), over]);
  }
  const cutOff = !open;
  socket.destroy();
  await over;
  return { poured, cutOff, status: Number(heard.split(' ')[1]) };
};

/** What the two ends of a connection hold between them is no more than this. */
const underWay = 16 * 1024 * 1024;

describe('a body that does not end', () => {
  test('[R6] a call is cut off as it passes its limit, and told so', async () => {
    const token = await enter();
    const found = await pour('/ask/atlas.vocabulary', { 'X-Kinplate-Token': token }, limits.callBytes + 4 * underWay);
    expect(found).toMatchObject({ cutOff: true, status: 413 });
    expect(found.poured).toBeGreaterThan(limits.callBytes);
    expect(found.poured).toBeLessThan(limits.callBytes + underWay);
    expect((await asked(token)).status).toBe(200);
    expect(bugs).toEqual([]);
  });

  test.each([
    ['where to enter, which takes a key and no more', '/enter', 401],
    ['news, which takes nothing', '/news', 413],
    ['that nobody looks, which takes nothing', '/cancel', 413],
    ['a call without a token', '/ask/atlas.vocabulary', 401],
    ['no page', '/nothing', 405],
  ])('[R6] %s: nothing of it is read to its end', async (_what, path, status) => {
    const token = path === '/enter' || status === 401 ? null : await enter();
    const found = await pour(path, { 'X-Kinplate-Token': token }, 4 * underWay);
    expect(found).toMatchObject({ cutOff: true, status });
    expect(found.poured).toBeLessThan(underWay);
    expect((await asked(await enter())).status).toBe(200);
    expect(bugs).toEqual([]);
  });

  test.each([
    ['/', 200],
    ['/nothing', 404],
  ])('[R6] nor is what comes with the asking for the page %s', async (path, status) => {
    const found = await pour(path, { Origin: null }, 4 * underWay, 'GET');
    expect(found).toMatchObject({ cutOff: true, status });
    expect(found.poured).toBeLessThan(underWay);
  });
});
