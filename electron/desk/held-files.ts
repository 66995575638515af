import { randomUUID } from 'node:crypto';
import type { Outcome } from '../../db/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { TroubleCode } from '../bridge/trouble-codes.ts';

interface Held {
  readonly name: string;
  readonly parts: Buffer[];
  bytes: number;
}

/**
 * Files on their way over the bridge, a part at a time, by a token that says nothing. Few are held, and the oldest is dropped for a new one: each may be as large as a case
 * with all its photographs.
 */
export class HeldFiles {
  readonly #held = new Map<string, Held>();
  readonly #keep: number;
  readonly #gone: ReturnType<typeof refusal>;

  /** @param notHeld to who asks for a file that is not held */
  constructor(keep = 2, notHeld = gone) {
    this.#keep = keep;
    this.#gone = notHeld;
  }

  /** A file that is whole already, or one that is yet to come. */
  begin(name: string, bytes: Buffer | null = null): string {
    const token = randomUUID();
    this.#held.set(token, { name, parts: bytes === null ? [] : [bytes], bytes: bytes?.length ?? 0 });
    for (const old of [...this.#held.keys()].slice(0, -this.#keep)) this.#held.delete(old);
    return token;
  }

  /** How many bytes there are with these; null for a token nobody was given, or whose file was dropped. */
  add(token: string, part: Buffer): number | null {
    const held = this.#held.get(token);
    if (held === undefined) return null;
    held.parts.push(part);
    held.bytes += part.length;
    return held.bytes;
  }

  /** Takes the next part of a file that is handed in, the first without a token. What is too large in all is let go, and said to be; `beside` says what that means and what to do. */
  handIn(
    { token, name, data }: { readonly token: string | null; readonly name: string; readonly data: string },
    { most, code, beside }: { readonly most: number; readonly code: TroubleCode; readonly beside: string },
  ): Outcome<{ readonly token: string; readonly bytes: number }> {
    const taking = token ?? this.begin(name);
    const bytes = this.add(taking, Buffer.from(data, 'base64'));
    if (bytes === null) return this.#gone;
    if (bytes <= most) return well({ token: taking, bytes });
    this.drop(taking);
    return refusal(code, name, `${name} is too large: the most is ${most / 1024 / 1024} MiB. ${beside}`);
  }

  /** What was put together so far. */
  whole(token: string): { readonly name: string; readonly bytes: Buffer } | null {
    const held = this.#held.get(token);
    if (held === undefined) return null;
    if (held.parts.length > 1) held.parts.splice(0, held.parts.length, Buffer.concat(held.parts));
    return { name: held.name, bytes: held.parts[0] ?? Buffer.alloc(0) };
  }

  /** How many parts a file is fetched in. */
  partsOf(token: string): number {
    return Math.max(1, Math.ceil((this.#held.get(token)?.bytes ?? 0) / limits.partBytes));
  }

  /** One part of a file that is fetched, as base64; the last one lets it go. */
  part(token: string, part: number): Outcome<{ readonly data: string }> {
    const held = this.whole(token);
    if (held === null) return this.#gone;
    const data = held.bytes.subarray(part * limits.partBytes, (part + 1) * limits.partBytes);
    if (data.length === 0) return refusal('not-found', 'part', `The file has no part ${part}.`);
    if ((part + 1) * limits.partBytes >= held.bytes.length) this.drop(token);
    return well({ data: data.toString('base64') });
  }

  drop(token: string): void {
    this.#held.delete(token);
  }
}

/** To who asks for a file nobody holds. */
export const gone = refusal(
  'not-found',
  'token',
  'That file is no longer held: it was fetched or taken in, or others came after it. Begin again.',
);
