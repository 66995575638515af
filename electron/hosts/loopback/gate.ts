import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

/** Why a request is turned away; the status to say it with. */
export interface Refusal {
  readonly status: 401 | 403 | 405 | 415 | 421;
  readonly because: string;
}

/** The header a window's own requests carry their token in. A page of another origin cannot set it without leave. */
export const tokenHeader = 'x-kinplate-token';

/**
 * Who may ask. The opened address carries a key in its fragment, which no browser sends anywhere; the page hands it
 * in once and gets a token of its own for the rest of the run. A cookie would not do: cookies on 127.0.0.1 go to
 * every port of it. The key works once, and stands on no command line, which other users of the machine may read.
 */
export class Gate {
  readonly #tokens = new Set<string>();
  #key = newSecret();

  /** The key of the next window. */
  get key(): string {
    return this.#key;
  }

  /** Takes a key and gives a token for it, or null. A key that was taken is worth nothing afterwards. */
  admit(key: string): string | null {
    if (!same(digest(key), digest(this.#key))) return null;
    this.#key = newSecret();
    const token = newSecret();
    this.#tokens.add(digest(token));
    return token;
  }

  holds(token: string): boolean {
    const asked = digest(token);
    let known = false;
    // Looks at every token whatever it finds, so that the time taken tells nothing.
    for (const held of this.#tokens) known = same(held, asked) || known;
    return known;
  }
}

const newSecret = (): string => randomBytes(32).toString('base64url');
const digest = (text: string): string => createHash('sha256').update(text).digest('hex');
const same = (a: string, b: string): boolean => timingSafeEqual(Buffer.from(a), Buffer.from(b));

/**
 * Holds every request to the one name this host is known by. A page that had its own name resolved to 127.0.0.1
 * (DNS rebinding) still sends that name as Host, and is refused here.
 */
export const refuseStranger = (request: IncomingMessage, port: number): Refusal | null => {
  const home = `127.0.0.1:${port}`;
  if (request.headers.host !== home) return { status: 421, because: 'This host answers to its own address only.' };
  const origin = request.headers.origin;
  if (origin !== undefined && origin !== `http://${home}`)
    return { status: 403, because: 'This host answers its own window only, no other page.' };
  const site = request.headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none' && !isLedHere(request))
    return { status: 403, because: 'This host answers its own window only, no other page.' };
  return null;
};

/**
 * A window that was led to the page itself, as by the file a browser is given: to a browser a file is another site. The page holds nothing without a key, lies in no frame,
 * and lets go of whoever led to it (Cross-Origin-Opener-Policy).
 */
const isLedHere = ({ method, url, headers }: IncomingMessage): boolean =>
  method === 'GET' && url === '/' && headers['sec-fetch-mode'] === 'navigate' && headers['sec-fetch-dest'] === 'document';

/** A call must say where it comes from, and be JSON, which no plain form of another page can send. */
export const refuseCall = (request: IncomingMessage, port: number): Refusal | null => {
  if (request.method !== 'POST') return { status: 405, because: 'Calls are made with POST.' };
  if (request.headers.origin !== `http://127.0.0.1:${port}`)
    return { status: 403, because: 'A call must come from the window, and say so in its Origin.' };
  if (!/^application\/json(;|$)/.test(request.headers['content-type'] ?? ''))
    return { status: 415, because: 'Calls carry JSON (content-type application/json).' };
  return null;
};
