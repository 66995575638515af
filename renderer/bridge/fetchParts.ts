import type { Trouble } from '../../electron/bridge/contract.ts';
import { bytesOf } from './base64.ts';

type Done<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly trouble: Trouble };

/** Fetches a file of the desk's part by part, the first being 0. */
export const fetchParts = async (
  parts: number,
  ask: (part: number) => Promise<Done<{ readonly data: string }>>,
): Promise<Done<readonly Uint8Array<ArrayBuffer>[]>> => {
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  for (let part = 0; part < parts; part += 1) {
    const reply = await ask(part);
    if (!reply.ok) return reply;
    pieces.push(bytesOf(reply.value.data));
  }
  return { ok: true, value: pieces };
};
