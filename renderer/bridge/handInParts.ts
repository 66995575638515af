import type { Trouble } from '../../electron/bridge/contract.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { base64Of } from './base64.ts';

type Done<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly trouble: Trouble };

/**
 * Hands a file to the desk part by part, the first under no token; gives the token it is held under. An empty file is one part.
 * @param token what is held already, where it is one file of several
 * @param onPart told of each part that came over, in bytes
 */
export const handInParts = async (
  content: Blob,
  ask: (token: string | null, data: string) => Promise<Done<{ readonly token: string }>>,
  token: string | null = null,
  onPart: (bytes: number) => void = () => {},
): Promise<Done<string>> => {
  let held = token;
  for (const part of partsOf(content)) {
    const reply = await ask(held, await base64Of(part));
    if (!reply.ok) return reply;
    held = reply.value.token;
    onPart(part.size);
  }
  if (held === null) throw new Error('a file without parts');
  return { ok: true, value: held };
};

/** Its parts in their order, as large as one call may carry; an empty file is one empty part. */
export const partsOf = (content: Blob): readonly Blob[] =>
  Array.from({ length: Math.max(1, Math.ceil(content.size / limits.partBytes)) }, (_, at) =>
    content.slice(at * limits.partBytes, (at + 1) * limits.partBytes),
  );
