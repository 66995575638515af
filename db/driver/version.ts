import { createHash } from 'node:crypto';
import type { Version } from '../plain/version.ts';

export type { Version } from '../plain/version.ts';

/** SHA-256, in hex, of texts one after the other. Where one ends and the next begins is for the texts to say. */
export const versionOfTexts = (texts: Iterable<string>): Version => {
  const hash = createHash('sha256');
  for (const text of texts) hash.update(text);
  return hash.digest('hex') as Version;
};

/** SHA-256, in hex, of the content as JSON whose keys stand in order; what is `undefined` is not there. */
export const versionOf = (content: unknown): Version => versionOfTexts([JSON.stringify(content, (_, value) => inOrder(value)) ?? '']);

const inOrder = (value: unknown): unknown =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)))
    : value;
