import { createHash } from 'node:crypto';

/** Which state of a thing was meant: the hash of its content, so that the same said twice is the same version wherever it was said. */
export type Version = string & { readonly version: unique symbol };

/** SHA-256, in hex, of the content as JSON whose keys stand in order; what is `undefined` is not there. */
export const versionOf = (content: unknown): Version =>
  createHash('sha256')
    .update(JSON.stringify(content, (_, value) => inOrder(value)) ?? '')
    .digest('hex') as Version;

const inOrder = (value: unknown): unknown =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)))
    : value;
